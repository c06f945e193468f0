"""Motor phases too few, shared or on a neighbour's group.

Checks: all phases of each motor go to as many phase contacts of one speed controller channel, one
each.
Why: a motor on two phases only, or on two channels, stutters, overheats and can burn its speed
controller.
Example: motor.2.C on M1C.
Mend: the leads of one motor to the contacts of one channel; the order among them only sets the
direction.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Contact
from builder.model.kinds import Motor
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import families, where_joined

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_HINT = "Join the leads of one motor to the contacts of one channel, one each."


def _found(case: Case, message: str, contact: Contact) -> Found:
    net = case.results.netlist.of[contact]
    where = (
        where_joined(case, [contact], net)
        if net.connected
        else case.build.parts[contact.part].where
    )
    return Found(message, _HINT, where)


def _shared(case: Case, board: str, own: list[Contact]) -> Found | None:
    """A lead that meets another motor, another lead of its own motor, or more than one contact."""
    nets, build = case.results.netlist, case.build
    for contact in own:
        phases = [
            c for c in nets.of[contact].contacts if build.pad(c).role == "phase" and c != contact
        ]
        motors = [c for c in phases if isinstance(build.parts[c.part].part, Motor)]
        if any(m.board == board for m in motors):
            return _found(case, f"Two leads of {board} are joined to each other.", contact)
        if motors:
            return _found(case, f"{contact} is joined to another motor, {motors[0]}.", contact)
        if len(phases) > 1:
            return _found(case, f"{contact} reaches {len(phases)} phase contacts.", contact)
    return None


def _motor(case: Case, board: str, own: list[Contact]) -> Outcome:
    nets, build = case.results.netlist, case.build
    shared = _shared(case, board, own)
    if shared is not None:
        return shared
    reached = {
        lead: c
        for lead in own
        for c in nets.of[lead].contacts
        if c.board != board and build.pad(c).role == "phase"
    }
    loose = [c for c in own if c not in reached]
    if loose:
        names = ", ".join(map(str, loose))
        first = next((c for c in own if c in nets.at), own[0])
        return _found(
            case,
            f"{board} has {len(reached)} of its {len(own)} phases joined; loose: {names}.",
            first,
        )
    groups = [(c.board, build.pad(c).channel) for c in reached.values()]
    if len(set(groups)) > 1:
        channels = ", ".join(sorted(f"channel {g[1]} of {g[0]}" for g in set(groups)))
        odd = min(
            reached,
            key=lambda lead: groups.count((reached[lead].board, build.pad(reached[lead]).channel)),
        )
        return _found(case, f"The phases of {board} lie on {channels}.", odd)
    board = groups[0][0]
    pads = [build.pad(c) for c in build.contacts if c.board == board]
    channel_pads = sum(p.role == "phase" and p.channel is None for p in pads)
    if channel_pads > len(own):
        part = build.parts[next(iter(reached.values())).part]
        return NotJudged(
            f"which phase contacts of {part.key} belong to one channel", part.shelf_where
        )
    return Judged()


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    if not build.wires and not build.plugs:
        yield NotJudged("the wires of the build", build.where("wires"))
        return
    for fitted in build.of_kind(Motor):
        for piece in fitted.pieces:
            own = [
                Contact(fitted.key, piece, p)
                for p, pad in fitted.part.pads.items()
                if pad.role == "phase"
            ]
            mixed = any(len(families(case, case.results.netlist.of[c])) > 1 for c in own)
            if own and not mixed:  # a lead on a contact of another kind is wiring/roles-do-not-fit
                yield _motor(case, own[0].board, own)
