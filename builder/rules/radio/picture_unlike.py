"""A picture that the other end cannot show.

Checks: whether each video transmitter sends a digital picture or an analogue one, against what the
goggles and screens of the build show (`picture`). A transmitter that sends a digital picture takes
none over an analogue wire.
Why: the screen stays dark on the first day in the field.
Example: a digital unit, and goggles for analogue pictures.
Mend: take goggles of the unit's kind, or a unit of the goggles' kind.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.build import Build, FittedAs
from builder.model.kinds import GroundGear, VideoTransmitter
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.wiring._nets import joined_nets, with_roles

SEVERITY = Severity.FAULT


def _shown(build: Build, sender: FittedAs[VideoTransmitter]) -> Iterator[Outcome]:
    screens = [g for g in build.of_kind(GroundGear) if g.part.picture is not None]
    kind = "digital" if sender.part.digital else "analogue"
    if not screens:
        return
    if any(g.part.picture in (kind, "both") for g in screens):
        yield Judged()
        return
    first = screens[0]
    text = (
        f"{sender.key} sends a picture that is {kind}; {first.key} shows {first.part.picture} ones."
    )
    hint = "Take goggles of the unit's kind, or a unit of the goggles' kind."
    yield clash(text, hint, first.where, sender.shelf_where.at("digital"))


def _wired(case: Case, sender: FittedAs[VideoTransmitter]) -> Iterator[Outcome]:
    if not sender.part.digital:
        return
    for net in joined_nets(case):
        inputs = [c for c in with_roles(case, net, "video-in") if c.part == sender.key]
        sources = [c for c in with_roles(case, net, "video-out") if c.part != sender.key]
        if not inputs or not sources:
            continue
        text = f"{sender.key} sends a digital picture, and {sources[0]} gives it an analogue one."
        at = sender.shelf_where
        yield clash(text, "Correct one of the two.", at.at("digital"), at.at("pads", inputs[0].pad))


def check(case: Case) -> Iterator[Outcome]:
    for sender in case.build.of_kind(VideoTransmitter):
        yield from _shown(case.build, sender)
        yield from _wired(case, sender)
