"""Values that break programs, by class, and how a source file is spoilt with them. Shared by
fuzzing and its tests.
"""

import random
import re
from collections.abc import Callable

NUMBERS = (
    "0",
    "-1",
    "1e999",
    "-1e999",
    "1e-400",
    "999999",
    "0.0000001",
    "٣",
    "²",
    ".nan",
    ".inf",
    "0x1F",
    "1_000",
    "010",
)
UNITS = (
    "g",
    "kg",
    "mm",
    "V",
    "A",
    "mAh",
    "AWG",
    "S",
    "ohm",
    "%",
    "degC",
    "min",
    "rpm/V",
    "MHz",
    "mW",
    "dBi",
    "EUR",
)
SHAPES = (
    "{}",
    "[]",
    "~",
    "''",
    "[[]]",
    "{a: {}}",
    "[~]",
    "none",
    "yes",
    "{'': ''}",
    "{maker: 0 g}",
    "{measured: ~}",
)
TEXTS: tuple[str, ...] = (
    "<script>alert(1)</script>",
    "../../secret",
    "=1+1",
    "a.b",
    "a.1.b",
    "a.².b",
    "2026-02-30",
    "0001-01-01",
    "9999-12-31",
)
TEXTS += (
    "0-0 V",
    "0S",
    "4S0P",
    "0 AWG",
    "0C",
    "0 A for 0 s",
    "0 x 0 mm M2",
    "0 mm, 0 mm, 0 mm",
    "14 ± 1e9 g",
    "𝕏",
    "é" * 300,
)

_QUANTITY = re.compile(
    r"(?<![\w.-])(\d+(?:\.\d+)?)(?="
    r" ?(?:g|kg|mm|V|A|mA|W|mW|mAh|AWG|S|C|ohm|mohm|%|degC|min|s|rpm/V|MHz|dBi|dBm|EUR|m|deg|uF)\b)"
)

Spoil = Callable[[list[str], random.Random], None]


def _value(lines: list[str], rng: random.Random) -> None:
    """Another value behind a colon."""
    at = rng.randrange(len(lines))
    head, colon, _ = lines[at].partition(": ")
    kinds = rng.choice((NUMBERS, SHAPES, TEXTS, UNITS))
    value = rng.choice(kinds)
    if kinds is NUMBERS and rng.random() < 0.7:
        value = f"{value} {rng.choice(UNITS)}"
    lines[at] = f"{head}{colon or ': '}{value}"


def _inner(lines: list[str], rng: random.Random) -> None:
    """Another value inside {a: b, c: d}."""
    at = rng.randrange(len(lines))
    pieces = lines[at].split(", ")
    i = rng.randrange(len(pieces))
    head, colon, old = pieces[i].partition(": ")
    tail = "".join(c for c in old if c in "]}")
    number, unit = rng.choice(NUMBERS), rng.choice(UNITS)
    value = rng.choice(
        (number, f"{number} {unit}", rng.choice(SHAPES), rng.choice(TEXTS), old.replace("1", "0"))
    )
    pieces[i] = f"{head}{colon}{value}{tail}"
    lines[at] = ", ".join(pieces)


def _remove(lines: list[str], rng: random.Random) -> None:
    del lines[rng.randrange(len(lines))]


def _repeat(lines: list[str], rng: random.Random) -> None:
    lines.insert(rng.randrange(len(lines)), rng.choice(lines))


def _swap(lines: list[str], rng: random.Random) -> None:
    a, b = rng.randrange(len(lines)), rng.randrange(len(lines))
    lines[a], lines[b] = lines[b], lines[a]


def _indent(lines: list[str], rng: random.Random) -> None:
    at = rng.randrange(len(lines))
    lines[at] = "  " + lines[at] if rng.random() < 0.5 else lines[at].removeprefix("  ")


def _digit(lines: list[str], rng: random.Random) -> None:
    """Another digit somewhere."""
    at = rng.randrange(len(lines))
    places = [i for i, c in enumerate(lines[at]) if c.isdigit()]
    if places:
        i = rng.choice(places)
        lines[at] = lines[at][:i] + rng.choice(("0", "9", "-", "1e9", "")) + lines[at][i + 1 :]


def _number(lines: list[str], rng: random.Random) -> None:
    """Another number before the same unit: what is read well and reaches the formulas."""
    places = [(i, m) for i, line in enumerate(lines) for m in _QUANTITY.finditer(line)]
    if places:
        at, match = rng.choice(places)
        number = rng.choice(
            (
                "0",
                "0.001",
                "1",
                "-1",
                "2",
                "10",
                "99",
                "1000",
                "1e-9",
                match[1] + "0",
                "0." + match[1],
            )
        )
        lines[at] = lines[at][: match.start(1)] + number + lines[at][match.end(1) :]


def _drop_item(lines: list[str], rng: random.Random) -> None:
    """One `key: value` of a group in braces goes."""
    places = [
        (i, m)
        for i, line in enumerate(lines)
        for m in re.finditer(r"(?:, |(?<=\{))[\w-]+: [^,{}\[\]]+(?=[,}])", line)
    ]
    if places:
        at, match = rng.choice(places)
        text = lines[at][: match.start()] + lines[at][match.end() :]
        lines[at] = text.replace("{, ", "{")


def _move_word(lines: list[str], rng: random.Random) -> None:
    """A word from one line to another: names that exist, where they are not due."""
    words = rng.choice(lines).replace(",", " ").replace("{", " ").split() or ["x"]
    at = rng.randrange(len(lines))
    pieces = lines[at].split(" ")
    pieces[rng.randrange(len(pieces))] = rng.choice(words)
    lines[at] = " ".join(pieces)


SPOILS: tuple[Spoil, ...] = (
    _value,
    _inner,
    _inner,
    _remove,
    _repeat,
    _swap,
    _indent,
    _digit,
    _move_word,
    *[_number, _drop_item] * 6,
)


def spoilt(text: str, seed: int) -> str:
    """A source file with one to four things in it changed; the same for the same seed."""
    rng = random.Random(seed)
    lines = text.split("\n")
    for _ in range(rng.choice((1, 1, 1, 2, 2, 3, 4))):
        if lines:
            rng.choice(SPOILS)(lines, rng)
    return "\n".join(lines)
