"""Motor phases too few, shared or on a neighbour's group.

Checks: all phases of each motor go to as many phase contacts of one speed controller channel, one each.
Why: a motor on two phases only, or on two channels, stutters, overheats and can burn its speed controller.
Example: motor.2.C on M1C.
Mend: three leads of one motor to the three contacts of one channel; the order among them only sets the direction.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Contact
from builder.model.kinds import Motor
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import where_joined

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_HINT = "Join the leads of one motor to the contacts of one channel, one each."


def _motor(case: Case, board: str, own: list[Contact]) -> Outcome:
    nets = case.results.netlist
    where = next(
        (where_joined(case, [c], nets.of[c]) for c in own if c in nets.at), case.build.parts[own[0].part].where
    )
    reached: list[tuple[Contact, Contact]] = []
    for contact in own:
        phases = [c for c in nets.of[contact].contacts if case.build.pad(c).role == "phase" and c.board != board]
        motors = [c for c in phases if isinstance(case.build.parts[c.part].part, Motor)]
        if motors:
            return Found(
                f"{contact} is joined to another motor, {motors[0]}.",
                _HINT,
                where_joined(case, [contact], nets.of[contact]),
            )
        if len({nets.of[c].name for c in own}) < len(own):
            return Found(f"Two leads of {board} are joined to each other.", _HINT, where)
        if len(phases) > 1:
            return Found(
                f"{contact} reaches {len(phases)} phase contacts.",
                _HINT,
                where_joined(case, [contact], nets.of[contact]),
            )
        reached += [(contact, c) for c in phases]
    if len(reached) < len(own):
        loose = [str(c) for c in own if c not in {a for a, _ in reached}]
        return Found(
            f"{board} has {len(reached)} of its {len(own)} phases joined; loose: {', '.join(loose)}.", _HINT, where
        )
    groups = {(c.board, case.build.pad(c).channel) for _, c in reached}
    if len(groups) > 1:
        channels = ", ".join(sorted(f"channel {g[1]}" for g in groups))
        odd = min(
            reached,
            key=lambda r: sum(1 for _, c in reached if case.build.pad(c).channel == case.build.pad(r[1]).channel),
        )
        return Found(f"The phases of {board} lie on {channels}.", _HINT, where_joined(case, [odd[0]], nets.of[odd[0]]))
    return Judged()


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.of_kind(Motor):
        for piece in fitted.pieces:
            own = [Contact(fitted.key, piece, p) for p, pad in fitted.part.pads.items() if pad.role == "phase"]
            if own:
                yield _motor(case, own[0].board, own)
