"""
Gathers the speech: `prepare.py --words DIR --an4 DIR --ocean DIR --out DIR` writes DIR/NAME.npy (16 kHz, 16 bit, all
sounds of a set one after the other) and DIR/index.json: for each sound its set, split (train or dev), speaker, text,
place, length and pronunciations (for each word a list of ways, each a list of phones).
"""

import argparse
import json
import random
import re
import subprocess
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import numpy as np
import soundfile
from phones import ID, dictionary
from sayings import saying
from scipy.signal import resample_poly

RATE = 16_000
SEED = 762
SYNTHETIC = 9_000
# Shares of the synthetic voices. Two more, rms and awb, speak only where the ear is measured.
VOICES = {"slt": 0.5, "kal16": 0.35, "kal": 0.15}
SPLITS = json.loads((Path(__file__).parent / "splits.json").read_text())


def split_of(kind, speaker):
    return "dev" if speaker in SPLITS[kind]["dev"] else "train"


def read(path):
    sound, rate = soundfile.read(path, dtype="int16")
    assert rate == RATE and sound.ndim == 1, path
    return sound


def crowd(folder):
    """Single words of Speech Commands: only speakers that are for tuning."""
    said = dictionary()
    for entry in json.loads((folder / "manifest.json").read_text()):
        if entry["set"] == "tuning":
            word, speaker = entry["word"], entry["speaker"]
            yield speaker, split_of("words", speaker), word, [said[word]], read(folder / entry["file"])


def an4(folder):
    """Spelled words, numbers and commands of native speakers, without those on whom the ear is measured."""
    said = {}
    for line in (folder / "etc/an4.dic").read_text().splitlines():
        word, *phones = line.split()
        said.setdefault(re.sub(r"\(\d+\)$", "", word), []).append(phones)
    lines = [
        (part, line) for part in ("train", "test") for line in (folder / f"etc/an4_{part}.transcription").read_text().splitlines()
    ]
    sounds = {path.stem: path for path in (folder / "wav").rglob("*.wav")}
    for _, line in lines:
        text, name = re.fullmatch(r"(.*) \((\S+)\)", line.strip()).groups()
        words = re.sub(r"</?s>", "", text).split()
        speaker = name.split("-")[1]
        if speaker in SPLITS["an4"]["kept"] or name not in sounds:
            continue
        yield speaker, split_of("an4", speaker), " ".join(words).lower(), [said[word] for word in words], read(sounds[name])


def ocean(folder):
    """Sentences of Mandarin speakers, children and adults: the training part only."""
    rows = lambda name: dict(line.split(None, 1) for line in (folder / name).read_text().splitlines())
    texts, speakers, paths = (rows(f"train/{name}") for name in ("text", "utt2spk", "wav.scp"))
    phones = {key: [re.sub(r"(_.)|\d", "", phone) for phone in value.split()] for key, value in rows("resource/text-phone").items()}
    for key, text in texts.items():
        words = text.lower().split()
        ways = [[phones.get(f"{key}.{at}", [])] for at in range(len(words))]
        if all(way[0] and all(phone in ID for phone in way[0]) for way in ways):
            speaker = speakers[key].strip()
            yield speaker, split_of("ocean", speaker), " ".join(words), ways, read(folder / paths[key].strip())


def spoken(job):
    """What flite makes of a text, and the phones that it said, after its own word."""
    text, voice, stretch, pitch = job
    with tempfile.NamedTemporaryFile(suffix=".wav") as file:
        setting = ["--setf", f"duration_stretch={stretch:.3f}", "--setf", f"int_f0_target_mean={pitch:.0f}"]
        command = ["flite", "-voice", voice, *setting, "-ps", "-t", text, "-o", file.name]
        heard = subprocess.run(command, capture_output=True, text=True, check=True).stdout.split()
        sound, rate = soundfile.read(file.name, dtype="float32")
    if rate != RATE:
        sound = resample_poly(sound, RATE, rate)
    phones = [{"ax": "AH"}.get(phone, phone.upper()) for phone in heard if phone != "pau"]
    return phones, (np.clip(sound, -1, 1) * 32767).astype(np.int16)


def synthetic(jobs_at_once=2):
    """Sayings of the product by the voices for training, at many speeds and pitches."""
    rng = random.Random(SEED)
    words = sorted(word for word in dictionary() if word.isalpha() and 3 <= len(word) <= 9)
    jobs = []
    for _ in range(SYNTHETIC):
        voice = rng.choices(list(VOICES), list(VOICES.values()))[0]
        text = saying(rng, words)
        jobs.append((text, voice, rng.uniform(0.75, 1.25), rng.uniform(85, 240)))
    with ThreadPoolExecutor(jobs_at_once) as pool:
        for (text, voice, *_), (phones, sound) in zip(jobs, pool.map(spoken, jobs)):
            if phones and all(phone in ID for phone in phones):
                yield voice, "train", text, [[phones]], sound


def main():
    options = argparse.ArgumentParser(description=__doc__)
    for name in ("words", "an4", "ocean", "out"):
        options.add_argument(f"--{name}", type=Path, required=True)
    options = options.parse_args()
    options.out.mkdir(parents=True, exist_ok=True)
    index = []
    sets = {
        "words": lambda: crowd(options.words),
        "an4": lambda: an4(options.an4),
        "ocean": lambda: ocean(options.ocean),
        "synthetic": synthetic,
    }
    for name, sounds_of in sets.items():
        sounds, at = [], 0
        for speaker, split, text, words, sound in sounds_of():
            index.append(
                {"set": name, "split": split, "speaker": speaker, "text": text, "at": at, "length": len(sound), "words": words}
            )
            sounds.append(sound)
            at += len(sound)
        np.save(options.out / f"{name}.npy", np.concatenate(sounds))
        print(f"{name}: {len(sounds)} sounds, {at / RATE / 60:.0f} minutes", flush=True)
    (options.out / "index.json").write_text(json.dumps(index))


if __name__ == "__main__":
    main()
