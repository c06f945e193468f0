"""The values that are taken where nobody says another, from builder/assumed.toml: each with its unit
and where it is from.

    _ROOM = assumed("supply/capacitor-room")
    _LOW, _HIGH = assumed_list("first power-up/beep-below")
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

_FILE = Path(__file__).resolve().parent.parent / "assumed.toml"


@dataclass(frozen=True, slots=True)
class AssumedValue:
    """One entry: its numbers in `unit`, what it is, and where it is from. `key` is topic and name."""

    key: str
    values: tuple[float, ...]
    unit: str
    what: str
    source: str

    @property
    def topic(self) -> str:
        """What it belongs to."""
        return self.key.partition("/")[0]

    @property
    def name(self) -> str:
        """Its name within the topic."""
        return self.key.partition("/")[2]


@cache
def assumed_values() -> Mapping[str, AssumedValue]:
    """All of them by key, in the order of the file."""
    topics = tomllib.loads(_FILE.read_text("utf-8"))
    out: dict[str, AssumedValue] = {}
    for topic, entries in topics.items():
        out |= {f"{topic}/{name}": _value(f"{topic}/{name}", e) for name, e in entries.items()}
    return out


def _value(key: str, entry: Mapping[str, Any]) -> AssumedValue:
    if set(entry) != {"value", "unit", "what", "source"}:
        raise ValueError(f"{key} in {_FILE.name} needs value, unit, what and source: {set(entry)}")
    given = entry["value"]
    numbers = given if isinstance(given, list) else [given]
    values = tuple(map(float, numbers))
    return AssumedValue(key, values, entry["unit"], entry["what"], entry["source"])


def assumed(key: str) -> float:
    """The number of an entry that has one."""
    (value,) = assumed_values()[key].values
    return value


def assumed_list(key: str) -> tuple[float, ...]:
    """The numbers of an entry that has several."""
    return assumed_values()[key].values


def assumed_topic(topic: str) -> Mapping[str, tuple[float, ...]]:
    """The numbers of all entries of a topic, by name: for what is asked for by kind of part."""
    return {v.name: v.values for v in assumed_values().values() if v.topic == topic}
