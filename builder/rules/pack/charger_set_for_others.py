"""A charger that is set for other cells than the battery's.

Checks: what the charger is set to for a battery, against the battery's chemistry, cells in series,
full volts of a cell and highest charging current. Batteries that are charged together in
parallel take the sum of their currents.
Why: a cell that is charged too far or too fast swells and burns.
Example: a charger set to 4.35 V a cell, and a battery that is full at 4.20 V.
Mend: set the charger to what the battery's label says.
Source: common practice, no source; full volts of a cell: cell data sheets (from memory)
"""

from collections.abc import Iterator

from builder.compute.circuit.pack_volts import CHEMISTRY
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.model.build import FittedPack
from builder.model.source.build_source import Charging
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
_EXACT = 1e-6  # volts and shares that are written alike are alike
_MEND = "Set the charger to what the battery's label says, before it is charged."


def _kind(pack: FittedPack, said: Charging, at: Where) -> Outcome | None:
    own = pack.part.chemistry
    if said.chemistry is None:
        return None
    if own is None:
        return NotJudged(f"chemistry of battery {pack.key}", pack.shelf_where)
    if said.chemistry == own:
        return Judged()
    text = f"The charger is set to {said.chemistry} for battery {pack.key}, which is {own}."
    return clash(text, _MEND, at.at("chemistry"), pack.shelf_where.at("chemistry"))


def _cells(pack: FittedPack, said: Charging, at: Where) -> Outcome | None:
    own = pack.part.cells
    if said.cells is None:
        return None
    if own is None:
        return NotJudged(f"cells of battery {pack.key}", pack.shelf_where)
    if (said.cells.low, said.cells.high) == (own.low, own.high):
        return Judged()
    whole = pack.cells or own
    if said.together == 1 and (said.cells.low, said.cells.high) == (whole.low, whole.high):
        return NotJudged(f"whether battery {pack.key} is balanced as it is charged in series", at)
    text = f"The charger is set to {said.cells.label}; battery {pack.key} has {own.label}."
    return clash(text, _MEND, at.at("cells"), pack.shelf_where.at("cells"))


def _full(pack: FittedPack, said: Charging, at: Where) -> Outcome | None:
    part = pack.part
    if said.full is None:
        return None
    if part.full is None and part.chemistry is None:
        return NotJudged(f"full volts of battery {pack.key}", pack.shelf_where)
    own = part.full.value if part.full is not None else CHEMISTRY[part.chemistry or ""][0]
    if said.full.value <= own + _EXACT:
        return Judged()
    text = say(
        "The charger is set to {} a cell; a cell of battery {} is full at {}.",
        given(said.full.value, "V"),
        pack.key,
        given(own, "V"),
    )
    other = pack.shelf_where.at("full" if part.full is not None else "chemistry")
    return clash(text, _MEND, at.at("full"), other)


def _current(pack: FittedPack, said: Charging, at: Where) -> Outcome | None:
    part, where = pack.part, at.at("current")
    if said.current is None:
        return None
    if part.charge is None or part.capacity is None:
        return NotJudged(f"highest charging current of battery {pack.key}", pack.shelf_where)
    most = part.charge.current(part.capacity.value)
    if said.current.value <= most * said.together * (1 + _EXACT):
        return Judged()
    if said.together == 1 and said.current.value <= most * pack.use.parallel * (1 + _EXACT):
        return NotJudged(f"whether all of battery {pack.key} are charged at once", where)
    text = say(
        "The charger is set to {} for {}, which takes {}.",
        given(said.current.value, "A"),
        f"battery {pack.key}" if said.together == 1 else f"{said.together} of battery {pack.key}",
        made(most * said.together, "A"),
    )
    return clash(text, _MEND, where, pack.shelf_where.at("charge"))


def check(case: Case) -> Iterator[Outcome]:
    for pack in case.build.packs.values():
        said, at = pack.use.charging, pack.where.at("charging")
        if said is None:
            continue
        found = [judge(pack, said, at) for judge in (_kind, _cells, _full, _current)]
        yield from (one for one in found if one is not None)
