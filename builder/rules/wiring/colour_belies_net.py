"""A wire colour that does not match its net.

Checks: red wires are on supply nets, and black ones on ground nets. Other colours are not checked.
Fitted leads of motors come in any colour, so they are not checked either.
Why: the next person trusts the colour.
Example: a red wire on ground.
Mend: take another colour.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.REMARK


def check(case: Case) -> Iterator[Outcome]:
    for run in case.build.wires:
        colour = (run.wire.colour or "").casefold()
        roles = {case.build.pad(c).role for c in (run.start, run.end)}
        if colour not in ("red", "black") or "phase" in roles:
            continue
        net = case.results.netlist.of[run.start]
        all_roles = {case.build.pad(c).role for c in net.contacts}
        ground = "ground" in all_roles
        live = bool(all_roles & {"supply", "draws"})
        if colour == "red" and ground and not live:
            yield Found(
                f"A red wire lies on ground ({run.start} to {run.end}).",
                "Take a black one.",
                run.where,
            )
        elif colour == "black" and live and not ground:
            yield Found(
                f"A black wire lies on a supply ({run.start} to {run.end}).",
                "Take a red one.",
                run.where,
            )
        else:
            yield Judged()
