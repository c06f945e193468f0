"""Closed words: what a person may write where a danger hangs on it. Anything else is a mistake that
lists them, but for `other: …`, which no rule judges.
"""

from collections.abc import Sequence
from typing import Annotated, Any

from builder.model.values.mistaken import wrong
from builder.model.values.plain_values import parse_text
from builder.model.values.quantities import reads

OTHER = "other:"
MATERIALS = (
    "steel",
    "stainless steel",
    "titanium",
    "aluminium",
    "brass",
    "carbon",
    "nylon",
    "plastic",
    "silicone",
    "rubber",
    "polyolefin",
    "wood",
)


def own_words(text: str) -> str | None:
    """What `other: …` says; None for a word of a list. Empty where nothing follows."""
    return text.removeprefix(OTHER).strip() if text.startswith(OTHER) else None


def one_word(value: Any, words: Sequence[str], rest: str = "") -> str:
    """One of the words, or `other: …` with something behind it; `rest` says where more words go."""
    text = parse_text(value)
    if text in words or own_words(text):
        return text
    plain = text.casefold()
    meant = [w for w in words if w in plain] or [w for w in words if plain in w]
    first = f"Perhaps {max(meant, key=len)!r}? " if meant else ""
    hint = f"{first}Write one of {', '.join(repr(w) for w in words)}, or 'other: ' and what it is,"
    problem = f"{text[:60]!r} is no word that fits here."
    raise wrong("data/not-a-choice", problem, f"{hint} in quotes.{rest}")


def _pattern(words: Sequence[str]) -> str:
    return "|".join((*words, rf"{OTHER}\s*\S[\s\S]*"))


LOST_LINK = ("motors stop", "lands", "comes home", "holds throttle")
FORMS = (
    "screw",
    "nut",
    "washer",
    "post",
    "spacer",
    "strap",
    "sleeve",
    "soft mount",
    "grommet",
    "cover",
)
OPEN_PLACES = ("usb", "button", "lens", "sensor", "socket", "connector", "antenna")

SEEN = tuple(
    view + latch
    for view in ("into the mating face", "from the wire side")
    for latch in ("", ", latch up", ", latch down")
)


def _seen(value: Any) -> str:
    """From where the contacts of a socket are counted: a plug that is read the wrong way round puts
    battery volts on a signal.
    """
    text = " ".join(parse_text(value).casefold().split())
    if text in SEEN:
        return text
    hint = f"Write one of {', '.join(repr(w) for w in SEEN)}, in quotes."
    problem = f"{text[:60]!r} does not say from where the contacts are counted."
    raise wrong("data/not-a-choice", problem, hint)


SeenFrom = Annotated[str, reads(_seen, "one of " + ", ".join(SEEN), SEEN[1], "|".join(SEEN))]
LostLink = Annotated[
    str,
    reads(
        lambda value: one_word(value, LOST_LINK, " Put anything else under note."),
        "one of " + ", ".join(LOST_LINK) + ", or 'other: ' and what it does",
        "motors stop",
        _pattern(LOST_LINK),
    ),
]
Form = Annotated[
    str,
    reads(
        lambda value: one_word(value, FORMS),
        "one of " + ", ".join(FORMS) + ", or 'other: ' and what it is",
        "screw",
        _pattern(FORMS),
    ),
]
Material = Annotated[
    str,
    reads(
        lambda value: one_word(value, MATERIALS),
        "one of " + ", ".join(MATERIALS) + ", or 'other: ' and what it is",
        "steel",
        _pattern(MATERIALS),
    ),
]
