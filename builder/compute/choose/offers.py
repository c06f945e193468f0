"""What of the shelf may stand in each place of a build, before anything is judged.

A part is offered where one of its kind is now. Kinds whose name does not say what a part does
(hardware, printed parts, others) are offered only where somebody names them as an alternative. A
cable is not offered: how it lies is said of the one that is there.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from builder.model.build import Build, Fitted, ShelfEntry
from builder.model.kinds import (
    KINDS,
    Cable,
    Consumable,
    GroundGear,
    Hardware,
    Other,
    Pack,
    Payload,
    PrintedPart,
    Tool,
)

_NOT_FLYING = (Tool, GroundGear, Consumable)
_BY_NAME = (Hardware, PrintedPart, Other, Payload)
_NEVER = (*_NOT_FLYING, Cable)


@dataclass(frozen=True, order=True)
class Offer:
    """A part of the shelf in one place of the build; `battery` says that the place is a battery's."""

    key: str
    shelf: str
    battery: bool = False


@dataclass(frozen=True)
class Selection:
    """Parts that are swapped, and the one battery that it flies on: the build's own under `pack`, or
    another in its place.
    """

    parts: tuple[Offer, ...]
    pack: str
    other_pack: Offer | None = None

    @property
    def swaps(self) -> tuple[Offer, ...]:
        """All that is swapped, the battery last."""
        return (*self.parts, *((self.other_pack,) if self.other_pack else ()))


def may_be_offered(kind: str) -> bool:
    """Whether any part of a kind is offered in the place of another, named or not."""
    return not issubclass(KINDS[kind], (*_BY_NAME, *_NEVER))


def _named(fitted: Fitted) -> tuple[str, ...]:
    return (*fitted.use.alternatives, *fitted.part.alternatives)


def _offered(fitted: Fitted, shelf: Mapping[str, ShelfEntry]) -> Iterator[str]:
    """PartsAtHand names for one place, in the order of the shelf."""
    named = _named(fitted)
    by_kind = not isinstance(fitted.part, _BY_NAME)
    for name, entry in shelf.items():
        if name == fitted.shelf or isinstance(entry.part, _NEVER):
            continue
        alike = type(entry.part) is type(fitted.part)
        if name in named or (alike and by_kind):
            yield name


def part_offers(build: Build, shelf: Mapping[str, ShelfEntry]) -> tuple[Offer, ...]:
    """Every offer for a part of the aircraft, place by place in the order of the file."""
    places = (f for f in build.parts.values() if not isinstance(f.part, _NEVER))
    return tuple(Offer(f.key, name) for f in places for name in _offered(f, shelf))


def pack_offers(build: Build, shelf: Mapping[str, ShelfEntry]) -> tuple[Offer, ...]:
    """Every battery of the shelf that the build has not, each in the place of the build's first one
    with as many cells, else of its first.
    """
    own = {p.shelf for p in build.packs.values()}
    others = ((n, e.part) for n, e in shelf.items() if n not in own)
    return tuple(
        Offer(_place_for(build, part), name, True)
        for name, part in others
        if isinstance(part, Pack) and build.packs
    )


def _place_for(build: Build, part: Pack) -> str:
    alike = (k for k, p in build.packs.items() if p.part.cells == part.cells)
    return next(alike, next(iter(build.packs)))
