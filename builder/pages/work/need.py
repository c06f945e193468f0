"""A thing that steps of the work ask for, and by what a step is known to ask."""

import re
from collections.abc import Callable
from dataclasses import dataclass

from builder.compute.order.steps.work_step import WorkStep
from builder.pages.told_words import told_words

Asks = Callable[[WorkStep], bool]
_TINS = re.compile(r"\btin\b")


@dataclass(frozen=True)
class Need:
    """A thing that steps ask for: its name, what to look for, the first step, words by which an own
    part is known.
    """

    key: str
    consumable: bool
    name: str
    note: str
    words: tuple[str, ...]
    asks: Asks


def asks_by_action(*what: str) -> Asks:
    """Steps that do one of these."""
    return lambda s: s.do in what


def asks_by_name(*beginnings: str) -> Asks:
    """Steps whose names begin so."""
    return lambda s: s.id.startswith(beginnings)


def asks_by_words(pattern: str) -> Asks:
    """Steps whose words say so, a builder's own ones too."""
    return lambda s: bool(re.search(pattern, told_words(s.text)))


def either(one: Asks, other: Asks) -> Asks:
    """Steps that ask by one or the other."""
    return lambda s: one(s) or other(s)


def takes_iron(step: WorkStep) -> bool:
    """Whether the iron is taken up: also where the ends of a wire are tinned as it is cut."""
    return step.do in ("tin", "solder") or bool(_TINS.search(told_words(step.text)))
