"""What the synthetic voices say: words, numbers in all ways of saying, letters, read-backs, and any words at all."""

import re
from pathlib import Path

HERE = Path(__file__).parent
DIGITS = "zero one two three four five six seven eight nine".split()
TEENS = "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split()
TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()
# Digits as they are said on the radio, spelled so that the voices say them so.
RADIO = {"zero": "zero", "one": "wun", "three": "tree", "four": "foh er", "five": "fife", "nine": "niner"}
LETTERS = (
    "alfa bravo charlie delta echo foxtrot golf hotel india juliett kilo lima mike november oscar papa quebec romeo "
    "sierra tango uniform victor whiskey x-ray yankee zulu"
).split()
ALPHABET = "ay bee cee dee ee eff gee aitch eye jay kay el em en oh pee cue are ess tee you vee double-you ex why zee".split()
STATES = (
    "on off up down left right set armed closed locked checked complete open shut unlocked disarmed released removed clear "
    "connected disconnected normal stable low high automatic start stop neutral idle rich lean full retracted extended "
    "stowed secured latched tested verified received approved ready standby both away fastened signed completed selected "
    "confirmed cold hot green cut in out forward aft running guarded covered empty loaded balanced"
).split()
REPLIES = "yes|no|go|affirm|negative|say again|stand by|roger|wilco|check|correct|correction|disregard|contact|help".split("|")
PHRASES = (
    "all closed slides armed|all pumps on|altimeters are set|anti ice is on|area clear|beacon on|both engines stable|both off|"
    "both on|both closed|brake released|brake set|tug away|cabin signs are on|cables clear|cleared to push|cleared to start|"
    "closed and locked|closed and unlocked|open and locked|code is in|controls are free|engine failure|engine turning|"
    "failure after v one|flap is set|fuel is on|full left full right|generators on line|ground crew on the line|hot start|"
    "hung start|ignition off|it hangs|light up|no light|no oil pressure|not clear|not set|not armed|not stable|"
    "oil pressure is up|oil pressure rising|papers checked|parking brake is set|pin in place|power unit is off|pumps are on|"
    "push is approved|rejected takeoff|rotation seen|signs on|speeds are set|starter is out|stop before v one|taxi light is on|"
    "temperature too high|tow bar clear pin in hand|trim is set|we are cleared to start|we have light up|one side open|"
    "left magneto drop|fan turning|suction|check power|gear lever is down|cross feed is checked|leave it open|three green"
).split("|")
TAILS = "set|checked|up|down|on|off|left|right|percent|feet|knots|degrees|kilograms|pounds|complete|please|over|as required".split("|")


def trade_words():
    """The words of checklists in general that the app's dictionary is made for."""
    return re.search(r"`(.*?)`", (HERE.parent / "tradeWords.ts").read_text(), re.S)[1].split()


