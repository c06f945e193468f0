"""A ribbon that does not join camera and video unit.

Checks: where a ribbon joins camera and video unit, its contacts at both ends. The shorter of both
lengths is compared with the way between the two.
Why: a ribbon of other contacts does not go into the latch, and one that is pulled tight tears out.
Example: a ribbon of 60 mm from a camera to a unit that sits 150 mm behind it.
Mend: take the ribbon that belongs to both, and one that is long enough.
Source: common practice, no source
"""

from collections.abc import Iterator
from math import dist, fsum

from builder.diagnostics.finding import Severity
from builder.model.build import FittedAs
from builder.model.kinds import Camera, VideoTransmitter
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT


def _ways(camera: FittedAs[Camera], unit: FittedAs[VideoTransmitter]) -> Outcome | None:
    one = camera.part.ribbon.ways if camera.part.ribbon is not None else None
    two = unit.part.ribbon.ways if unit.part.ribbon is not None else None
    if one is None or two is None:
        return None
    if one == two:
        return Judged()
    text = f"The ribbon of {camera.key} has {one} contacts, and that of {unit.key} {two}."
    at, other = (f.shelf_where.at("ribbon", "ways") for f in (camera, unit))
    return clash(text, "Take a camera and a video unit that go together.", at, other)


def _reach(camera: FittedAs[Camera], unit: FittedAs[VideoTransmitter]) -> Outcome:
    ribbons = [r for r in (camera.part.ribbon, unit.part.ribbon) if r is not None]
    lengths = [r.length.value for r in ribbons if r.length is not None]
    here, there = camera.use.at, unit.use.at
    if not lengths or here is None or there is None:
        return NotJudged(f"length of the ribbon of {camera.key}, or where both sit", camera.where)
    # the part's middle is half its own size from where the ribbon leaves it
    sizes = [f.part.size for f in (camera, unit)]
    half = fsum(max(s.along) / 2 for s in sizes if s is not None)
    way = max(0.0, dist((here.x, here.y, here.z), (there.x, there.y, there.z)) - half)
    shorter = min(lengths)
    if shorter >= way:
        return Judged()
    text = say(
        "The ribbon of {} is {}; {} is {} away.",
        camera.key,
        given(shorter, "m"),
        unit.key,
        made(way, "m"),
    )
    return clash(
        text, "Move them together, or take a longer ribbon.", unit.where.at("at"), camera.where
    )


def check(case: Case) -> Iterator[Outcome]:
    cameras = [f for f in case.build.of_kind(Camera) if f.part.ribbon is not None]
    units = [f for f in case.build.of_kind(VideoTransmitter) if f.part.ribbon is not None]
    if len(cameras) != 1 or len(units) != 1:
        return  # which ribbon goes where is not said
    said = _ways(cameras[0], units[0])
    if said is not None:
        yield said
    yield _reach(cameras[0], units[0])
