"""Every selection tried, one by one, without any bound: computed whole and judged by every rule."""

import random
from collections.abc import Mapping
from dataclasses import replace

from builder.compute.choose.offers import Selection
from builder.compute.choose.selected_build import selected_build
from builder.compute.choose.selections import every_selection
from builder.compute.compute import compute, on_demand
from builder.compute.figures.figure import Unknown
from builder.diagnostics.finding import Severity
from builder.model.build import Build, ShelfEntry
from builder.model.source.part import Part
from builder.rules.judge import judge
from builder.rules.judge_swap import rules_of_swaps
from builder.rules.rule import Case, Found

Point = tuple[int, float, float, float]
ShelfEntries = Mapping[str, ShelfEntry]


def _breaks_a_rule(build: Build) -> bool:
    """Whether a rule that needs no order of work, money or limits finds a fault. What other rules find
    takes none away, so that those are worked out for builds that are left; an accept might.
    """
    case = Case(build, on_demand(build))
    found = ((rule, o) for rule in rules_of_swaps() for o in rule.check(case))
    return not build.source.accept and any(
        isinstance(o, Found) and (o.severity or rule.severity) == Severity.FAULT
        for rule, o in found
    )


def point_of(build: Build, selection: Selection, shelf: ShelfEntries) -> Point | None:
    """Swaps, weight, price and minus time of one selection; None where a rule finds a fault."""
    made = selected_build(build, selection, shelf)
    if _breaks_a_rule(made):
        return None
    results = compute(made)
    if judge(Case(made, results)).faults:
        return None
    line = next(x for x in results.budget.packs if x.key == f"pack-{selection.pack}")
    time = results.flight.packs[selection.pack].endurance_styled
    if isinstance(time, Unknown) or line.used is None or results.budget.lacks:
        return None
    price = (results.budget.this_build.minor + line.used.minor) / 10**line.used.digits
    mass = results.mass.all_up[selection.pack]
    return len(selection.swaps), mass.value, price, -time.value


def beats(a: Point, b: Point) -> bool:
    """Whether one is as good in all four and better in one."""
    near = [(x, y + 1e-9 * abs(y)) for x, y in zip(a, b, strict=True)]
    return all(x <= y for x, y in near) and any(
        x < y - 1e-9 * abs(y) for x, y in zip(a, b, strict=True)
    )


def all_points(build: Build, shelf: ShelfEntries) -> dict[Selection, Point]:
    """Every selection that keeps every rule."""
    found = {s: point_of(build, s, shelf) for s in every_selection(build, shelf)}
    return {s: p for s, p in found.items() if p is not None}


def _mutant(dice: random.Random, part: Part) -> Part:
    """Another part of the kind: other weight and price, and now and then something that breaks."""
    change: dict[str, object] = {}
    if part.mass is not None:
        by = dice.uniform(0.6, 1.4)
        scaled = {
            basis: replace(q, value=q.value * by)
            for basis in ("maker", "measured", "estimate")
            if (q := getattr(part.mass, basis)) is not None
        }
        change["mass"] = part.mass.model_copy(update=scaled)
    if part.price is not None and part.price.each is not None:
        cents = round(part.price.each.minor * dice.uniform(0.5, 1.6))
        each = replace(part.price.each, minor=cents)
        change["price"] = part.price.model_copy(update={"each": each})
    capacity = getattr(part, "capacity", None)
    if part.kind == "pack" and capacity is not None:
        change["capacity"] = replace(capacity, value=capacity.value * dice.uniform(0.6, 1.5))
    cells = getattr(part, "cells", None)
    if cells is not None and dice.random() < 0.4:
        change["cells"] = replace(cells, low=cells.low + 2, high=cells.high + 2)
    if part.kind == "propeller" and dice.random() < 0.4:
        change["diameter"] = replace(part.diameter, value=part.diameter.value * 1.6)  # type: ignore[attr-defined]
    return part.model_copy(update=change)


def generated_shelf(build: Build, seed: int, places: int) -> dict[str, ShelfEntry]:
    """The parts of the build, and other ones for some of its places and its batteries."""
    dice = random.Random(seed)
    kinds = ("motor", "propeller", "camera", "antenna", "frame", "video-transmitter")
    fitted = [f for f in build.parts.values() if f.part.kind in kinds]
    out = dict(build.shelf)
    for f in dice.sample(fitted, min(places, len(fitted))):
        for n in range(dice.choice((1, 2))):
            name = f"other-{f.shelf}-{n}"
            out[name] = ShelfEntry(name, _mutant(dice, f.part), f.shelf_where)
    pack = dice.choice(list(build.packs.values()))
    name = f"other-{pack.shelf}"
    out[name] = ShelfEntry(name, _mutant(dice, pack.part), pack.shelf_where)
    return out
