"""What the usual prints beside contacts mean, from builder/prints.toml: by habit of the trade, never
by the maker's word.
"""

import re
import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

_FILE = Path(__file__).resolve().parents[2] / "prints.toml"


@dataclass(frozen=True, slots=True)
class UsualPrint:
    """One entry: what is printed, on which kinds of part (none: all), and what it means there.

    `rail` says that the print names the volts of a rail.
    """

    print: str
    like: re.Pattern[str]
    kinds: tuple[str, ...]
    role: str
    battery: bool
    polarity: str
    rail: bool

    def fits(self, name: str, kind: str) -> re.Match[str] | None:
        """The print read by this entry; None where it is no such print, or not on this kind."""
        on_it = not self.kinds or kind in self.kinds
        return self.like.fullmatch(name.upper()) if on_it else None


@cache
def usual_prints() -> tuple[str, tuple[UsualPrint, ...]]:
    """Where the table is from, and its entries in the order of the file."""
    tree = tomllib.loads(_FILE.read_text("utf-8"))
    return tree["status"], tuple(map(_entry, tree["prints"]))


def _entry(said: dict[str, Any]) -> UsualPrint:
    known = {"print", "like", "on", "role", "battery", "polarity", "rail"}
    if not set(said) <= known:
        raise ValueError(f"{_FILE.name}: {set(said) - known} is not known")
    return UsualPrint(
        said["print"],
        re.compile(said["like"]),
        tuple(said.get("on", ())),
        said["role"],
        said.get("battery", False),
        said.get("polarity", ""),
        said.get("rail", False),
    )
