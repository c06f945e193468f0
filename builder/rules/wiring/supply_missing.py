"""A part that draws and is not fed.

Checks: each contact that draws is on a net with a supply, where its part is wired at all.
Why: it stays dead, or lives on what leaks through its signal lines.
Example: a receiver with ground and data wired, and no 5 V.
Mend: join its supply contact to a rail that it accepts.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    power = case.results.power
    for load in power.unfed:
        fitted = case.build.parts[load.pad.part]
        supply = fitted.part.supply
        if supply is not None and (supply.own_cell or supply.from_balance_lead):
            yield Judged()
            continue
        yield Found(f"{load.pad} draws and no supply reaches it.", "Join it to a rail that it accepts.", fitted.where)
    for _ in power.on_pack:
        yield Judged()
    for row in power.rails:
        for _ in row.supplied:
            yield Judged()
