"""An aircraft that flies, and nobody says at which volts a flight ends.

Checks: for each battery of a build that is flying, that landing volts are named: by the build, by
its setup or by the battery itself.
Why: who does not know when to land flies the cells empty, and the motors stop in the air.
Example: status flying, and a battery without landing volts.
Mend: write the volts a cell at which you land.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def check(case: Case) -> Iterator[Outcome]:
    source = case.build.source
    if source.status != "flying" and not source.flights:
        return
    whole = source.setup.landing
    for pack in case.build.packs.values():
        volts = (
            pack.use.landing or (whole.volts if whole is not None else None) or pack.part.landing
        )
        if volts is not None:
            yield Judged()
            continue
        text = f"It flies on pack {pack.key}, and nobody says at which volts a flight ends."
        hint = "Write landing under setup: volts a cell under load."
        yield Found(text, hint, pack.where, see=(case.build.where("status"),))
