"""Straps as bodies: each goes round a battery and the plate that it lies on, across the aircraft."""

from collections.abc import Iterator
from dataclasses import dataclass

from builder.compute.geometry.clearances import SpacePoint, point
from builder.compute.geometry.placed_bodies import PlacedBody, placed_bodies
from builder.compute.geometry.solids import Solid, room_between
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build, FittedAs
from builder.model.kinds import Hardware

_THICK = assumed("mounting/strap-thick")


@dataclass(frozen=True)
class StrapWay:
    """One strap round one battery, in four pieces; none where the strap does not lie over it.

    `lacks` says what its way is not known for, `misses` that it lies before or behind the battery.
    """

    strap: str
    battery: str
    pieces: tuple[PlacedBody, ...]
    where: Where
    misses: bool = False
    lacks: str = ""


@dataclass(frozen=True)
class _Held:
    """What a strap goes round: the least and the most of it along each way, in m."""

    low: SpacePoint
    high: SpacePoint


def straps(build: Build) -> tuple[FittedAs[Hardware], ...]:
    """The straps of a build: hardware that says so, or that says how wide it is."""
    found = []
    for hardware in build.of_kind(Hardware):
        part = hardware.part
        if part.form == "strap" or part.width is not None:
            found.append(hardware)
    return tuple(found)


def strap_seats(strap: FittedAs[Hardware]) -> tuple[SpacePoint, ...]:
    """Where each piece of a strap lies; empty where nobody says it of each."""
    if strap.use.each_at:
        return tuple((s.x, s.y, s.z) for s in strap.use.each_at)
    at = point(strap.use.at)
    return (at,) if at is not None and strap.count == 1 else ()


def _around(solids: list[Solid]) -> _Held:
    """The room of several bodies that are not turned."""
    low, high = [], []
    for way in range(3):
        low.append(min(s.middle[way] - s.half[way] for s in solids))
        high.append(max(s.middle[way] + s.half[way] for s in solids))
    x, y, z = low
    far_x, far_y, far_z = high
    return _Held((x, y, z), (far_x, far_y, far_z))


def _ring(held: _Held, plate: Solid, x: float, width: float) -> Iterator[Solid]:
    """Four boxes round battery and plate: below, above, left and right.

    It goes through slots in the plate, so it is as wide as the battery all the way.
    """
    under = _around([plate])
    _, right, lowest = held.low
    _, left, highest = held.high
    low = min(lowest, under.low[2])
    high = max(highest, under.high[2])
    y = (left + right) / 2
    z = (low + high) / 2
    across = (left - right) / 2
    tall = (high - low) / 2
    half = width / 2
    thin = _THICK / 2
    flat = (half, across + _THICK, thin)
    upright = (half, thin, tall)
    yield Solid((x, y, low - thin), flat)
    yield Solid((x, y, high + thin), flat)
    yield Solid((x, right - thin, z), upright)
    yield Solid((x, left + thin, z), upright)


def _way(
    strap: FittedAs[Hardware], number: int, together: list[PlacedBody], plates: list[Solid]
) -> StrapWay:
    battery, seat = together[0].what, strap_seats(strap)[number]
    many = len(strap_seats(strap)) > 1
    name = f"{strap.key}.{number + 1}" if many else strap.key
    where = strap.where.at("each_at", number) if many else strap.where.at("at")
    solids = [b.solid for b in together if b.solid is not None]
    width = strap.part.width
    if len(solids) < len(together) or width is None or not plates:
        lacks = f"width of {strap.key}"
        if width is not None:
            lacks = together[0].lacks if plates else "the plate that the battery lies on"
        return StrapWay(name, battery, (), where, lacks=lacks)
    held = _around(solids)
    if not held.low[0] <= seat[0] <= held.high[0]:
        return StrapWay(name, battery, (), where, misses=True)
    plate = min(plates, key=lambda p: min(room_between(p, s) for s in solids))
    ring = _ring(held, plate, seat[0], width.value)
    pieces, shelf = [], strap.shelf_where
    for solid in ring:
        pieces.append(PlacedBody(name, strap.key, "strap", solid.middle, solid, where, shelf))
    return StrapWay(name, battery, tuple(pieces), where)


def strap_ways(build: Build) -> tuple[StrapWay, ...]:
    """The way of each strap round each battery; those that are joined lie under it together."""
    bodies = placed_bodies(build)
    plates = [b.solid for b in bodies if b.sort == "plate" and b.solid is not None]
    batteries: dict[str, list[PlacedBody]] = {}
    for body in bodies:
        if body.sort == "battery":
            batteries.setdefault(body.what, []).append(body)
    out = []
    for strap in straps(build):
        for number, _ in enumerate(strap_seats(strap)):
            for together in batteries.values():
                out.append(_way(strap, number, together, plates))
    return tuple(out)
