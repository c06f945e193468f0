"""Volts below or above what a load accepts.

Checks: each load's accepted volts against what reaches it: a rail with its tolerance, or the
battery from landing volts to full. Too low is a fault only when the nominal volts already are.
What only the tolerance of a rail oversteps is a remark. Up to 5 % is none where the load names one
figure and no range.
Why: too much destroys the load at the first plug-in; too little lets it drop out in the air.
Example: a video transmitter that accepts 7 V to 37 V on a 5 V rail.
Mend: feed it from a rail inside its range.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.rails import Supplied
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.kinds import SpeedController
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
_READING = assumed("supply/volts-reading")
_ONE_FIGURE = assumed("supply/volts-one-figure")


def _against(s: Supplied, low: float, high: float, where: Where) -> Outcome:
    source = s.load.source.label if s.load.source is not None else ""
    nominal, lowest, highest = s.nominal or 0.0, s.lowest or 0.0, s.highest or 0.0
    slack = _ONE_FIGURE if low == high else _READING
    from_rail = s.load.source is not None and s.load.source.rail is not None
    bears, wants = given(high, "V"), given(low, "V")
    gets = say("gets up to {} from {}", made(highest, "V"), source)
    if nominal > high * (1 + slack) or (highest > high * (1 + _READING) and not from_rail):
        text = say("{} accepts up to {} and {}.", s.load.part, bears, gets)
        hint = "Feed it from a lower rail."
        if not from_rail:
            hint = "Feed it from a rail inside its range, or take a battery of fewer cells."
        return Found(text, hint, where, signal=Signal.WARNING)
    if nominal < low * (1 - slack):
        text = say(
            "{} wants at least {} and gets {} from {}.",
            s.load.part,
            wants,
            made(nominal, "V"),
            source,
        )
        hint = "Feed it from a higher rail."
        if not from_rail:
            hint = "Take a battery of more cells, or a part that works on fewer volts."
        return Found(text, hint, where)
    if highest > high * (1 + slack):
        text = say("{} accepts up to {}; with its tolerance it {}.", s.load.part, bears, gets)
        return Found(
            text,
            "Measure the rail before the load is soldered on.",
            where,
            severity=Severity.REMARK,
        )
    if lowest < low * (1 - slack):
        text = say(
            "{} wants at least {}; {} falls to {}.", s.load.part, wants, source, made(lowest, "V")
        )
        hint = (
            "Measure the rail before the load is soldered on."
            if from_rail
            else "Land earlier, or use a rail that holds."
        )
        return Found(text, hint, where, severity=Severity.REMARK)
    return Judged()


def check(case: Case) -> Iterator[Outcome]:
    power = case.results.power
    for supplied in (*power.on_pack, *(s for row in power.rails for s in row.supplied)):
        load = supplied.load
        wires = case.results.netlist.at.get(load.pad, ())
        where = wires[-1].where if wires else case.build.parts[load.pad.part].where
        part = case.build.parts[load.pad.part].part
        by_cells = isinstance(part, SpeedController) and part.cells is not None
        if by_cells and load.low is None and supplied in power.on_pack:
            continue  # its cells give the volts that it accepts: power/speed-controller-cells
        if load.low is None or load.high is None:
            yield NotJudged(f"volts that {load.part} accepts", load.where)
        elif supplied.lowest is None or supplied.highest is None or supplied.nominal is None:
            yield NotJudged("volts of the battery", case.build.where("packs"))
        else:
            yield _against(supplied, load.low, load.high, where)
