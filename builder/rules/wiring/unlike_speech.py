"""Two ends that use different protocols.

Checks: the ends of one data line, and camera and video unit joined by a ribbon, where both name a
protocol. The part, its pad or the setup of the port may name it. Names are compared as text,
without case and spaces.
Why: the line is right and nothing is understood.
Example: a receiver that uses one thing on a port set to another.
Mend: set or choose the same protocol at both ends.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.nets import Net
from builder.diagnostics.finding import Severity
from builder.model.build import Contact
from builder.model.kinds import (
    Camera,
    CombinedBoard,
    FlightController,
    Receiver,
    SatelliteReceiver,
    VideoTransmitter,
)
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import boards_apart, families, joined_nets, where_joined, with_roles

SEVERITY = Severity.FAULT


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())


def _said(case: Case, net: Net, contact: Contact) -> list[str]:
    """What is said of one end: by its pad or its part, and by the setup of its port."""
    pad, part = case.build.pad(contact), case.build.parts[contact.part].part
    out = [pad.speaks] if pad.speaks is not None else []
    if not out and isinstance(part, Receiver | SatelliteReceiver) and part.speaks is not None:
        out.append(part.speaks)
    if pad.serial is not None and isinstance(part, FlightController | CombinedBoard):
        for use in case.build.source.setup.serial:
            # A port that is set to serve another part is setup/port-disagrees.
            elsewhere = use.serves in case.build.parts and use.serves not in {
                c.part for c in net.contacts
            }
            if use.port == pad.serial and use.speaks is not None and not elsewhere:
                out.append(use.speaks)
    return out


def _lines(case: Case) -> Iterator[Outcome]:
    for net in joined_nets(case):
        ends = with_roles(case, net, "sends", "listens", "one-wire")
        talk = [c for c in ends if case.build.pad(c).role != "listens"]
        hear = [c for c in ends if case.build.pad(c).role != "sends"]
        if not boards_apart(ends) or not talk or not hear or families(case, net) != {"serial"}:
            continue
        if len({c.board for c in ends}) > 2:
            continue  # two devices on one line: wiring/port-used-twice
        said = [(c, s) for c in ends for s in _said(case, net, c)]
        if len({_plain(s) for _, s in said}) > 1:
            words = "; ".join(dict.fromkeys(f"{c} uses {s!r}" for c, s in said))
            yield Found(
                f"The ends of one line use different protocols: {words}.",
                "Set both ends to the same.",
                where_joined(case, [c for c, _ in said], net),
            )
        elif boards_apart(c for c, _ in said):
            yield Judged()
        else:
            yield NotJudged(
                f"which protocol the ends of {net.name} use", where_joined(case, ends, net)
            )


def _ribbons(case: Case) -> Iterator[Outcome]:
    cameras = [(f, f.part) for f in case.build.of_kind(Camera) if f.part.ribbon]
    units = [(f, f.part) for f in case.build.of_kind(VideoTransmitter) if f.part.ribbon]
    if len(cameras) != 1 or len(units) != 1:
        return  # which ribbon goes where is not said
    (fitted, camera), (other, unit) = cameras[0], units[0]
    if camera.speaks is None or unit.speaks is None:
        yield NotJudged(
            f"what {fitted.key} and {other.key} use over the ribbon", fitted.shelf_where
        )
    elif _plain(camera.speaks) != _plain(unit.speaks):
        yield Found(
            f"{fitted.key} uses {camera.speaks!r} and {other.key} {unit.speaks!r} over one ribbon.",
            "Take a camera and a video unit that go together.",
            fitted.where,
        )
    else:
        yield Judged()


def check(case: Case) -> Iterator[Outcome]:
    yield from _lines(case)
    yield from _ribbons(case)
