"""A switched minus bypassed.

Checks: a load whose minus the board switches (a buzzer on a sink contact) does not have its minus on ground.
Why: it sounds from the first plug-in until it is unplugged.
Example: buzzer.MINUS on a ground pad.
Mend: join its minus to the board's sink contact.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.build import Contact
from builder.model.kinds import Buzzer
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import where_joined

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    nets, build = case.results.netlist, case.build
    sinks = [
        c for c in build.contacts if build.pad(c).role == "sink" and not isinstance(build.parts[c.part].part, Buzzer)
    ]
    for fitted in build.of_kind(Buzzer):
        if fitted.part.supply is not None and fitted.part.supply.own_cell:
            continue
        for piece in fitted.pieces:
            own = [Contact(fitted.key, piece, p) for p in fitted.part.pads]
            minus = [c for c in own if build.pad(c).polarity == "minus" or build.pad(c).role in ("sink", "ground")]
            if not minus:
                yield NotJudged(f"which contact of {fitted.key} is its minus", fitted.shelf_where)
                continue
            net = nets.of[minus[0]]
            others = [c for c in net.contacts if c.part != fitted.key]
            if any(build.pad(c).role == "ground" for c in others):
                hint = f"Join it to {sinks[0]}." if sinks else "Join it to a contact that the board switches."
                yield Found(
                    f"{minus[0]} lies on ground, so that it sounds all the time.",
                    hint,
                    where_joined(case, minus[:1], net),
                )
            elif others:
                yield Judged()
