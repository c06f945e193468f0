"""A landing that is said twice and differently.

Checks: a share of the charge against volts of a cell, where the setup says both. The curve of the
cells says which volts a share leaves.
Why: the timer goes by the share, and the pilot by the volts.
Example: 20 % of the charge, and 4.0 V a cell.
Mend: leave one of the two.
Source: resting volts by charge: cell data sheets (from memory)
"""

from collections.abc import Iterator

from builder.compute.circuit.landing_choice import RECOVERY, Chosen, loaded_volts
from builder.diagnostics.finding import Severity
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import given, made, say, share

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    landing, at = case.build.source.setup.landing, case.build.where("setup", "landing")
    if landing is None or landing.share is None or landing.volts is None:
        return
    left = Chosen(landing.share.value, None, "loaded", None)
    said = Chosen(None, landing.volts.value, landing.volts_are or "loaded", None)
    for key, pack in case.build.packs.items():
        chemistry = pack.part.chemistry
        if chemistry is None:
            continue
        by_share, by_volts = loaded_volts(left, chemistry), loaded_volts(said, chemistry)
        if abs(by_share - by_volts) <= 2.0 * RECOVERY[1]:
            yield Judged()
            continue
        text = say(
            "{} of the charge is about {} a cell of battery {} under load; landing says {}.",
            share(landing.share.value),
            made(by_share, "V"),
            key,
            given(landing.volts.value, "V"),
        )
        yield clash(text, "Take one of the two out.", at.at("volts"), at.at("share"))
        return
