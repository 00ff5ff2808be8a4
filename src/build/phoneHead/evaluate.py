"""
How well a head hears the kept speakers: `evaluate.py --data DIR HEAD.onnx ... [--blank 0.5]`, on an ordinary processor,
with the app's own encoder file, quiet and in noise at 10 dB. The frames are kept in DIR/kept.npz for the next time.
"""

import argparse
import json
from pathlib import Path

import numpy as np
import onnxruntime
from phones import BLANK, ENCODER, ID, PAD, dictionary
from sayings import PHRASES, REPLIES, STATES

CONDITIONS = ("quiet", "10 dB")
WORDS = "on off up down left right yes no stop go".split()
OPPOSITES = {"on": "off", "off": "on", "up": "down", "down": "up", "left": "right", "right": "left"}
DIGITS = "zero oh one two three four five six seven eight nine".split()
NONE = -1e30


def level_of(sound):
    power = np.sort((sound[: len(sound) // 320 * 320].reshape(-1, 320) ** 2).mean(1))[::-1]
    return float(np.sqrt(power[: max(1, int(len(power) * 0.4 + 0.5))].mean()))


def noisy(sound, rng):
    """Noise of a cockpit: low and broad, with the hum of an engine."""
    f = np.maximum(np.fft.rfftfreq(len(sound), 1 / 16_000), 40)
    noise = np.fft.irfft(np.fft.rfft(rng.standard_normal(len(sound))) * f**-0.7, len(sound))
    t = np.arange(len(sound)) / 16_000
    hum = sum(np.sin(2 * np.pi * hertz * t + rng.uniform(0, 6)) / (at + 1) for at, hertz in enumerate((73, 146, 219, 400)))
    noise = noise / noise.std() + 0.5 * hum / hum.std()
    return sound + noise / level_of(noise) * level_of(sound) / 10**0.5


def frames_of(data):
    """The kept speakers' sounds through the encoder: entries, and for each condition their frames."""
    stored = data / "kept.npz"
    entries = [entry for entry in json.loads((data / "index.json").read_text()) if entry["split"] == "dev"]
    if not stored.exists():
        options = onnxruntime.SessionOptions()
        options.intra_op_num_threads = 1
        encoder = onnxruntime.InferenceSession(ENCODER, options)
        sets = {name: np.load(data / f"{name}.npy", mmap_mode="r") for name in {entry["set"] for entry in entries}}
        rng, frames = np.random.default_rng(10), {}
        for number, entry in enumerate(entries):
            sound = sets[entry["set"]][entry["at"] : entry["at"] + entry["length"]].astype(np.float32) / 32768
            for name, heard in zip(CONDITIONS, (sound, noisy(sound, rng))):
                level = level_of(heard)
                heard = np.clip(heard * (0.1 / level if level > 1e-5 else 1), -1, 1)
                fed = np.pad(heard, PAD).astype(np.float32)[None]
                frames[f"{name} {number}"] = encoder.run(None, {"input_values": fed})[0][0].astype(np.float16)
        np.savez(stored, **frames)
    frames = np.load(stored)
    return entries, {name: [frames[f"{name} {number}"].astype(np.float32) for number in range(len(entries))] for name in CONDITIONS}


def likelihoods(log_probs, labels, skips, ends):
    """Log probability of many phone strings at once. labels [S, L] with blanks between; ends: length of each."""
    score = np.full(labels.shape, NONE, np.float32)
    score[:, :2] = log_probs[0][labels[:, :2]]
    pad = np.full((len(labels), 2), NONE, np.float32)
    for row in log_probs[1:]:
        before = np.concatenate((pad, score), 1)
        both = np.logaddexp(score, before[:, 1:-1])
        score = np.logaddexp(both, np.where(skips, before[:, :-2], NONE)) + row[labels]
    at = np.arange(len(labels))
    return np.logaddexp(score[at, ends - 1], score[at, ends - 2])


def tables(strings):
    longest = 2 * max(len(string) for string in strings) + 1
    labels = np.zeros((len(strings), longest), np.int64)
    for row, string in enumerate(strings):
        labels[row, 1 : 2 * len(string) : 2] = string
    skips = np.zeros(labels.shape, bool)
    skips[:, 3::2] = labels[:, 3::2] != labels[:, 1:-2:2]
    return labels, skips, np.array([2 * len(string) + 1 for string in strings])


class Phrases:
    def __init__(self, texts, said):
        self.texts, strings, self.owner = texts, [], []
        for at, text in enumerate(texts):
            ways = [[]]
            for word in text.split():
                ways = [way + [ID[phone] for phone in phones] for way in ways for phones in said[word][:2]]
            strings += ways
            self.owner += [at] * len(ways)
        self.owner, self.tables = np.array(self.owner), tables(strings)
        self.sizes = np.array([min(len(s) for s, o in zip(strings, self.owner) if o == at) for at in range(len(texts))])

    def scores(self, log_probs):
        scores = np.full(len(self.texts), NONE)
        np.maximum.at(scores, self.owner, likelihoods(log_probs, *self.tables))
        return scores


def greedy(log_probs):
    best = log_probs.argmax(1)
    return [int(phone) for at, phone in enumerate(best) if phone != BLANK and (at == 0 or phone != best[at - 1])]


def digits_heard(log_probs, said):
    """The likeliest string of digits, any number of them, by the best path."""
    words = [(word, [ID[phone] for phone in phones]) for word in DIGITS for phones in said[word][:2]]
    labels, starts, finals, owner = [BLANK], [], [], []
    for word, phones in words:
        starts.append(len(labels))
        for phone in phones:
            labels += [phone, BLANK]
        finals.append(len(labels) - 1)
        owner.append(word)
    labels = np.array(labels)
    size = len(labels)
    # What may come before each state: itself, one back, two back; a word's first phone comes after any word's end.
    score, trail = np.full(size, NONE), [()] * size
    score[0] = log_probs[0][BLANK]
    for at in starts:
        score[at] = log_probs[0][labels[at]]
    first = {at: word for at, word in zip(starts, owner)}
    for at, word in first.items():
        trail[at] = (word,)
    ends = [(final, labels[final - 1]) for final in finals]
    for row in log_probs[1:]:
        fresh, told = np.full(size, NONE), [()] * size
        leaving = [(score[0], trail[0], BLANK)]
        for final, phone in ends:
            leaving += [(score[final], trail[final], BLANK), (score[final - 1], trail[final - 1], phone)]
        leaving.sort(key=lambda one: -one[0])
        fresh[0], told[0] = score[0] + row[BLANK], trail[0]
        for at in range(1, size):
            best, tale = score[at], trail[at]
            if at in first:
                for value, way, phone in leaving:
                    if value <= best:
                        break
                    if phone != labels[at]:
                        best, tale = value, (*way, first[at])
                        break
            else:
                if score[at - 1] > best:
                    best, tale = score[at - 1], trail[at - 1]
                if labels[at] != BLANK and at - 1 not in first and labels[at] != labels[at - 2] and score[at - 2] > best:
                    best, tale = score[at - 2], trail[at - 2]
            fresh[at], told[at] = best + row[labels[at]], tale
        score, trail = fresh, told
    best = max([0, *finals, *(final - 1 for final in finals)], key=lambda at: score[at])
    return ["zero" if word == "oh" else word for word in trail[best]]


def distance(a, b):
    row = list(range(len(b) + 1))
    for i, x in enumerate(a):
        row, last = [i + 1], row
        for j, y in enumerate(b):
            row.append(min(last[j] + (x != y), last[j + 1] + 1, row[j] + 1))
    return row[-1]


def report(head, entries, frames, blank):
    said = dictionary()
    texts = sorted({*STATES, *REPLIES, *PHRASES, *DIGITS[:1], *DIGITS[2:], "yes", "no", "stop", "go"})
    texts = [text for text in texts if all(word in said for word in text.split())]
    phrases = Phrases(texts, said)
    session = onnxruntime.InferenceSession(head)
    lines = []
    for name in CONDITIONS:
        words, strings, errors, sizes = {}, {"an4": [], "ocean": []}, {}, {}
        known, unknown = [], []
        for entry, x in zip(entries, frames[name]):
            log_probs = session.run(None, {"last_hidden_state": x[None]})[0][0]
            if blank:
                log_probs[:, BLANK] -= blank
                log_probs -= np.logaddexp.reduce(log_probs, 1, keepdims=True)
            free = greedy(log_probs)
            ways = [[ID[p] for way in entry["words"] for p in way[min(k, len(way) - 1)]] for k in range(2)]
            kind, text = entry["set"], entry["text"]
            errors[kind] = errors.get(kind, 0) + min(distance(free, way) for way in ways)
            sizes[kind] = sizes.get(kind, 0) + len(ways[0])
            if kind == "words":
                scores = phrases.scores(log_probs)
                order = np.argsort(-scores)
                best = texts[order[0]]
                each, margin = scores[order[0]] / (phrases.sizes[order[0]] + 1), scores[order[0]] - scores[order[1]]
                if text in WORDS:
                    words.setdefault(text, []).append((free in ways, best == text))
                    known.append((text, best, each, margin))
                elif text not in texts and text != "tree":
                    unknown.append((text, best, each, margin))
            elif set(text.split()) <= set(DIGITS):
                heard = digits_heard(log_probs, said)
                strings[kind].append((text.replace("oh", "zero").split(), heard))
        lines.append(f"\n### {name}\n\n| word | clips | greedy | best of {len(texts)} phrases |\n| --- | --- | --- | --- |")
        for word in WORDS:
            lines.append("| {} | {} | {} | {} |".format(word, len(words[word]), *(sum(x) for x in zip(*words[word]))))
        every = [one for word in WORDS for one in words[word]]
        lines.append("| all | {} | {:.1%} | {:.1%} |".format(len(every), *(sum(x) / len(every) for x in zip(*every))))
        six = [one for word in OPPOSITES for one in words[word]]
        lines.append("| six | {} | {:.1%} | {:.1%} |".format(len(six), *(sum(x) / len(six) for x in zip(*six))))
        lines.append("")
        for kind, pairs in strings.items():
            right = sum(text == heard for text, heard in pairs)
            short = sum(len(heard) < len(text) for text, heard in pairs)
            long = sum(len(heard) > len(text) for text, heard in pairs)
            lines.append(f"- digit strings, {kind}: {right} of {len(pairs)} right, {short} too short, {long} too long")
        for kind in errors:
            lines.append(f"- phone errors, {kind}: {errors[kind] / sizes[kind]:.1%}")
        for threshold in (-0.1, -0.2, -0.3, -0.4, -0.5, -0.6, -0.8):
            passed = [one for one in known if one[2] > threshold and one[3] > 1]
            right = sum(one[0] == one[1] for one in passed)
            opposite = sum(OPPOSITES.get(one[0]) == one[1] for one in passed)
            others = [one[:2] for one in unknown if one[2] > threshold and one[3] > 1]
            lines.append(
                f"- above {threshold} a phone and 1 over the next: right {right / len(known):.1%}, wrong {len(passed) - right} "
                f"(opposite {opposite}) of {len(known)}; unknown accepted {len(others)} of {len(unknown)}"
            )
    return "\n".join(lines)


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--data", type=Path, required=True)
    options.add_argument("--blank", type=float, default=0.0)
    options.add_argument("heads", nargs="*", type=Path)
    options = options.parse_args()
    entries, frames = frames_of(options.data)
    for head in options.heads:
        print(f"\n## {head.name}, blank lowered by {options.blank}\n" + report(head, entries, frames, options.blank), flush=True)


if __name__ == "__main__":
    main()
