"""Sounds in batches on the accelerator: cut, joined, at other speeds, in rooms, in noise."""

import json
import random

import numpy as np
import torch
import torch.nn.functional as F
import torchaudio.functional as audio
from encoder import fed, level_of
from phones import HOP, ID, PAD

SPEEDS = [(1, 1), (1, 1), (9, 10), (19, 20), (21, 20), (11, 10), (17, 20), (23, 20)]
NOISE_SECONDS = 16
DIGITS = set("zero oh one two three four five six seven eight nine".split())


class Clip:
    """Pieces of stored sound, each (from, length, place in the clip), and what is said in them."""

    def __init__(self, kind, pieces, words, length, faded=False, speaker="", text=""):
        self.kind, self.pieces, self.words, self.length = kind, pieces, words, length
        self.faded, self.speaker, self.text = faded, speaker, text

    def phones(self, rng):
        """The phones of one way of saying it: mostly the first of each word."""
        ways = [word[0] if len(word) == 1 or rng.random() < 0.5 else rng.choice(word) for word in self.words]
        return [ID[phone] for way in ways for phone in way]


class Store:
    """All sounds for training, and the clips that are made of them."""

    def __init__(self, folder, device, seed):
        self.rng = random.Random(seed)
        self.device = device
        entries = json.loads((folder / "index.json").read_text())
        names = sorted({entry["set"] for entry in entries})
        arrays = [np.load(folder / f"{name}.npy") for name in names]
        starts = dict(zip(names, np.cumsum([0] + [len(array) for array in arrays]).tolist()))
        self.host = np.concatenate(arrays)
        self.pool = torch.from_numpy(self.host).to(device)
        self.clips = {name: [] for name in ("words", "an4", "ocean", "synthetic")}
        for entry in entries:
            if entry["split"] == "train":
                piece = (starts[entry["set"]] + entry["at"], entry["length"], 0)
                said = {"speaker": entry["speaker"], "text": entry["text"]}
                self.clips[entry["set"]].append(Clip(entry["set"], [piece], entry["words"], entry["length"], **said))
        self.spoken = [self.span(clip) for clip in self.clips["words"]]
        self.aligned = []

    def span(self, clip):
        """Where in a clip of one word the word is: (from, length) in the pool."""
        start, length, _ = clip.pieces[0]
        frames = length // 160
        power = (self.host[start : start + frames * 160].reshape(frames, 160).astype(np.float32) ** 2).mean(1)
        loud = np.flatnonzero(power > power.max() * 10**-2.8)
        return start, int(loud[0]), int(loud[-1]), frames

    def joined(self, clips, spans, gap):
        """Single words one after the other, cut close, as if said as one."""
        pieces, words, place = [], [], 0
        for clip, (start, first, last, frames) in zip(clips, spans):
            a = max(0, first - self.rng.randrange(2, 9)) * 160
            b = min(frames, last + self.rng.randrange(3, 11)) * 160
            pieces.append((start + a, b - a, place))
            words += clip.words
            place += b - a + self.rng.randrange(0, gap)
        return Clip("joined", pieces, words, place, faded=True)

    def joined_words(self, count):
        by_speaker = {}
        for at, clip in enumerate(self.clips["words"]):
            by_speaker.setdefault(clip.speaker, []).append(at)
        several = [speaker for speaker, at in by_speaker.items() if len(at) > 1]
        for _ in range(count):
            pool = by_speaker[self.rng.choice(several)] if self.rng.random() < 0.7 else range(len(self.clips["words"]))
            chosen = [self.rng.choice(pool) for _ in range(self.rng.choice([2, 2, 3, 4]))]
            yield self.joined([self.clips["words"][at] for at in chosen], [self.spoken[at] for at in chosen], 3200)

    def learn_places(self, clips, places):
        """For clips of sentences: the first and last frame of each word, found by the head in training."""
        self.aligned = [(clip, words) for clip, words in zip(clips, places) if words]
        self.digits = {}
        for clip, words in self.aligned:
            for at in range(len(words)):
                if clip.text.split()[at] in DIGITS:
                    self.digits.setdefault(clip.speaker, []).append((clip, words, at))

    def piece(self, clip, words, at, count=1):
        """The part of a clip from word `at`, some words long: (from, length) in the pool; half of each gap is left."""
        start, length, _ = clip.pieces[0]
        first, last = words[at][0], words[at + count - 1][1]
        before = words[at - 1][1] if at else first - 10
        after = words[at + count][0] if at + count < len(words) else last + 10
        a = first - min(4, (first - before) / 2)
        b = last + min(5, max(1, (after - last) / 2))
        a, b = max(0, int(a * HOP + 300 - PAD)), min(length, int(b * HOP + 500 - PAD))
        return start + a, b - a

    def cut(self, count):
        """Single words, and two or three, out of sentences."""
        while self.aligned and count > 0:
            clip, words = self.rng.choice(self.aligned)
            at = self.rng.randrange(len(words))
            many = min(len(words) - at, self.rng.choice([1, 1, 1, 2, 2, 3]))
            said = clip.words[at : at + many]
            start, length = self.piece(clip, words, at, many)
            if length >= 1600 and sum(len(word[0]) for word in said) >= 2:
                count -= 1
                yield Clip("cut", [(start, length, 0)], said, length, faded=True)

    def digit_strings(self, count):
        """New strings of digits that one person has said elsewhere, repeats among them."""
        speakers = [one for one, digits in self.digits.items() if len(digits) >= 4] if self.aligned else []
        for _ in range(count if speakers else 0):
            pool = self.digits[self.rng.choice(speakers)]
            pieces, words, place = [], [], 0
            gap = self.rng.choice([400, 1600, 4000])
            for _ in range(self.rng.randrange(2, 8)):
                clip, places, at = self.rng.choice(pool)
                if words and self.rng.random() < 0.12:
                    clip, places, at = again
                again = clip, places, at
                start, length = self.piece(clip, places, at)
                pieces.append((start, length, place))
                words.append(clip.words[at])
                place += length + self.rng.randrange(gap)
            yield Clip("cut", pieces, words, place, faded=True)

    def epoch(self, shares):
        """The clips of one pass in batches of like length. `shares`: how often each kind comes."""
        clips = []
        for name, times in shares["times"].items():
            some = self.clips[name]
            clips += some * int(times) + self.rng.sample(some, int(len(some) * (times % 1)))
        digits = [c for name in ("ocean", "an4") for c in self.clips[name] if set(c.text.split()) <= DIGITS]
        clips += digits * shares["digits"]
        clips += list(self.joined_words(shares["joined"])) + list(self.cut(shares["cut"]))
        clips += list(self.digit_strings(shares["strings"]))
        clips += [Clip("empty", [], [], self.rng.randrange(8_000, 48_000)) for _ in range(shares["empty"])]
        clips.sort(key=lambda clip: clip.length * self.rng.uniform(0.85, 1.15))
        batches, batch = [], []
        for clip in clips:
            if batch and (clip.length * (len(batch) + 1) > 16_000 * 300 or len(batch) >= 144):
                batches.append(batch)
                batch = []
            batch.append(clip)
        batches.append(batch)
        self.rng.shuffle(batches)
        return batches

    def sound_of(self, clips, silence=0):
        """Clips of a batch with up to `silence` samples on both sides of some, and their lengths."""
        some = lambda clip: (
            self.rng.randrange(800, 7000)
            if silence and clip.kind in ("cut", "joined")
            else self.rng.randrange(silence) if silence and self.rng.random() < 0.5 else 0
        )
        before, after = [some(clip) for clip in clips], [some(clip) for clip in clips]
        lengths = [clip.length + a + b for clip, a, b in zip(clips, before, after)]
        sounds = torch.zeros(len(clips), max(lengths), device=self.device)
        for row, (clip, lead) in enumerate(zip(clips, before)):
            for start, length, place in clip.pieces:
                part = self.pool[start : start + length].float() / 32768
                if clip.faded:
                    ramp = torch.linspace(0, 1, min(160, length // 4), device=self.device)
                    part[: len(ramp)] *= ramp
                    part[-len(ramp) :] *= ramp.flip(0)
                sounds[row, lead + place : lead + place + length] += part[: max(0, sounds.shape[1] - lead - place)]
        return sounds, torch.tensor(lengths, device=self.device)


def coloured(samples, rng):
    """Noise of one of many kinds: of a fan, a road, an engine with its hum; some of it unsteady."""
    f = np.maximum(np.fft.rfftfreq(samples, 1 / 16_000), 20)
    shapes = [
        lambda: f**-0.5,
        lambda: f**-1,
        lambda: np.ones_like(f),
        lambda: 1 / (1 + (f / rng.uniform(150, 900)) ** 2),
        lambda: np.exp(-0.5 * (np.log(f / rng.uniform(300, 2500)) / rng.uniform(0.4, 1)) ** 2),
        lambda: f**-0.8 * (1 + 2 * np.exp(-0.5 * ((f - rng.uniform(500, 3000)) / 300) ** 2)),
    ]
    x = np.fft.irfft(np.fft.rfft(rng.standard_normal(samples)) * shapes[rng.integers(len(shapes))](), samples)
    x /= x.std()
    if rng.random() < 0.45:
        t = np.arange(samples) / 16_000
        base = rng.choice([50, 60, 400, rng.uniform(70, 220)])
        hum = sum(
            rng.uniform(0.1, 1) / n * np.sin(2 * np.pi * base * n * t * (1 + 0.002 * np.sin(2 * np.pi * 0.3 * t)) + rng.random() * 6)
            for n in range(1, 12)
            if base * n < 7500
        )
        x = x + hum / hum.std() * rng.uniform(0.3, 1.5)
    if rng.random() < 0.3:
        knots = samples // 8000 + 2
        x *= 1 + 0.6 * np.interp(np.arange(samples), np.arange(knots) * 8000, rng.standard_normal(knots)).clip(-1, 1)
    return (x / x.std()).astype(np.float32)


class Spoiler:
    """Puts sounds of a batch at another speed, into a room, behind another microphone and into noise."""

    def __init__(self, device, seed):
        rng = np.random.default_rng(seed)
        self.rng = random.Random(seed)
        self.device = device
        bank = [coloured(16_000 * NOISE_SECONDS, rng) for _ in range(140)]
        self.bank = torch.tensor(np.stack(bank), device=device).repeat(1, 2)

    def chance(self, batch, share):
        return torch.rand(batch, 1, device=self.device) < share

    def uniform(self, batch, low, high):
        return torch.rand(batch, 1, device=self.device) * (high - low) + low

    def __call__(self, sounds, lengths, empty):
        a, b = self.rng.choice(SPEEDS)
        if a != b:
            sounds, lengths = audio.resample(sounds, a * 10, b * 10), lengths * b // a
        batch, size = sounds.shape
        lengths = lengths.clamp(max=size)
        inside = torch.arange(size, device=self.device)[None] < lengths[:, None]
        sounds = self.in_room(sounds) * inside
        level = level_of(sounds, lengths)[:, None]
        noise = self.noise(sounds, level, batch, size)
        loudness = level * 10 ** (-self.uniform(batch, 2, 30) / 20)
        loudness = torch.where(self.chance(batch, 0.2), loudness * 0.003, loudness)
        loudness = torch.where(empty[:, None], self.uniform(batch, 1e-4, 0.05), loudness)
        sounds = (sounds + noise * loudness) * inside
        ready, lengths = fed(sounds, lengths)
        return (ready * 10 ** (self.uniform(batch, -0.1, 0.1))).clamp(-1, 1), lengths

    def in_room(self, sounds):
        batch, size = sounds.shape
        reach = 6400
        t = torch.arange(reach, device=self.device)[None] / 16_000
        decay = torch.exp(-6.9 * t / self.uniform(batch, 0.06, 0.41)) * (t > 0.002)
        room = torch.randn(batch, reach, device=self.device) * decay
        room = room / room.norm(dim=1, keepdim=True) * self.uniform(batch, 0, 0.7) * self.chance(batch, 0.4)
        room[:, 0] = 1
        spectrum = torch.fft.rfft(sounds, size + reach)
        tone = F.interpolate(torch.randn(batch, 1, 9, device=self.device) * 3.5, spectrum.shape[1], mode="linear", align_corners=True)
        tone = 10 ** (tone[:, 0] * self.chance(batch, 0.6) / 20)
        return torch.fft.irfft(spectrum * torch.fft.rfft(room, size + reach) * tone, size + reach)[:, :size]

    def noise(self, sounds, level, batch, size):
        rows = torch.randint(len(self.bank), (batch,), device=self.device)
        start = self.rng.randrange(16_000 * NOISE_SECONDS)
        noise = self.bank[rows][:, start : start + size]
        noise = F.pad(noise, (0, size - noise.shape[1]))
        if batch > 5:
            others = lambda: torch.randperm(batch, device=self.device)
            talk = sum(
                torch.roll((sounds / (level + 1e-4))[others()], self.rng.randrange(size), 1) for _ in range(self.rng.choice([2, 4, 6]))
            )
            talk = talk / (talk.std(1, keepdim=True) + 1e-6)
            noise = torch.where(self.chance(batch, 0.2), talk, noise)
        return noise


def places_of(log_probs, counts, targets, words):
    """
    Of a batch: first and last frame of each word by the best path, or nothing where there is none. `targets`: phones of
    each sound; `words`: how many phones each of its words has.
    """
    batch, time, _ = log_probs.shape
    device = log_probs.device
    states = 2 * max(len(target) for target in targets) + 1
    labels = torch.zeros(batch, states, dtype=torch.long)
    for row, target in enumerate(targets):
        labels[row, 1 : 2 * len(target) : 2] = torch.tensor(target)
    skips = torch.zeros(batch, states, dtype=torch.bool)
    skips[:, 3::2] = labels[:, 3::2] != labels[:, 1:-2:2]
    labels, skips = labels.to(device), skips.to(device)
    none = torch.full((batch, 2), -1e30, device=device)
    score = torch.full((batch, states), -1e30, device=device)
    score[:, :2] = log_probs[:, 0].gather(1, labels[:, :2])
    back, scores = [], [score]
    for t in range(1, time):
        before = torch.cat((none, score), 1)
        ways = torch.stack((score, before[:, 1:-1], before[:, :-2].masked_fill(~skips, -1e30)))
        best, way = ways.max(0)
        score = best + log_probs[:, t].gather(1, labels)
        back.append(way)
        scores.append(score)
    back, scores = torch.stack(back).cpu().numpy(), torch.stack(scores).cpu().numpy()
    found = []
    for row, target in enumerate(targets):
        last, state = int(counts[row]) - 1, 2 * len(target)
        if scores[last, row, state - 1] > scores[last, row, state]:
            state -= 1
        path = [state]
        for t in range(last - 1, -1, -1):
            state -= int(back[t, row, state])
            path.append(state)
        path = np.array(path[::-1])
        frames = [np.flatnonzero(path == 2 * at + 1) for at in range(len(target))]
        ends = np.cumsum([0, *words[row]])
        whole = all(len(frame) for frame in frames)
        found.append([(int(frames[a][0]), int(frames[b - 1][-1])) for a, b in zip(ends, ends[1:])] if whole else [])
    return found
