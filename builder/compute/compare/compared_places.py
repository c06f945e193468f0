"""The places of a build that a comparison lays side by side: its parts, its wires and solder, and
what the scale adds.
"""

from collections.abc import Sequence

from builder.compute.figures.figure import MaybeFigure
from builder.compute.figures.sums import difference
from builder.compute.results import Results
from builder.frozen import value_class
from builder.model.build import Build
from builder.model.values.money_text import Money

SCALE = "scale/not-in-the-list"
# Kinds of many sorts: a screw is no other sort of nut, so these are matched by their role alone.
_MANY_SORTS = ("hardware", "printed-part", "tool", "consumable", "ground-gear", "other")
_SCALE_WORDS = "what the scale says beyond the parts"


@value_class(frozen=True, eq=False)
class ComparedPlace:
    """One place: its key, what stands there, its grams (None for what does not fly) and its money.

    `unpriced` is what costs something, but nobody knows how much; a wire or a tool has no money of
    its own here. `kind` is empty for what is no part, and for kinds of many sorts: such a place is
    matched by its key alone.
    """

    key: str
    kind: str
    shelf: str
    count: int
    name: str
    grams: MaybeFigure | None
    money: Money | None
    unpriced: bool = False


def places(build: Build, results: Results) -> tuple[ComparedPlace, ...]:
    """All places in the order of the file. The grams of all of them add up to the dry weight."""
    lines = {line.key: line for line in results.mass.lines}
    costs = {line.key: line.used for line in results.budget.lines}
    out = []
    for f in build.parts.values():
        line = lines.pop(f.key, None)
        name = (f"{f.count} x " if f.count > 1 else "") + f.part.name
        grams = line.line if line is not None else None
        kind = "" if f.part.kind in _MANY_SORTS else f.part.kind
        unpriced = f.key in costs and costs[f.key] is None
        out.append(
            ComparedPlace(f.key, kind, f.shelf, f.count, name, grams, costs.get(f.key), unpriced)
        )
    out += [ComparedPlace(x.key, "", "", 1, x.label, x.line, None) for x in lines.values()]
    beyond = difference(
        f"{build.name}/mass/beyond-parts",
        _SCALE_WORDS,
        "kg",
        results.mass.dry,
        results.mass.dry_sum,
    )
    out.append(ComparedPlace(SCALE, "", "", 1, _SCALE_WORDS, beyond, None))
    return tuple(out)


def matched(
    first: Sequence[ComparedPlace], second: Sequence[ComparedPlace]
) -> tuple[tuple[ComparedPlace | None, ComparedPlace | None], ...]:
    """Places of both builds in pairs: by role (the key), then what is left by kind, in the order of
    the files.
    """
    theirs = {p.key: p for p in second}
    keys = {p.key for p in first} & set(theirs)
    left: dict[str, list[ComparedPlace]] = {}
    for p in second:
        if p.key not in keys and p.kind:
            left.setdefault(p.kind, []).append(p)
    out: list[tuple[ComparedPlace | None, ComparedPlace | None]] = []
    used = set(keys)
    for p in first:
        other = theirs.get(p.key)
        if other is None and left.get(p.kind):
            other = left[p.kind].pop(0)
            used.add(other.key)
        out.append((p, other))
    return (*out, *((None, p) for p in second if p.key not in used))
