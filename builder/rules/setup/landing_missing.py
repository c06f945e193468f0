"""An aircraft that flies, and nobody says when a flight ends.

Checks: that each battery of a build that is flying has its landing named. The build, its setup or
the battery itself names volts, or a share of the charge that is kept.
Why: who does not know when to land flies the cells empty, and the motors stop in the air.
Example: status flying, and a battery without landing volts or a share that is kept.
Mend: write the volts a cell at which you land, or the share of the charge that is kept.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.landing_choice import chosen_landing
from builder.diagnostics.finding import Severity, Signal
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def check(case: Case) -> Iterator[Outcome]:
    source = case.build.source
    if source.status != "flying" and not source.flights:
        return
    for pack in case.build.packs.values():
        chosen = chosen_landing(case.build, pack)
        if chosen.share is not None or chosen.volts is not None:
            yield Judged()
            continue
        text = f"It flies on battery {pack.key}, and nobody says when a flight ends."
        hint = "Write landing under setup: volts a cell under load, or a share of the charge."
        yield Found(text, hint, pack.where, see=(case.build.where("status"),))
