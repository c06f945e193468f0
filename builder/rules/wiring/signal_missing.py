"""A fed part whose signal goes nowhere.

Checks: a receiver of which one data contact is wired also sends to another part. Where any picture
is wired, each fed camera and each analogue video transmitter has its part of it. A fed strip of
lights is sent to by a board or by another strip. A fed compass, and any part of which one line of a
bus is wired, has both its clock and its data.
Why: everything lights up and nothing arrives; it is found with the canopy on.
Example: a receiver with ground, 5 V and its listening contact wired, and its sending one left free.
Mend: add the missing wire.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.build import Contact, Fitted
from builder.model.kinds import (
    Camera,
    Compass,
    Lights,
    Receiver,
    SatelliteReceiver,
    VideoTransmitter,
)
from builder.model.source.part import Part
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import boards_apart, upset_by_plugs, with_roles

SEVERITY = Severity.REMARK


_BUS = ("clock", "data")


def _wanted(part: Part) -> tuple[tuple[str, ...], ...]:
    """Roles by group, of each of which one contact has to reach another part."""
    if isinstance(part, Camera | VideoTransmitter) and part.ribbon is not None:
        return ()
    if isinstance(part, Camera):
        return (("video-out",),)
    if isinstance(part, VideoTransmitter):
        return () if part.digital else (("video-in",),)
    if isinstance(part, Lights):
        return (("light-in",),)
    if isinstance(part, Receiver):
        return (("sends", "one-wire"),)
    bus = tuple((role,) for role in _BUS)
    return (("sends", "one-wire"), *bus) if isinstance(part, SatelliteReceiver) else bus


def _reaches(case: Case, contact: Contact, role: str) -> bool:
    """Whether another part is at the other end; to strips that only listen nobody sends."""
    net = case.results.netlist.of[contact]
    others = [c for c in net.contacts if c.board != contact.board]
    return any(role != "light-in" or case.build.pad(c).role != role for c in others)


def _begun(case: Case, fitted: Fitted, own: list[Contact], group: tuple[str, ...]) -> bool:
    """Whether the signals are meant to be wired: some of them are, or some picture is."""
    build, nets = case.build, case.results.netlist
    wired = {build.pad(c).role for c in own if c in nets.at}
    if group[0] in _BUS:
        return isinstance(fitted.part, Compass) or any(role in wired for role in _BUS)
    if isinstance(fitted.part, Lights):
        return True
    if isinstance(fitted.part, Receiver | SatelliteReceiver):
        return "listens" in wired
    return any(build.pad(c).role in ("video-out", "video-in") for c in nets.at)


def _joined_wrongly(case: Case, own: list[Contact]) -> bool:
    """Whether lights are joined end to like end, which `lights-out-to-out` says."""
    nets = case.results.netlist
    for net in {id(nets.of[c]): nets.of[c] for c in own if c in nets.at}.values():
        ends = with_roles(case, net, "light-in", "light-out")
        outputs = with_roles(case, net, "light-out")
        if boards_apart(ends) and len(outputs) != 1:
            return True
    return False


def _group(
    case: Case, fitted: Fitted, own: list[Contact], group: tuple[str, ...]
) -> Outcome | None:
    roles = {c: case.build.pad(c).role for c in own}
    signals = [c for c in own if roles[c] in group]
    if not signals:
        return None
    if any(_reaches(case, c, roles[c]) for c in signals):
        return Judged()
    if not _begun(case, fitted, own, group) or _joined_wrongly(case, own):
        return None
    return Found(
        f"{own[0].board} is fed, and {signals[0]} reaches nothing.",
        "Add the missing wire, or leave the part out.",
        fitted.where,
    )


def check(case: Case) -> Iterator[Outcome]:
    build, nets, upset = case.build, case.results.netlist, upset_by_plugs(case)
    for fitted in build.of_kind(
        Camera, VideoTransmitter, Receiver, SatelliteReceiver, Lights, Compass
    ):
        for piece in fitted.pieces:
            own = [Contact(fitted.key, piece, p) for p in fitted.part.pads]
            fed = any(build.pad(c).role == "draws" and c in nets.at for c in own)
            if not fed or any(nets.of[c].name in upset for c in own):
                continue
            for group in _wanted(fitted.part):
                outcome = _group(case, fitted, own, group)
                if outcome is not None:
                    yield outcome
