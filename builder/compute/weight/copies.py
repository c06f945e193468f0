"""What a copy will weigh: another aircraft after the same sheet, of other pieces of the same parts.

Its parts are of the same kinds, so what is known of a kind holds for it; its pieces, its batteries
and what its builder adds beyond the parts (glue, ties) are its own.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt

from builder.compute.figures.figure import Figure, MaybeFigure, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.told import PlainShare, told
from builder.compute.formulas.weight.mass_lines import line_mass
from builder.compute.weight.estimate import estimate
from builder.compute.weight.evidence import Evidence
from builder.compute.weight.mass_lines import MassLine, piece_scatter
from builder.compute.weight.one_aircraft import shelf_of
from builder.compute.weight.reconcile import Rows
from builder.load.assumed import assumed
from builder.model.build import Build

PACK_SCATTER = assumed("weight and size/battery-scatter")


@dataclass(frozen=True, eq=False)
class CopyMass:
    """What a copy weighs: dry, or with one pack and the payload."""

    pack: str
    mass: Figure


def _own_pieces(build: Build, name: str, key: str, row: MassLine, share: float) -> MassLine:
    """The row with other pieces of the same part."""
    if not isinstance(row.each, Figure) or row.each.key.startswith(f"{build.name}/wiring"):
        return row
    own = sqrt(row.count) * share * row.each.value
    about = f"Scatter between pieces of {row.label}, of a copy"
    note = told("one differs from the next by ", PlainShare(share))
    scatter = leaf(f"{name}/scatter/{key}", about, 0.0, "kg", own=own, basis="setting", note=note)
    count = constant(f"{build.name}/count/{key}", f"Pieces of {row.label}", float(row.count), "1")
    line: MaybeFigure = apply(
        f"{name}/{key}", f"{row.label}, of a copy", formula(line_mass), row.each, count, scatter
    )
    return MassLine(row.key, row.label, row.group, row.count, row.each, line, row.others)


def _rows_of_copy(build: Build, name: str, rows: Mapping[str, MassLine]) -> dict[str, MassLine]:
    share, said = piece_scatter(build), build.site.spreads.pack_scatter
    of_packs = said.value if said is not None else PACK_SCATTER
    out = {}
    for key, row in rows.items():
        alike = key.startswith(("wiring/", "extra/"))
        scatter = of_packs if key.startswith("pack-") else share
        out[key] = row if alike else _own_pieces(build, name, key, row, scatter)
    return out


def _beyond(name: str, evidence: Evidence) -> MassLine:
    label = "What a copy holds beyond its parts, against this aircraft"
    own, note = evidence.beyond.own, evidence.beyond.note
    figure = leaf(f"{name}/beyond", label, 0.0, "kg", own=own, basis="setting", note=note)
    return MassLine("beyond", label, "other", 1, figure, figure)


def another_aircraft(
    build: Build, rows: Mapping[str, MassLine], evidence: Evidence
) -> dict[str, MassLine]:
    """Rows of a build that is another aircraft after a sheet: its pieces, and what it holds beyond
    them, are its own.
    """
    root = build.aircraft
    out: dict[str, MassLine] = {}
    for key, row in rows.items():
        shelf, count = shelf_of(build, key)
        pieces = "" if (shelf, count) == shelf_of(root, key) else f"/{shelf}-{count}"
        out |= _rows_of_copy(build, f"{root.name}/pieces{pieces}", {key: row})
    return {**out, "copy/beyond": _beyond(f"{root.name}/pieces", evidence)}


def copy_masses(build: Build, rows: Rows, evidence: Evidence) -> dict[str, CopyMass]:
    """Dry under '', then with each pack and the payload."""
    name, own = f"{build.name}/copy/mass", f"{build.name}/copy"
    dry = {**_rows_of_copy(build, own, rows.dry), "copy/beyond": _beyond(own, evidence)}
    carried = _rows_of_copy(build, own, rows.payload)
    label = "Dry weight of a copy"
    out = {"": CopyMass("", estimate(evidence, f"{name}-dry", label, dry))}
    for k, line in rows.packs.items():
        flying = {**dry, **carried, **_rows_of_copy(build, own, {f"pack-{k}": line})}
        about = f"Flying weight of a copy with battery {k}"
        out[k] = CopyMass(k, estimate(evidence, f"{name}-{k}", about, flying))
    return out
