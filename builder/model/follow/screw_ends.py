"""What lies behind a screw's end, in closed words: a danger is not read out of free text."""

from collections.abc import Container

WORDS = ("pack", "pack bay", "board", "wire", "nothing")
OTHER = "other:"
HINT = (
    f"Write one of {', '.join(repr(w) for w in WORDS)}, the name of a part or battery of this build, "
    "or 'other: ' and what it is, in quotes."
)


def in_own_words(behind: str) -> str | None:
    """What `other: …` names; None for a word of the list or a name. Empty where nothing follows."""
    return behind.removeprefix(OTHER).strip() if behind.startswith(OTHER) else None


def is_known(behind: str, parts: Container[str], packs: Container[str]) -> bool:
    """Whether a person may write this: a word of the list, a name of the build, or `other:` with
    words.
    """
    return behind in WORDS or behind in parts or behind in packs or bool(in_own_words(behind))
