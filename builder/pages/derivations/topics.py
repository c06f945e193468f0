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
    "style": "The builder's style",
    "log": "Logged flights",
    "air": "Air where it is flown",
    "pack": "Packs",
    "sizes": "Other packs of the shelf",
    "power": "Standing loads",
    "rail": "Loads of rails",
    "path": "Supply wires",
    "corner": "Packs full and empty",
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
    "till": "Prices at the till",
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


# What the third step of a key names in these topics, in words before it.
_SUBJECTS = {
    "flight": "battery ",
    "pack": "battery ",
    "corner": "battery ",
    "balance": "battery ",
    "log": "flight ",
    "gate": "gate ",
    "joint": "",
    "sizes": "",
    "heat": "",
}


def named_for(build: str, figure: Figure) -> str:
    """What a figure is, with the battery, flight, gate or joint that it belongs to."""
    steps = figure.key.split("/")
    if steps[0] != build or len(steps) < 4 or steps[1] not in _SUBJECTS:
        return figure.label
    subject = steps[2]
    if re.search(rf"(?<!\w){re.escape(subject)}(?!\w)", figure.label):
        return figure.label
    return f"{figure.label}, {_SUBJECTS[steps[1]]}{subject}"
