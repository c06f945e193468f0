"""A switched minus bypassed.

Checks: a contact that the board switches (a sink) carries the minus of one load and no ground. A
buzzer's minus is not on ground instead of it or beside it. No other part's ground wire is on it.
No part with signals has its only ground there.
Why: a buzzer on ground sounds from the first plug-in until it is unplugged. A part whose ground is
switched goes on and off with the buzzer. Its current may be more than the switch carries.
Example: buzzer.MINUS on a ground pad; camera.GND on the pad of the buzzer's minus.
Mend: join a buzzer's minus to the board's sink contact. Move any other ground wire from there to a
ground pad.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.nets import Net
from builder.diagnostics.finding import Severity
from builder.model.build import Contact, FittedAs
from builder.model.kinds import Buzzer, Connector, FlightController, Lights, SpeedController
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import FAMILY, upset_by_plugs, where_joined

SEVERITY = Severity.FAULT
_SIGNALS = ("serial", "bus", "video", "drive", "light", "sense")


def _is_buzzer(case: Case, contact: Contact) -> bool:
    return isinstance(case.build.parts[contact.part].part, Buzzer)


def _sinks(case: Case) -> list[Contact]:
    """The contacts by which boards switch a minus."""
    return [
        c
        for c in case.build.contacts
        if case.build.pad(c).role == "sink" and not _is_buzzer(case, c)
    ]


def _minus(case: Case, fitted: FittedAs[Buzzer], piece: int) -> list[Contact]:
    own = [Contact(fitted.key, piece, p) for p in fitted.part.pads]
    pads = {c: case.build.pad(c) for c in own}
    return [c for c in own if pads[c].polarity == "minus" or pads[c].role in ("sink", "ground")]


def _grounds(case: Case, net: Net) -> list[Contact]:
    """Ground contacts of a net that are no buzzer's own minus."""
    return [
        c for c in net.contacts if case.build.pad(c).role == "ground" and not _is_buzzer(case, c)
    ]


def _ground_pad(case: Case, board: str, *, battery: bool) -> str:
    """A ground contact of a board to move a wire to: the battery's for its connector, else a free
    one if there is one.
    """
    build = case.build
    on_it = [c for c in build.contacts if c.board == board and build.pad(c).role == "ground"]
    sort = [c for c in on_it if build.pad(c).battery == battery] or on_it
    free = [c for c in sort if c not in case.results.netlist.at]
    return str((free or sort)[0]) if sort else "a ground contact"


def _has_signals(case: Case, part: str) -> bool:
    """Whether a part is wired by more than its supply."""
    at = case.results.netlist.at
    return any(c.part == part and FAMILY.get(case.build.pad(c).role) in _SIGNALS for c in at)


def _may_be_switched(case: Case, part: str) -> bool:
    """Whether a part is of the sort whose minus a board may switch: lights, and what has no
    signals.
    """
    return isinstance(case.build.parts[part].part, Lights) or not _has_signals(case, part)


def _wrong_wire(case: Case, join: Join, sink: Contact, sounds: list[Contact]) -> Found:
    """A wire that brings a ground onto a switched net: by which end it has to be moved, and where
    to.
    """
    outside, near = (
        (join.a, join.b) if case.build.pad(join.a).role == "ground" else (join.b, join.a)
    )
    if _is_buzzer(case, outside):
        outside, near = near, outside
    real = isinstance(
        case.build.parts[outside.part].part, (SpeedController, FlightController, Connector)
    )
    if outside.board == sink.board or (near in sounds and real):
        what = (
            f"{near} lies on ground by its wire to {outside}, and on {sink}, which the board"
            " switches"
        )
        after = f", so that {sounds[0].part} sounds all the time" if sounds else ""
        return Found(f"{what}{after}.", f"Take off the wire from {near} to {outside}.", join.where)
    shared = f" together with {sounds[0]}" if sounds and near not in sounds else ""
    battery = isinstance(case.build.parts[outside.part].part, Connector)
    return Found(
        f"The ground wire of {outside.part} hangs on {near}{shared}: the board switches that"
        " contact, it is no ground.",
        f"Move the wire of {outside} from {near} to"
        f" {_ground_pad(case, sink.board, battery=battery)}.",
        join.where,
    )


def _on_sink(case: Case, net: Net, sinks: list[Contact]) -> Iterator[Outcome]:
    """What hangs on a switched contact."""
    grounds = set(_grounds(case, net))
    sounds = [c for c in net.contacts if _is_buzzer(case, c)]
    parts = {c.part for c in grounds}
    alone = not sounds and len(parts) == 1 and sinks[0].part not in parts
    if alone and _may_be_switched(case, next(iter(parts))):
        yield Judged()  # a lamp or a fan may be what the board switches
        return
    crossing = [j for j in net.joins if j.by != "inside" and (j.a in grounds) != (j.b in grounds)]
    yield from (_wrong_wire(case, j, sinks[0], sounds) for j in crossing)
    if not crossing:
        yield Judged()


def _plus_switched(case: Case, fitted: FittedAs[Buzzer], piece: int) -> bool:
    """Whether the rail behind a buzzer's plus is one that the board switches."""
    nets, build = case.results.netlist, case.build
    for pad in fitted.part.pads:
        plus = Contact(fitted.key, piece, pad)
        if build.pad(plus).role not in ("draws", "supply") and build.pad(plus).polarity != "plus":
            continue
        for c in nets.of[plus].contacts:
            rail = build.parts[c.part].part.rails.get(build.pad(c).rail or "")
            if rail is not None and (rail.switched_by is not None or rail.converter == "switch"):
                return True
    return False


def _buzzer(
    case: Case, fitted: FittedAs[Buzzer], piece: int, sinks: list[Contact]
) -> Outcome | None:
    """A buzzer whose minus reaches no switched contact."""
    nets = case.results.netlist
    minus = _minus(case, fitted, piece)
    if not minus:
        return NotJudged(f"which contact of {fitted.key} is its minus", fitted.shelf_where)
    net = nets.of[minus[0]]
    if not any(c.part != fitted.key for c in net.contacts) or any(c in sinks for c in net.contacts):
        return None  # it is not wired, or its net is looked at by its sink
    if not _grounds(case, net) or _plus_switched(case, fitted, piece):
        return Judged()
    hint = f"Join it to {sinks[0]}." if sinks else "Join it to a contact that the board switches."
    message = f"{minus[0]} lies on ground, so that it sounds all the time."
    return Found(message, hint, where_joined(case, minus[:1], net))


def check(case: Case) -> Iterator[Outcome]:
    nets, upset = case.results.netlist, upset_by_plugs(case)
    sinks = _sinks(case)
    on_net: dict[str, list[Contact]] = {}
    for sink in sinks:
        on_net.setdefault(nets.of[sink].name, []).append(sink)
    for found in on_net.values():
        net = nets.of[found[0]]
        if net.connected and net.name not in upset:
            yield from _on_sink(case, net, found)
    for fitted in case.build.of_kind(Buzzer):
        if fitted.part.supply is not None and fitted.part.supply.own_cell:
            continue
        for piece in fitted.pieces:
            outcome = _buzzer(case, fitted, piece, sinks)
            if outcome is not None:
                yield outcome
