"""Size, pitch and copper of contacts by kind of part and by what they carry, from builder/pads.toml:
for those of which nobody says it.
"""

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Literal

Carries = Literal["battery", "motor", "other"]
Behind = Literal["signal", "power", "plane"]

_FILE = Path(__file__).resolve().parents[2] / "pads.toml"
_SMALL = {"pad", "of", "a", "for"}  # words that tell no entry from another
_KNOWN = {"what", "on", "channels", "carries", "length", "width", "pitch", "copper", "ground"}


@dataclass(frozen=True, slots=True)
class UsualBand:
    """Least, usual and most, in m: nineteen of twenty lie between."""

    least: float
    usual: float
    most: float

    @property
    def share(self) -> float:
        """The standard deviation as a share of what is usual."""
        return (self.most - self.least) / 4.0 / self.usual


@dataclass(frozen=True, slots=True)
class UsualPad:
    """One entry: of which contacts, and how large they are, how far apart, on which copper.

    `kinds` is empty for all kinds; `channels` is None for any number.
    """

    what: str
    kinds: tuple[str, ...]
    channels: int | None
    carries: Carries
    length: UsualBand
    width: UsualBand
    pitch: UsualBand
    copper: Behind
    ground: Behind
    source: str

    @property
    def key(self) -> str:
        """A short name for keys: `receiver` for a pad of a receiver."""
        return "-".join(w for w in self.what.split(" ") if w not in _SMALL)

    def fits(self, kind: str, channels: int | None, carries: Carries) -> bool:
        """Whether it is for such a contact of such a part."""
        on_it = not self.kinds or kind in self.kinds
        drives = self.channels in (None, channels)
        return on_it and drives and carries == self.carries


@cache
def usual_pads() -> tuple[UsualPad, ...]:
    """All entries in the order of the file."""
    return tuple(map(_entry, tomllib.loads(_FILE.read_text("utf-8"))["pads"]))


def usual_pad_of(kind: str, channels: int | None, carries: Carries) -> UsualPad:
    """The first entry that fits; the last of each `carries` is for all kinds."""
    return next(each for each in usual_pads() if each.fits(kind, channels, carries))


def _entry(said: dict[str, Any]) -> UsualPad:
    if not set(said) <= _KNOWN | {"source"}:
        raise ValueError(f"{_FILE.name}: {set(said) - _KNOWN} is not known")
    return UsualPad(
        said["what"],
        tuple(said.get("on", ())),
        said.get("channels"),
        said["carries"],
        UsualBand(*said["length"]),
        UsualBand(*said["width"]),
        UsualBand(*said["pitch"]),
        said["copper"],
        said["ground"],
        said["source"],
    )
