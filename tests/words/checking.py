"""Which words of the list stand in a text, with the exceptions that the list names."""

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import yaml

LIST = Path(__file__).with_name("plain_words.yaml")


@dataclass(frozen=True)
class Word:
    """A pattern that is not written, what is written instead, and where it has another sense."""

    pattern: re.Pattern[str]
    instead: str
    allowed: tuple[re.Pattern[str], ...]


@cache
def words() -> tuple[Word, ...]:
    """The list."""
    entries = yaml.safe_load(LIST.read_text("utf-8"))
    return tuple(
        Word(
            re.compile(e["not"], re.IGNORECASE),
            e["but"],
            tuple(re.compile(a["in"], re.IGNORECASE) for a in e.get("allowed", ())),
        )
        for e in entries
    )


def hits(text: str) -> list[str]:
    """What a text says that is not said, each with what is said instead."""
    found = []
    for word in words():
        for match in word.pattern.finditer(text):
            near = text[max(0, match.start() - 30) : match.end() + 30]
            if not any(a.search(near) for a in word.allowed):
                found.append(f"{match.group()!r}: {word.instead}")
    return found
