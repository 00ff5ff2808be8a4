"""
The encoder that the app ships, in PyTorch and in batches: its 8 bit weights taken out of the ONNX file, its inputs to
each product rounded per sound as the runtime does. It is never trained.
"""

import numpy as np
import onnx
import torch
import torch.nn.functional as F
from onnx import numpy_helper
from phones import ENCODER, PAD
from torch import nn

WIDTH = 288
HEADS = 8
LAYERS = 6
ROTATED = 32


def level_of(sounds, lengths):
    """RMS of the loudest 40 % of 20 ms frames of each sound, as the app takes it."""
    count = sounds.shape[1] // 320
    frames = (lengths // 320).clamp(max=count)
    power = (sounds[:, : count * 320].reshape(len(sounds), count, 320) ** 2).mean(2)
    at = torch.arange(count, device=sounds.device)[None]
    power = power.masked_fill(at >= frames[:, None], -1).sort(1, descending=True)[0].clamp(min=0)
    loud = (frames * 0.4 + 0.5).long().clamp(min=1)
    return ((power * (at < loud[:, None])).sum(1) / loud).sqrt()


def fed(sounds, lengths):
    """Sounds of a batch as the encoder is given them: at one level, silence on both sides. With their lengths."""
    level = level_of(sounds, lengths)
    gain = torch.where(level > 1e-5, 0.1 / level.clamp(min=1e-5), torch.ones_like(level))
    return F.pad((sounds * gain[:, None]).clamp(-1, 1), (PAD, PAD)), lengths + 2 * PAD


class Encoder(nn.Module):
    def __init__(self, path=ENCODER):
        super().__init__()
        model = onnx.load(path)
        stored = {one.name: numpy_helper.to_array(one) for one in model.graph.initializer}
        weights = {}

        def keep(name, array):
            weights[name] = torch.tensor(np.array(array, dtype=np.float32))

        for conv in ("conv1", "conv2", "conv3"):
            scale, zero = stored[f"{conv}.weight_scale"], stored[f"{conv}.weight_zero_point"]
            keep(f"{conv}_w", stored[f"{conv}.weight_quantized"].astype(np.float32) * scale + zero)
            if f"{conv}.bias" in stored:
                keep(f"{conv}_b", stored[f"{conv}.bias"])
        keep("group_w", stored["onnx::Mul_1488"].ravel())
        keep("group_b", stored["onnx::Add_1489"].ravel())
        for node in model.graph.node:
            if node.op_type == "MatMulInteger":
                name = node.input[1].removesuffix("_quantized")
                exact = stored[f"{name}_quantized"].astype(np.float32) - stored[f"{name}_zero_point"].astype(np.float32)
                layer, part = node.name.split("/")[1].split(".")[1], node.name.split("/")[3]
                keep(f"{layer}_{part}_w", exact * stored[f"{name}_scale"])
            if node.op_type == "InstanceNormalization":
                self.group_epsilon = node.attribute[0].f
        for name, array in stored.items():
            if name.startswith("layers."):
                _, layer, module, *rest = name.split(".")
                part = {"input_layernorm": "norm1", "post_attention_layernorm": "norm2"}.get(module) or f"{rest[0]}_b"
                keep(f"{layer}_{part}", array)
        keep("norm", stored["layer_norm.weight"])
        keep("rates", stored["/rotary_emb/Cast_1_output_0"].ravel())
        self.names = list(weights)
        for name, weight in weights.items():
            self.register_buffer(f"w_{name}", weight)
        self.out = "dense" if "0_dense_w" in weights else "o_proj"
        self.epsilon = float(stored.get("/layers.0/input_layernorm/Constant_1_output_0", 1e-5))

    def w(self, name):
        return getattr(self, f"w_{name}", None)

    @staticmethod
    def lengths_of(samples):
        """Of samples: frames after the first convolution and after the last."""
        first = (samples - 127) // 64 + 1
        return first, (((first - 7) // 3 + 1) - 3) // 2 + 1

    @staticmethod
    def product(x, weight, mask):
        inside = x.masked_fill(~mask[..., None], 0)
        low = inside.amin((1, 2), keepdim=True).clamp(max=0)
        high = inside.amax((1, 2), keepdim=True).clamp(min=0)
        scale = ((high - low) / 255).clamp(min=1e-9)
        zero = torch.round(-low / scale).clamp(0, 255)
        return (torch.clamp(torch.round(x / scale) + zero, 0, 255) - zero) * scale @ weight

    @torch.no_grad()
    def forward(self, sounds, lengths):
        """Sounds [B, N] -> frames [B, T, 288], how many of them count, and the mask of those."""
        w = self.w
        first, count = self.lengths_of(lengths)
        x = torch.tanh(F.conv1d(sounds[:, None], w("conv1_w"), stride=64))
        inside = (torch.arange(x.shape[2], device=x.device)[None] < first[:, None])[:, None].to(x.dtype)
        size = (first * x.shape[1]).to(x.dtype)[:, None, None]
        mean = (x * inside).sum((1, 2), keepdim=True) / size
        variance = (((x - mean) * inside) ** 2).sum((1, 2), keepdim=True) / size
        x = (x - mean) / torch.sqrt(variance + self.group_epsilon) * w("group_w")[:, None] + w("group_b")[:, None]
        x = F.gelu(F.conv1d(x, w("conv2_w"), w("conv2_b"), stride=3))
        x = F.gelu(F.conv1d(x, w("conv3_w"), w("conv3_b"), stride=2)).transpose(1, 2)
        batch, time, _ = x.shape
        at = torch.arange(time, device=x.device)
        mask = at[None] < count[:, None]
        angle = (at.float()[:, None] * w("rates")[None]).repeat_interleave(2, -1)
        cos, sin = angle.cos(), angle.sin()

        def rotated(q):
            turned, rest = q[..., :ROTATED], q[..., ROTATED:]
            half = torch.stack((-turned[..., 1::2], turned[..., 0::2]), -1).flatten(-2)
            return torch.cat((turned * cos + half * sin, rest), -1)

        for layer in range(LAYERS):
            part = lambda name: w(f"{layer}_{name}")
            h = F.layer_norm(x, (WIDTH,), part("norm1"), None, self.epsilon)
            q, k, v = (
                self.product(h, part(f"{name}_w"), mask).view(batch, time, HEADS, WIDTH // HEADS).transpose(1, 2)
                for name in ("q_proj", "k_proj", "v_proj")
            )
            seen = F.scaled_dot_product_attention(rotated(q), rotated(k), v, attn_mask=mask[:, None, None, :])
            x = x + self.product(seen.transpose(1, 2).reshape(batch, time, WIDTH), part(f"{self.out}_w"), mask)
            h = F.layer_norm(x, (WIDTH,), part("norm2"), None, self.epsilon)
            h = F.gelu(self.product(h, part("fc1_w"), mask) + part("fc1_b"))
            x = x + self.product(h, part("fc2_w"), mask) + part("fc2_b")
        return F.layer_norm(x, (WIDTH,), w("norm"), None, self.epsilon), count, mask
