"""What is fitted draws, whether its wires are written or not: a sheet that has no wires yet promises
no longer flight.
"""

from collections.abc import Collection
from dataclasses import replace

from builder.compute.circuit.feeds import currents_of
from builder.compute.figures.figure import Figure, MaybeFigure, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import total
from builder.compute.formulas.electric.electronics import current_of_power
from builder.load.assumed import assumed, assumed_list, assumed_topic
from builder.model.build import Build, Fitted, piece_names

# W in flight of what nobody says a draw of, by kind. A buzzer does not sound in flight.
USUAL_POWER = {kind: watts for kind, (watts,) in assumed_topic("power of one part").items()}
_UNLIKE = assumed("supply/usual-power-spread")
USUAL_VOLTS = assumed("supply/usual-volts")
_CONVERTER = assumed_list("supply/board-converter")


def _power(build: Build, fitted: Fitted) -> Figure | None:
    """Power of one piece in flight: as its maker says, else what is usual for its kind."""
    part, key = fitted.part, f"shelf/{fitted.shelf}/in-flight"
    supply, label = part.supply, f"Power of {fitted.key} in flight"
    if part.KIND == "buzzer" or (supply is not None and supply.own_cell):
        return None
    idle, typical, *_ = currents_of(build, fitted, None)
    current = typical if typical is not None else idle
    where = fitted.shelf_where.at("supply")
    if supply is not None and supply.draw.power is not None:
        given = supply.draw.power.value
        return leaf(key, label, given, "W", own=0.1 * given, basis="maker", where=where)
    if current is not None:
        at = supply.at if supply is not None else None
        accepts = supply.accepts if supply is not None else None
        lowest = accepts.low if accepts is not None else USUAL_VOLTS
        volts = at.value if at is not None else lowest
        given = current * volts
        note = "" if at is not None or accepts is not None else "at 5 V, for want of its volts"
        return leaf(key, label, given, "W", own=0.1 * given, basis="maker", where=where, note=note)
    usual = USUAL_POWER.get(part.KIND)
    if usual is None:
        return None
    note = "usual for its kind (from memory); its draw is not known"
    return leaf(key, label, usual, "W", own=_UNLIKE * usual, basis="estimate", note=note)


def unwired_current(
    build: Build, counted: Collection[str], volts: Figure
) -> tuple[tuple[MaybeFigure, ...], tuple[str, ...]]:
    """Current from the pack of each fitted part that is not `counted` by its wires, and the parts
    that they are of.
    """
    out: list[MaybeFigure] = []
    parts: list[str] = []
    for fitted in build.parts.values():
        left = [b for b in piece_names(fitted) if b not in counted]
        one = _power(build, fitted) if left else None
        if one is None:
            continue
        parts += left
        value, own = _CONVERTER
        note = "common practice, no source"
        about = "Efficiency from the battery to a part that is not wired yet"
        efficiency = leaf(
            "efficiency/unwired", about, value, "1", own=own, basis="estimate", note=note
        )
        key = f"{build.name}/power/unwired/{fitted.key}"
        pieces = constant(f"{key}/pieces", f"Pieces of {fitted.key}", float(len(left)), "1")
        label = f"Current of {fitted.key}, which is not counted by its wires"
        how = formula(current_of_power)
        out.append(apply(key, label, how, one, pieces, volts, efficiency))
    return tuple(out), tuple(parts)


def standing_total(
    build: Build, parts: Collection[MaybeFigure], counted: Collection[str], volts: Figure
) -> Figure:
    """Standing current of what is wired and of what is only fitted. Parts whose draw nobody says
    have what is usual for their kind, with a band as wide: they are not lacking then.
    """
    more, named = unwired_current(build, counted, volts)
    made = total(f"{build.name}/power/standing-current", "Standing current", "A", [*parts, *more])
    said = {f"Typical current of {name}" for name in named}
    return replace(made, lacks=tuple(x for x in made.lacks if x not in said))
