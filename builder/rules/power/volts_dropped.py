"""Volts lost on the way.

Checks: what each supply wire and its way back lose at the peak current, at 60 °C, against 3 % of
the volts it is fed with. The way back is the ground wire between the same two pieces, with all
that returns there, and at least one like itself.
Why: the load sees less than the rail gives: picture and link drop out when everything pulls at
once.
Example: 1 m of 24 AWG at 5 A loses 0.84 V at 20 °C: a sixth of a 5 V rail.
Mend: thicker or shorter wire, and a ground wire as thick as the supply.
Source: Ohm's law; 3 % is common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Unknown
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import figure, made, say, share

SEVERITY = Severity.REMARK
SHARE = assumed("supply/volts-dropped")


def check(case: Case) -> Iterator[Outcome]:
    path = case.results.path
    alone = (
        w for w in path.returns if not w.paired
    )  # else it was counted with the wire that it is the way back of
    for wire in (*path.wires, *alone):
        lost, lost_share = wire.lost, wire.lost_share
        if wire.run.wire.lead is not None and isinstance(lost, Unknown):
            continue  # a maker's own lead, as long as its maker made it
        if isinstance(lost, Unknown) or lost_share is None:
            missing = lost.missing if isinstance(lost, Unknown) else ("volts of the battery",)
            yield from (NotJudged(m, wire.run.where) for m in missing)
        elif lost_share > SHARE:
            yield Found(
                say(
                    "{} to {} and back loses {} of {} ({}) at its peak.",
                    wire.run.start,
                    wire.run.end,
                    figure(lost, 3),  # as the table of the supply wires
                    made(wire.volts or 0.0, "V"),
                    share(lost_share, lost.key, 1),
                ),
                "Take thicker or shorter wire.",
                wire.run.where,
            )
        else:
            yield Judged()
