"""Which topic a figure belongs to, for the page of numbers and the terminal: the second step of its
key.
"""

import re
from collections.abc import Iterable

from builder.compute.figures.figure import Figure

TOPICS = {
    "mass": "Weight",
    "limit": "Limits of weight",
    "balance": "Balance",
    "budget": "Money",
    "flight": "Flight",
    "hover": "Hover",
    "style": "How the builder flies",
    "log": "Logged flights",
    "air": "Air where it is flown",
    "pack": "Batteries",
    "sizes": "Other batteries of the shelf",
    "power": "Standing loads",
    "rail": "Loads of rails",
    "path": "Supply wires",
    "short": "A short at the battery leads",
    "corner": "Batteries full and empty",
    "discharge": "Emptying the boards after a gate",
    "gate": "Gates of the first power-up",
    "wiring": "Wires and solder",
    "wire": "Wires one by one",
    "heat": "Heat at the bench",
    "joint": "Heat of each joint",
    "stack": "Heights of stacks",
    "screws": "Screws",
    "radio": "Radio",
    "history": "Repairs and upkeep together",
    "incidents": "Repairs",
    "maintenance": "Upkeep",
    "price": "Prices of lines",
    "till": "What you pay",
    "copy": "What a copy weighs",
    "postage": "Postage",
    "swap": "Alternatives",
    "way": "Ways under a limit",
}
OTHER = "other"


def topic_of(build: str, key: str) -> str:
    """The topic of a figure's key; those that belong to no build, like a motor's bench, are
    'other'.
    """
    steps = key.split("/")
    return steps[1] if steps[0] == build and (len(steps) > 2 or steps[-1] in TOPICS) else OTHER


def topic_words(topic: str) -> str:
    """What a topic is about."""
    return TOPICS.get(
        topic, "Parts of the shelf and wire as such" if topic == OTHER else topic.capitalize()
    )


def by_topic(build: str, figures: Iterable[Figure]) -> dict[str, list[Figure]]:
    """Figures of each topic: topics that have words in that order, then the rest by name."""
    found: dict[str, list[Figure]] = {}
    for figure in figures:
        found.setdefault(topic_of(build, figure.key), []).append(figure)
    order = [*(t for t in TOPICS if t in found), *sorted(set(found) - set(TOPICS))]
    return {t: found[t] for t in order}


BATTERY = "battery "
# What the third step of a key names in these topics, in words before it.
_SUBJECTS = {
    "flight": BATTERY,
    "pack": BATTERY,
    "corner": BATTERY,
    "balance": BATTERY,
    "log": "flight ",
    "gate": "gate ",
    "joint": "",
    "sizes": "",
    "heat": "",
}


def _as_said(subject: str) -> str:
    """A battery of the shelf that is tried in the place of the build's own goes by its own name."""
    return subject.removeprefix("size-")


def subject_of(build: str, figure: Figure) -> str:
    """The battery, flight, gate or joint that a figure belongs to; '' for what is there once."""
    steps = figure.key.split("/")
    return _as_said(steps[2]) if steps[0] == build and len(steps) > 3 else ""


def column_words(topic: str) -> str:
    """What stands before the name of a column of likes; '' for topics whose likes have rows."""
    return _SUBJECTS.get(topic, "")


def named_for(build: str, figure: Figure) -> str:
    """What a figure is, with the battery, flight, gate or joint that it belongs to."""
    steps = figure.key.split("/")
    if steps[0] != build or len(steps) < 4 or steps[1] not in _SUBJECTS:
        return figure.label
    subject = _as_said(steps[2])
    if re.search(rf"(?<!\w){re.escape(subject)}(?!\w)", figure.label):
        return figure.label
    return f"{figure.label}, {_SUBJECTS[steps[1]]}{subject}"


def likes_of(build: str, figure: Figure) -> str:
    """What likes of several batteries, flights or joints have alike in their keys."""
    steps = figure.key.split("/")
    if steps[0] == build and len(steps) > 3 and steps[1] in _SUBJECTS:
        return "/".join(steps[3:])
    return steps[-1]


_FEWEST = 2  # words that names have to share before they are said once


def _shared(words: list[list[str]]) -> int:
    """How many words all lists have alike from their beginning."""
    count = 0
    for at in zip(*words, strict=False):
        if len(set(at)) > 1:
            break
        count += 1
    return count


def shared_words(names: tuple[str, ...]) -> tuple[str, tuple[str, ...]]:
    """What several names share, with an ellipsis for the rest, and the rest of each; nothing shared
    where that is little: '' and the names.
    """
    words = [n.split(" ") for n in names]
    shortest = min(map(len, words))
    start = min(_shared(words), shortest - 1)
    if start and words[0][start - 1] in {w.strip() for w in _SUBJECTS.values()}:
        start -= 1
    end = min(_shared([w[::-1] for w in words]), shortest - 1 - start)
    if len(names) < _FEWEST or start + end < _FEWEST:
        return "", names
    first = words[0]
    head, tail = " ".join(first[:start]), " ".join(first[len(first) - end :])
    rest = tuple(" ".join(w[start : len(w) - end]).removesuffix(",") for w in words)
    title = " ".join(
        p for p in (head.removesuffix(","), "" if head.endswith(",") else "…", tail) if p
    )
    return title, rest
