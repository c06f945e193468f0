"""Covers that lie over the boards, as a canopy, and what they carry."""

import re
from collections.abc import Iterable

from builder.compute.geometry.plate_words import plate_below
from builder.compute.joints.bench_pieces import hanging_loads
from builder.model.build import Build, Fitted, ScrewPlace
from builder.model.kinds import Consumable, Frame, GroundGear, Payload, Tool

NOT_FLYING = (Tool, Consumable, GroundGear)
# what lies over the boards (common practice, no source)
LATE = (
    "canopy",
    "cover",
    "hood",
    "lid",
    "shell",
    "dome",
    "roof",
    "shroud",
    "cowl",
    "fairing",
    "top plate",
    "upper plate",
)


def says(text: str, words: Iterable[str]) -> bool:
    """Whether a text has one of these words, or several of its kind."""
    return any(re.search(rf"\b{word}s?\b", text) for word in words)


def cover_of(build: Build, place: ScrewPlace) -> str:
    """The cover that carries a part, as a canopy its camera: it lies beside the frame while the part
    is wired, so that the boards stay in reach. '' where none does.
    """
    into = (place.screw.into or "").split(".")[0]
    if into not in build.parts or isinstance(build.parts[into].part, Frame):
        return ""
    through = " ".join(x.what for x in place.screw.through).casefold()
    return next((word for word in LATE if says(through, (word,))), "")


def cover_that_carries(build: Build, key: str) -> str:
    """The cover to which a part is screwed, or the upper plate that it sits on; '' where none is."""
    mine = (p for p in build.screws if (p.screw.into or "").split(".")[0] == key)
    return next(filter(None, (cover_of(build, p) for p in mine)), "") or _plate_of(build, key)


def _plate_of(build: Build, key: str) -> str:
    """The upper plate that a part sits on: it goes on once all below it is done."""
    plate = plate_below(build, build.parts[key])
    return plate if is_late(plate) else ""


def carried_covers(build: Build) -> tuple[str, ...]:
    """The covers that carry a part which is wired, as a canopy its camera."""
    screwed = [cover_of(build, p) for p in build.screws]
    laid = [_plate_of(build, f.key) for f in hanging_loads(build)]
    return tuple(dict.fromkeys(filter(None, (*screwed, *laid))))


def late_parts(build: Build) -> tuple[Fitted, ...]:
    """Covers that lie over the boards, as a canopy: they are fitted once nothing below has to be
    reached again.
    """
    return tuple(f for f in build.parts.values() if lies_over(f))


def lies_over(fitted: Fitted) -> bool:
    """Whether a part lies over the boards."""
    if isinstance(fitted.part, (*NOT_FLYING, Frame, Payload)):
        return False
    return getattr(fitted.part, "form", None) != "sleeve" and is_late(fitted.part.name)


def is_late(name: str) -> bool:
    """Whether a part of this name lies over the boards."""
    return says(name.casefold(), LATE)
