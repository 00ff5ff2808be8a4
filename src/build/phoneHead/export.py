"""`export.py HEAD.pt OUT.onnx [--blank 0.5]` writes a head for the app; `--blank` lowers the logit of the blank."""

import argparse
from pathlib import Path

import torch
from head import SHAPES, Head
from phones import BLANK
from torch import nn


class Scored(nn.Module):
    def __init__(self, head):
        super().__init__()
        self.head = head

    def forward(self, frames):
        return self.head(frames).log_softmax(-1)


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("head", type=Path)
    options.add_argument("out", type=Path)
    options.add_argument("--blank", type=float, default=0.0)
    options = options.parse_args()
    stored = torch.load(options.head, map_location="cpu")
    head = Head(**SHAPES[stored["shape"]]).eval()
    head.load_state_dict(stored["weights"])
    with torch.no_grad():
        head.leave.bias[BLANK] -= options.blank
    torch.onnx.export(
        Scored(head),
        (torch.randn(1, 57, 288),),
        str(options.out),
        input_names=["last_hidden_state"],
        output_names=["log_probs"],
        dynamic_axes={"last_hidden_state": {1: "T"}, "log_probs": {1: "T"}},
        opset_version=17,
        dynamo=False,
    )


if __name__ == "__main__":
    main()
