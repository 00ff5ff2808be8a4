"""
Trains the heads on the frozen encoder: `train.py --data DIR --out DIR --seconds 420 [--seed 0]`. Writes DIR/NAME.pt for
each shape of head: the mean of its weights over the last steps.
"""

import argparse
import copy
import math
import time
from pathlib import Path

import torch
import torch.nn.functional as F
from encoder import Encoder, fed
from head import SHAPES, Head
from sounds import Spoiler, Store, places_of

DEVICE = "cuda"
RATE = 2e-3
# How often each set comes in one pass, and how many clips are made anew.
SHARES = {
    "times": {"words": 1, "an4": 2, "ocean": 1, "synthetic": 0.5},
    "digits": 3,
    "joined": 1000,
    "cut": 3200,
    "strings": 1000,
    "empty": 150,
}
# Share of the time after which single words are cut out of sentences.
CUT_AFTER = 0.15


def learn_places(store, encoder, head):
    """Finds the words in all sentences with the head as it is."""
    head.eval()
    clips = sorted(store.clips["ocean"] + store.clips["an4"], key=lambda clip: clip.length)
    places = []
    for at in range(0, len(clips), 64):
        part = clips[at : at + 64]
        targets = [[phone for phone in clip.phones(FirstWay)] for clip in part]
        words = [[len(word[0]) for word in clip.words] for clip in part]
        frames, counts, mask = encoder(*ready(store, part))
        with torch.no_grad():
            places += places_of(head(frames, mask).log_softmax(-1), counts, targets, words)
    head.train()
    store.learn_places(clips, places)
    print(f"words found in {len(store.aligned)} of {len(clips)} sentences", flush=True)


class FirstWay:
    """Chooses the first way of saying each word."""

    random = staticmethod(lambda: 0)


def ready(store, clips):
    return fed(*store.sound_of(clips))


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--data", type=Path, required=True)
    options.add_argument("--out", type=Path, required=True)
    options.add_argument("--seconds", type=float, default=420)
    options.add_argument("--seed", type=int, default=0)
    options.add_argument("--shapes", nargs="+", default=list(SHAPES))
    options.add_argument("--start", type=Path, help="folder of heads to go on from")
    options.add_argument("--rate", type=float, default=RATE)
    options = options.parse_args()
    torch.manual_seed(options.seed)
    torch.backends.cuda.matmul.allow_tf32 = True
    torch.backends.cudnn.allow_tf32 = True
    encoder = Encoder().to(DEVICE).eval()
    store, spoil = Store(options.data, DEVICE, options.seed), Spoiler(DEVICE, options.seed)
    print({name: len(clips) for name, clips in store.clips.items()}, flush=True)
    heads = {name: Head(**shape).to(DEVICE).train() for name, shape in SHAPES.items() if name in options.shapes}
    for name, head in heads.items():
        if options.start:
            head.load_state_dict(torch.load(options.start / f"{name}.pt")["weights"])
    means = {name: copy.deepcopy(head) for name, head in heads.items()}
    print({name: sum(one.numel() for one in head.parameters()) for name, head in heads.items()}, flush=True)
    weights = [one for head in heads.values() for one in head.parameters()]
    optimiser = torch.optim.AdamW(weights, weight_decay=0.02, betas=(0.9, 0.98))
    started, step, losses, placed = time.time(), 0, {name: 0.0 for name in heads}, False
    while (done := (time.time() - started) / options.seconds) < 1:
        if not placed and done > CUT_AFTER:
            learn_places(store, encoder, next(iter(heads.values())))
            placed = True
        for clips in store.epoch(SHARES):
            done = (time.time() - started) / options.seconds
            if done >= 1 or (not placed and done > CUT_AFTER):
                break
            for group in optimiser.param_groups:
                group["lr"] = options.rate * min(1, (step + 1) / 200) * 0.5 * (1 + math.cos(math.pi * done)) + 1e-6
            empty = torch.tensor([clip.kind == "empty" for clip in clips], device=DEVICE)
            sounds, lengths = spoil(*store.sound_of(clips, 5000), empty)
            targets = [clip.phones(store.rng) for clip in clips]
            sizes = torch.tensor([len(target) for target in targets], device=DEVICE)
            target = torch.tensor([phone for one in targets for phone in one], dtype=torch.long, device=DEVICE)
            frames, counts, mask = encoder(sounds, lengths)
            if store.rng.random() < 0.5:
                at = store.rng.randrange(frames.shape[1])
                frames[:, at : at + store.rng.randrange(1, 5)] = 0
            total = 0
            for name, head in heads.items():
                log_probs = head(frames, mask).float().log_softmax(-1).transpose(0, 1)
                loss = F.ctc_loss(log_probs, target, counts, sizes, reduction="none", zero_infinity=True)
                loss = (loss / sizes.clamp(min=4)).mean()
                total = total + loss
                losses[name] += loss.detach()
            optimiser.zero_grad(set_to_none=True)
            total.backward()
            for head in heads.values():
                torch.nn.utils.clip_grad_norm_(head.parameters(), 2.0)
            optimiser.step()
            step += 1
            keep = min(0.999, (step + 1) / (step + 50))
            with torch.no_grad():
                for name, head in heads.items():
                    for mean, one in zip(means[name].parameters(), head.parameters()):
                        mean.lerp_(one, 1 - keep)
            if step % 300 == 0:
                shown = {name: round(float(loss) / 300, 3) for name, loss in losses.items()}
                print(f"step {step}, {time.time() - started:.0f} s, {shown}", flush=True)
                losses = {name: 0.0 for name in heads}
    options.out.mkdir(parents=True, exist_ok=True)
    for name, mean in means.items():
        torch.save({"shape": name, "weights": mean.cpu().state_dict()}, options.out / f"{name}.pt")
    print(f"{step} steps in {time.time() - started:.0f} s")


if __name__ == "__main__":
    main()
