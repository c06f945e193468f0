"""Batteries that the wires join otherwise than the build says.

Checks: how the wires between the connectors of the battery join them, against `series` of
each battery. A closed loop of batteries is a short. A lead outside the aircraft, named by
`through`, is not checked.
Why: two batteries in series give twice the volts, and destroy what is made for one. A closed
loop of batteries is a short that no switch opens.
Example: minus of one pigtail on plus of the other, and a build that says nothing of series.
Mend: write `series` and `parallel` as they are joined, or fix the wires.
Source: Kirchhoff's law of volts
"""

from collections.abc import Iterator

from builder.compute.circuit.battery_levels import BatteryLevels
from builder.compute.loops.series import link_joins
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.model.build import FittedPack
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
_MEND = "Plug no battery in. Write how they are joined, or fix the wires."
_OPEN = "Plug no battery in. Take one wire of the loop away."


def _where(case: Case, levels: BatteryLevels) -> Where:
    """The wire that joins one battery to the next, else the last one at a connector."""
    nets = case.results.netlist
    ends = {c for p in levels.plugs for c in (p.plus, p.minus)}
    between = link_joins(nets) or tuple(j for c in ends for j in nets.at.get(c, ()))
    order = {id(run.where): i for i, run in enumerate(case.build.wires)}
    return max(between, key=lambda j: order.get(id(j.where), -1)).where


def _one(case: Case, levels: BatteryLevels, pack: FittedPack) -> Outcome:
    said, joined, connectors = pack.use.series, pack.joined, len(levels.plugs)
    if levels.steps == said:
        return Judged()
    if levels.steps == 1 and joined != connectors:
        return NotJudged(f"which batteries of {pack.key} plug into which connector", pack.where)
    how = f"{levels.steps} batteries in series" if levels.steps > 1 else "the batteries in parallel"
    text = f"The wires join {how}; battery {pack.key} says {said} in series."
    where = _where(case, levels) if levels.steps > 1 else pack.where
    return Found(text, _MEND, where, see=(pack.where,))


def check(case: Case) -> Iterator[Outcome]:
    levels = case.results.netlist.levels
    packs = case.build.packs.values()
    if len(levels.plugs) < 2:
        lacking = (p for p in packs if p.joined > 1 and not p.use.through)
        yield from (NotJudged(f"the lead that joins battery {p.key}", p.where) for p in lacking)
        return
    if levels.rings:
        boards = " and ".join(p.board for p in levels.plugs)
        text = f"The wires join the batteries at {boards} in a closed loop: it shorts them."
        yield Found(text, _OPEN, _where(case, levels))
        return
    yield from (_one(case, levels, pack) for pack in packs)
