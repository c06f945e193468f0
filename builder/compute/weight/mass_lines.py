"""Rows of the weight table: one piece's mass on each basis, times the count, with the scatter of
the pieces.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import fsum, sqrt

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.told import PlainShare, told
from builder.compute.formulas.uncertainty.reconciling import reading_spread
from builder.compute.formulas.weight.mass_lines import (
    line_mass,
    line_on_named_scale,
    pieces_mass,
)
from builder.compute.weight.one_aircraft import scatter_key, weighed_pieces
from builder.compute.weight.scales import (
    USUAL_CALIBRATION,
    scale_error,
    spread_note,
    spread_of_reading,
)
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build, Fitted, FittedPack
from builder.model.source.build_source import PartUse
from builder.model.values.base import SourcedMass
from builder.model.values.quantities import Quantity

_LINE = formula(line_mass)
_SHARES = {
    "maker": ("maker_mass", assumed("weight and size/maker-mass")),
    "estimate": ("estimate", assumed("weight and size/estimated-mass")),
}
PIECE_SCATTER = assumed("weight and size/piece-scatter")


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


def piece_scatter(build: Build) -> float:
    """Share by which one piece differs from the next of the same bag."""
    given = build.site.spreads.piece_scatter
    return given.value if given is not None else PIECE_SCATTER


def mass_leaves(
    build: Build, key: str, label: str, mass: SourcedMass, where: Where
) -> tuple[Figure, ...]:
    """One piece's mass on every basis that is given, most trusted first."""
    out: list[Figure] = []
    for basis, quantity in mass.all():
        note = ""
        if quantity.spread is not None:
            own = quantity.spread
        elif basis == "measured":
            own = _one_of_several(build, quantity, mass)
            note = spread_note(build, quantity, mass.scale_name)
            note = f"measured by {mass.measured_by}" if mass.measured_by else note
        else:
            own = quantity.value * _share(build, basis)
        name = key if not out else f"{key}/{basis}"
        at = where.at(basis)
        made = leaf(name, label, quantity.value, "kg", own=own, basis=basis, where=at, note=note)
        out.append(made)
    return tuple(out)


def _one_of_several(build: Build, shown: Quantity, mass: SourcedMass) -> float:
    """Spread of one piece's mass; several that lay on the scale together share one reading."""
    together = mass.weighed_together or 1
    whole = replace(shown, value=shown.value * together)
    if shown.step is not None and mass.scale is None:
        whole = replace(whole, step=shown.step * together)
    return spread_of_reading(build, whole, mass.scale, mass.scale_name) / together


def _own_pieces(mass: SourcedMass | None) -> int:
    """How many pieces of this aircraft lay on the scale: none where somebody else weighed theirs."""
    if mass is None or mass.measured_by:
        return 0 if mass is not None else 1
    return mass.weighed_together or 1


def _line(
    build: Build,
    key: str,
    label: str,
    group: str,
    count: int,
    mass: SourcedMass | None,
    shelf: str,
    where: Where,
    apart: str = "",
) -> MassLine:
    """The row of a part: one piece's mass times the count, and the scatter of the pieces.

    `apart` begins the keys of what is not of this build as it is.
    """
    leaves = (
        mass_leaves(build, f"shelf/{shelf}/mass", f"Weight of one {label}", mass, where)
        if mass is not None
        else ()
    )
    if not leaves:
        missing = Unknown(f"{apart or build.name}/mass/{key}", label, (f"weight of {label}",))
        return MassLine(key, label, group, count, missing, missing)
    each = leaves[0]
    share = piece_scatter(build)
    alike = each.basis == "measured" and count <= _own_pieces(mass)
    of = apart or build.name
    pieces = constant(f"{of}/count/{key}", f"Pieces of {label}", float(count), "1")
    name = f"{of}/mass/{key}"
    off = scale_error(build, mass.scale_name) if mass is not None else None
    off = off if each.basis == "measured" else None
    if alike and off is None:
        line = apply(name, label, formula(pieces_mass), each, pieces)
        return MassLine(key, label, group, count, each, line, leaves[1:])
    own = 0.0 if alike else sqrt(count) * share * each.value
    about = f"Scatter between pieces of {label}"
    note = told("pieces of one bag differ by ", PlainShare(share))
    scatter = leaf(
        scatter_key(build, key, shelf, count), about, 0.0, "kg", own=own, basis="setting", note=note
    )
    if off is None:
        line = apply(name, label, _LINE, each, pieces, scatter)
    else:
        line = apply(name, label, formula(line_on_named_scale), each, pieces, scatter, off)
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
    of = weighed_pieces(build, fitted.key)
    return _by_pieces(build, fitted, line, *of) if of is not None else line


def _mean_spread(build: Build, readings: Sequence[Quantity], mass: SourcedMass | None) -> float:
    """Spread of the mean of single readings: digits average out, what the scale reads wrong does
    not.
    """
    scale = mass.scale if mass is not None else None
    alone = [spread_of_reading(build, q, scale, "each piece by itself") for q in readings]
    middle = fsum(q.value for q in readings) / len(readings)
    apart = sqrt(fsum(s**2 for s in alone)) / len(readings)
    given = build.site.spreads.scale_calibration
    return reading_spread(0.0, apart, (given.value if given else USUAL_CALIBRATION) * middle)


def _by_pieces(
    build: Build, fitted: Fitted, shelf: MassLine, weighed: Build, use: PartUse
) -> MassLine:
    """The mean of the pieces that were weighed, times the count; pieces that were not weighed may
    scatter. `weighed` is the build in which they were.
    """
    readings = [m.value for m in use.each_weighed]
    own = _mean_spread(build, use.each_weighed, fitted.part.mass)
    name, count = f"{weighed.name}/pieces/{fitted.key}", fitted.count
    what = f"Weight of one {shelf.label}, mean of {len(readings)} weighed"
    where = weighed.parts[fitted.key].where.at("each_weighed")
    each = leaf(
        name, what, fsum(readings) / len(readings), "kg", own=own, basis="measured", where=where
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
        spread = sqrt(unweighed) * piece_scatter(build) * each.value
        about = f"Scatter between pieces of {shelf.label}"
        own_key = f"{weighed.name}/scatter/{fitted.key}/weighed"
        scatter = leaf(own_key, about, 0.0, "kg", own=spread, basis="setting")
        line = apply(key, shelf.label, _LINE, each, pieces, scatter)
    return MassLine(fitted.key, shelf.label, shelf.group, count, each, line, beside)


def pack_line(build: Build, pack: FittedPack) -> MassLine:
    """The row of a pack, all that fly joined counted."""
    count = pack.joined
    return _line(
        build,
        f"pack-{pack.key}",
        pack.part.name,
        "pack",
        count,
        None if pack.use.beside else pack.part.mass,  # those of another kind weigh otherwise
        pack.shelf,
        pack.shelf_where.at("mass"),
    )


def shelf_line(build: Build, row: str, shelf: str, count: int, name: str) -> MaybeFigure:
    """What pieces of another part of the shelf would weigh in the place of a row, in kg. `name`
    begins the keys of its figures.
    """
    entry = build.shelf[shelf]
    part = entry.part
    at = entry.where.at("mass")
    return _line(build, row, part.name, part.group, count, part.mass, shelf, at, name).line
