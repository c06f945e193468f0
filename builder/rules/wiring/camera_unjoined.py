"""A camera whose picture reaches nothing.

Checks: where the build has a video transmitter, a camera with a ribbon has a video unit with one. A
camera of a build that flies or is on the bench has wires at all. A picture that is wired in part is
wiring/signal-missing.
Why: the pilot takes off by the screen, and the screen stays dark.
Example: a digital camera with a ribbon, beside a video transmitter that has no socket for one.
Mend: add the wire that carries the picture, or take a camera and a video unit that go together.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.build import Build, Contact, FittedAs
from builder.model.kinds import Camera, VideoTransmitter
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT


def _by_wire(case: Case, fitted: FittedAs[Camera]) -> bool:
    nets = case.results.netlist
    pads = [p for p, pad in fitted.part.pads.items() if pad.role == "video-out"]
    contacts = [Contact(fitted.key, piece, p) for piece in fitted.pieces for p in pads]
    return any(len(nets.of[c].boards) > 1 for c in contacts)


def _has_video_pads(fitted: FittedAs[Camera]) -> bool:
    return any(p.role == "video-out" for p in fitted.part.pads.values())


def _wired(build: Build, key: str) -> bool:
    ends = [c.part for run in build.wires for c in (run.start, run.end)]
    plugged = [e[0] for join in build.plugs for e in (join.start, join.end)]
    return key in (*ends, *plugged)


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    units = build.of_kind(VideoTransmitter)
    ribbons = [u for u in units if u.part.ribbon is not None]
    for fitted in build.of_kind(Camera) if units else ():
        has_ribbon = fitted.part.ribbon is not None
        if has_ribbon and ribbons:
            yield Judged()
        elif has_ribbon and not _has_video_pads(fitted):
            yield Found(
                f"{fitted.key} has a ribbon, and {units[0].key} has no socket for one.",
                "Take a camera and a video unit that go together.",
                fitted.where,
                see=(units[0].where,),
            )
        elif _by_wire(case, fitted):
            yield Judged()
        elif not _has_video_pads(fitted):
            yield NotJudged(f"how the picture leaves {fitted.key}", fitted.shelf_where)
        elif build.source.status in ("flying", "on the bench") and not _wired(build, fitted.key):
            yield Found(
                f"No wire reaches {fitted.key}, and the build has a video transmitter.",
                "Add its wires: ground, supply and picture.",
                fitted.where,
                see=(units[0].where,),
            )
