"""The head: a small convolutional network from the encoder's frames to phones."""

import torch
import torch.nn.functional as F
from encoder import WIDTH
from phones import CLASSES
from torch import nn


class Block(nn.Module):
    def __init__(self, width, reach, dilation, dropout):
        super().__init__()
        self.along = nn.Conv1d(width, width, reach, padding=reach // 2 * dilation, dilation=dilation, groups=width)
        self.norm = nn.LayerNorm(width)
        self.up = nn.Linear(width, width * 2)
        self.down = nn.Linear(width * 2, width)
        self.dropout = nn.Dropout(dropout)

    def forward(self, x, inside=None):
        # Beside the sound there are zeros, in a batch as alone.
        if inside is not None:
            x = x * inside
        h = self.norm(self.along(x.transpose(1, 2)).transpose(1, 2))
        return x + self.dropout(self.down(self.dropout(F.gelu(self.up(h)))))


class Head(nn.Module):
    """Frames [B, T, 288] and their mask -> logits of blank and phones [B, T, 40]."""

    def __init__(self, width=192, reaches=(7, 7, 7), dilations=(1, 1, 1), dropout=0.15):
        super().__init__()
        self.norm_in = nn.LayerNorm(WIDTH)
        self.enter = nn.Linear(WIDTH, width)
        self.blocks = nn.ModuleList(Block(width, *shape, dropout) for shape in zip(reaches, dilations))
        self.norm_out = nn.LayerNorm(width)
        self.leave = nn.Linear(width, CLASSES)
        self.dropout = nn.Dropout(dropout)

    def forward(self, frames, mask=None):
        inside = None if mask is None else mask[..., None].to(frames.dtype)
        x = self.enter(self.dropout(self.norm_in(frames)))
        for block in self.blocks:
            x = block(x, inside)
        return self.leave(self.dropout(self.norm_out(x)))


# Trained side by side on the same frames; the best on the kept speakers is shipped.
SHAPES = {
    "even": dict(width=192, reaches=(7, 7, 7), dilations=(1, 1, 1)),
    "wide": dict(width=192, reaches=(9, 9, 9), dilations=(1, 2, 1)),
    "far": dict(width=192, reaches=(9, 11, 13), dilations=(1, 2, 2)),
    "deep": dict(width=168, reaches=(7, 7, 7, 7), dilations=(1, 1, 2, 1)),
}
