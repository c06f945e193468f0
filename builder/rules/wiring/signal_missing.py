"""A fed part whose signal goes nowhere.

Checks: a receiver of which one data contact is wired also sends to another part. Where any picture
is wired, each fed camera and each analogue video transmitter has its part of it.
Why: everything lights up and nothing arrives; it is found with the canopy on.
Example: a receiver with ground, 5 V and its listening contact wired, and its sending one left free.
Mend: add the missing wire.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.build import Contact, Fitted
from builder.model.kinds import Camera, Receiver, SatelliteReceiver, VideoTransmitter
from builder.model.source.part import Part
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import upset_by_plugs

SEVERITY = Severity.REMARK


def _wanted(part: Part) -> tuple[str, ...]:
    """Roles of which one contact has to reach another part."""
    if isinstance(part, Camera | VideoTransmitter) and part.ribbon is not None:
        return ()
    if isinstance(part, Camera):
        return ("video-out",)
    if isinstance(part, VideoTransmitter):
        return () if part.digital else ("video-in",)
    return ("sends", "one-wire") if isinstance(part, Receiver | SatelliteReceiver) else ()


def _begun(case: Case, fitted: Fitted, piece: int) -> bool:
    """Whether the part's signals are meant to be wired: some of them are, or some picture is."""
    build, nets = case.build, case.results.netlist
    if isinstance(fitted.part, Receiver | SatelliteReceiver):
        own = [Contact(fitted.key, piece, p) for p in fitted.part.pads]
        return any(build.pad(c).role == "listens" and c in nets.at for c in own)
    return any(build.pad(c).role in ("video-out", "video-in") for c in nets.at)


def check(case: Case) -> Iterator[Outcome]:
    build, nets, upset = case.build, case.results.netlist, upset_by_plugs(case)
    for fitted in build.of_kind(Camera, VideoTransmitter, Receiver, SatelliteReceiver):
        roles = _wanted(fitted.part)
        for piece in fitted.pieces:
            own = [Contact(fitted.key, piece, p) for p in fitted.part.pads]
            fed = any(build.pad(c).role == "draws" and c in nets.at for c in own)
            signals = [c for c in own if build.pad(c).role in roles]
            if not fed or not signals or any(nets.of[c].name in upset for c in own):
                continue
            if any(len(nets.of[c].boards) > 1 for c in signals):
                yield Judged()
            elif _begun(case, fitted, piece):
                yield Found(
                    f"{own[0].board} is fed, and {signals[0]} reaches nothing.",
                    "Add the missing wire, or leave the part out.",
                    fitted.where,
                )
