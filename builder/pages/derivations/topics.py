"""Which topic a figure belongs to, for the page of numbers and the terminal: the second step of its
key.
"""

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