def below_hundred(n):
    if n < 10:
        return DIGITS[n]
    return TEENS[n - 10] if n < 20 else " ".join([TENS[n // 10 - 2]] + ([DIGITS[n % 10]] if n % 10 else []))


def below_thousand(n, rng):
    if n < 100:
        return below_hundred(n)
    rest = f" {rng.choice(['', '', 'and '])}{below_hundred(n % 100)}" if n % 100 else ""
    return f"{DIGITS[n // 100]} hundred{rest}"


def one_by_one(rng, least=2, most=6):
    """Digits one by one, plain or as on the radio, some with `oh`, with repeats as often as without."""
    count = rng.randint(least, most)
    pool = rng.sample(DIGITS, rng.randint(2, 5)) if rng.random() < 0.4 else DIGITS
    digits = [rng.choice(pool) for _ in range(count)]
    style = rng.random()
    if style < 0.4:
        digits = [RADIO.get(digit, digit) if rng.random() < 0.85 else digit for digit in digits]
    elif style < 0.55:
        digits = ["oh" if digit == "zero" else digit for digit in digits]
    return " ".join(digits)


def number(rng):
    kind = rng.randrange(8)
    if kind < 3:
        return one_by_one(rng)
    if kind == 3:
        return " ".join(below_hundred(rng.randint(10, 99)) for _ in range(rng.randint(1, 3)))
    if kind == 4:
        return below_thousand(rng.randint(100, 999), rng)
    if kind == 5:
        head = rng.choice([below_hundred(rng.randint(1, 45)), one_by_one(rng, 1, 2)])
        rest = rng.choice(["", f" {DIGITS[rng.randint(1, 9)]} hundred", f" {below_thousand(rng.randint(1, 999), rng)}"])
        return f"{head} {rng.choice(['thousand', 'thousand', 'tao zand'])}{rest}"
    if kind == 6:
        return f"{one_by_one(rng, 1, 3)} {rng.choice(['decimal', 'point'])} {one_by_one(rng, 1, 3)}"
    return f"{DIGITS[rng.randint(1, 9)]} {below_hundred(rng.randint(10, 99))}"


def letters(rng):
    return " ".join(rng.choice(LETTERS) for _ in range(rng.randint(1, 4)))


def runway(rng):
    side = rng.choice(["", " left", " right", " center"])
    return f"runway {one_by_one(rng, 2, 2)}{side}"


def clearance(rng):
    parts = [
        f"cleared to {rng.choice(['destination', 'the coast', 'golf', 'november'])}",
        f"{letters(rng)} {one_by_one(rng, 1, 1)} {rng.choice(LETTERS)} departure",
        runway(rng),
        f"{rng.choice(['climb', 'climb to', 'maintain', 'initially'])} {rng.choice(['flight level ', ''])}{number(rng)}",
        f"squawk {one_by_one(rng, 4, 4)}",
        f"{rng.choice(['departure', 'contact', 'frequency'])} one {one_by_one(rng, 2, 2)} decimal {one_by_one(rng, 1, 3)}",
        f"information {rng.choice(LETTERS)}",
        f"{rng.choice(['altimeter', 'q n h'])} {one_by_one(rng, 4, 4)}",
    ]
    return " ".join(rng.sample(parts, rng.randint(3, 5)))


def taxi(rng):
    via = " ".join(rng.choice(LETTERS) + rng.choice(["", "", f" {rng.choice(DIGITS)}"]) for _ in range(rng.randint(1, 4)))
    ends = ["", f" hold short {runway(rng)}", f" cross {runway(rng)}", f" holding point {rng.choice(LETTERS)} {rng.choice(DIGITS)}"]
    return f"taxi {rng.choice(['to ', ''])}{runway(rng)} via {via}{rng.choice(ends)}"


def value(rng):
    names = "v one|v r|rotate|v two|flap|flaps|trim|heading|altitude|speed|fuel|weight|torque|oil|power|drop|idle|suction|load"
    return f"{rng.choice(['', rng.choice(names.split('|')) + ' '])}{number(rng)} {rng.choice(['', rng.choice(TAILS)])}".strip()


def spelled(rng):
    return " ".join(rng.choice(ALPHABET) for _ in range(rng.randint(1, 4)))


def any_words(rng, words):
    return " ".join(rng.choice(words) for _ in range(rng.randint(1, 4)))


def saying(rng, words):
    """One thing to say. `words`: of which any may be said."""
    ways = [
        (14, lambda: rng.choice(STATES)),
        (3, lambda: rng.choice(REPLIES)),
        (6, lambda: " ".join(rng.choice(STATES) for _ in range(rng.randint(2, 4)))),
        (8, lambda: rng.choice(PHRASES)),
        (7, lambda: " ".join(rng.choice(trade) for _ in range(rng.randint(1, 3)))),
        (20, lambda: number(rng)),
        (12, lambda: one_by_one(rng, 2, 7)),
        (8, lambda: value(rng)),
        (4, lambda: letters(rng)),
        (3, lambda: spelled(rng)),
        (6, lambda: clearance(rng)),
        (5, lambda: taxi(rng)),
        (14, lambda: any_words(rng, words)),
    ]
    trade = trade_words()
    return rng.choices([way for _, way in ways], [weight for weight, _ in ways])[0]()
