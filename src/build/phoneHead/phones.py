"""The phones of the head, how words are said in them, and what the app ships that the head works with."""

import re
from pathlib import Path

PHONES = (
    "AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH"
).split()
BLANK = 0
ID = {phone: at + 1 for at, phone in enumerate(PHONES)}
CLASSES = len(PHONES) + 1

# Samples of silence on each side of a sound, and to a frame.
PAD = 3200
HOP = 384

PACKAGES = Path(__file__).parents[3] / "node_modules"
DICTIONARY = PACKAGES / "soundswallower/model/en-us/dict.txt"
ENCODER = PACKAGES / "@moonshine-ai/moonshine-js/dist/model/tiny/quantized/encoder_model.onnx"


def dictionary(path=DICTIONARY):
    """Word in lower case -> its pronunciations, each a list of phones."""
    said = {}
    for line in Path(path).read_text().splitlines():
        word, *phones = line.split()
        if phones and all(phone in ID for phone in phones):
            said.setdefault(re.sub(r"\(\d+\)$", "", word).lower(), []).append(phones)
    return said
