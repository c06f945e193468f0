"""Rows of the weight table: one piece's mass on each basis, times the count, with the scatter of
the pieces.
"""

from dataclasses import dataclass
from math import sqrt

from builder.compute.figures.figure import (
    Figure,
    MaybeFigure,
    Unknown,
    apply,
    constant,
    formula,
    leaf,
)
from builder.compute.formulas.uncertainty.statistics import resolution_spread
from builder.compute.formulas.weight.mass_lines import line_mass, pieces_mass
from builder.diagnostics.where import Where
from builder.model.build import Build, Fitted, FittedPack
from builder.model.values.base import SourcedMass

_LINE = formula(line_mass)
# What a scale is taken to resolve where nobody says: a pocket scale of 0.1 g (common practice, no
# source).
USUAL_SCALE = 0.0001  # kg
_SHARES = {"maker": ("maker_mass", 0.03), "estimate": ("estimate", 0.15)}


@dataclass(frozen=True, eq=False)
class MassLine:
    """One row of the weight table. `others` are further bases of one piece's mass, shown beside the
    trusted one.
    """

    key: str
    label: str
    group: str
    count: int
    each: MaybeFigure
    line: MaybeFigure
    others: tuple[Figure, ...] = ()


def _share(build: Build, basis: str) -> float:
    name, usual = _SHARES[basis]
    given = getattr(build.site.spreads, name)
    return given.value if given is not None else usual


def mass_leaves(
    build: Build, key: str, label: str, mass: SourcedMass, where: Where
) -> tuple[Figure, ...]:
    """One piece's mass on every basis that is given, most trusted first."""
    out: list[Figure] = []
    for basis, quantity in mass.all():
        if quantity.spread is not None:
            own = quantity.spread
        elif basis == "measured":
            scale = mass.scale.value if mass.scale is not None else USUAL_SCALE
            own = resolution_spread(scale) / (mass.weighed_together or 1)
        else:
            own = quantity.value * _share(build, basis)
        name = key if not out else f"{key}/{basis}"
        at = where.at(basis)
        out.append(leaf(name, label, quantity.value, "kg", own=own, basis=basis, where=at))  # type: ignore[arg-type]
    return tuple(out)


def _line(
    build: Build,
    key: str,
    label: str,
    group: str,
    count: int,
    mass: SourcedMass | None,
    shelf: str,
    where: Where,
) -> MassLine:
    """The row of a part: one piece's mass times the count, and the scatter of the pieces."""
    leaves = (
        mass_leaves(build, f"shelf/{shelf}/mass", f"Weight of one {label}", mass, where)
        if mass is not None
        else ()
    )
    if not leaves:
        missing = Unknown(f"{build.name}/mass/{key}", label, (f"weight of {label}",))
        return MassLine(key, label, group, count, missing, missing)
    each = leaves[0]
    given = build.site.spreads.piece_scatter
    share = given.value if given is not None else 0.01
    alike = each.basis == "measured" and count <= (
        mass.weighed_together or 1 if mass is not None else 1
    )
    pieces = constant(f"{build.name}/count/{key}", f"Pieces of {label}", float(count), "1")
    name = f"{build.name}/mass/{key}"
    if alike:
        line = apply(name, label, formula(pieces_mass), each, pieces)
        return MassLine(key, label, group, count, each, line, leaves[1:])
    own = sqrt(count) * share * each.value
    about = f"Scatter between pieces of {label}"
    note = f"pieces of one bag differ by {100 * share:g} %"
    scatter = leaf(
        f"{build.name}/scatter/{key}", about, 0.0, "kg", own=own, basis="setting", note=note
    )
    line = apply(name, label, _LINE, each, pieces, scatter)
    return MassLine(key, label, group, count, each, line, leaves[1:])


def part_line(build: Build, fitted: Fitted) -> MassLine:
    """The row of a fitted part: by the pieces of this build where they were weighed, else by the
    shelf.
    """
    part = fitted.part
    line = _line(
        build,
        fitted.key,
        part.name,
        part.group,
        fitted.count,
        part.mass,
        fitted.shelf,
        fitted.shelf_where.at("mass"),
    )
    return _by_pieces(build, fitted, line) if fitted.use.each_weighed else line


def _by_pieces(build: Build, fitted: Fitted, shelf: MassLine) -> MassLine:
    """The mean of the pieces that were weighed, times the count; pieces that were not weighed may
    scatter.
    """
    readings = [m.value for m in fitted.use.each_weighed]
    scale = fitted.part.mass.scale if fitted.part.mass is not None else None
    own = resolution_spread(scale.value if scale is not None else USUAL_SCALE) / sqrt(len(readings))
    name, count = f"{build.name}/pieces/{fitted.key}", fitted.count
    what = f"Weight of one {shelf.label}, mean of {len(readings)} weighed"
    where = fitted.where.at("each_weighed")
    each = leaf(
        name, what, sum(readings) / len(readings), "kg", own=own, basis="measured", where=where
    )
    pieces = constant(
        f"{build.name}/count/{fitted.key}", f"Pieces of {shelf.label}", float(count), "1"
    )
    beside = tuple(f for f in (shelf.each, *shelf.others) if isinstance(f, Figure))
    key = f"{build.name}/mass/{fitted.key}"
    unweighed = count - len(readings)
    if unweighed <= 0:
        line = apply(key, shelf.label, formula(pieces_mass), each, pieces)
    else:
        given = build.site.spreads.piece_scatter
        spread = sqrt(unweighed) * (given.value if given is not None else 0.01) * each.value
        about = f"Scatter between pieces of {shelf.label}"
        scatter = leaf(
            f"{build.name}/scatter/{fitted.key}", about, 0.0, "kg", own=spread, basis="setting"
        )
        line = apply(key, shelf.label, _LINE, each, pieces, scatter)
    return MassLine(fitted.key, shelf.label, shelf.group, count, each, line, beside)


def pack_line(build: Build, pack: FittedPack) -> MassLine:
    """The row of a pack, all its pieces in parallel counted."""
    count = pack.use.count * pack.use.parallel
    return _line(
        build,
        f"pack-{pack.key}",
        pack.part.name,
        "pack",
        count,
        pack.part.mass,
        pack.shelf,
        pack.shelf_where.at("mass"),
    )


def shelf_line(build: Build, key: str, shelf: str, count: int) -> MaybeFigure:
    """What pieces of another part of the shelf would weigh, in kg."""
    entry = build.shelf[shelf]
    part = entry.part
    return _line(
        build, key, part.name, part.group, count, part.mass, shelf, entry.where.at("mass")
    ).line
