"""What a copy will weigh: another aircraft after the same sheet, of other pieces of the same parts.

Its parts are of the same kinds, so what is known of a kind holds for it; its pieces, its batteries
and what its builder adds beyond the parts (glue, ties) are its own.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt

from builder.compute.figures.figure import Figure, MaybeFigure, apply, constant, formula, leaf
from builder.compute.figures.told import PlainShare, told
from builder.compute.formulas.weight.mass_lines import line_mass
from builder.compute.weight.estimate import estimate
from builder.compute.weight.evidence import Evidence
from builder.compute.weight.mass_lines import MassLine, piece_scatter
from builder.compute.weight.reconcile import Rows
from builder.load.assumed import assumed
from builder.model.build import Build

PACK_SCATTER = assumed("weight and size/battery-scatter")


@dataclass(frozen=True, eq=False)
class CopyMass:
    """What a copy weighs: dry, or with one pack and the payload."""

    pack: str
    mass: Figure


def _own_pieces(build: Build, key: str, row: MassLine, share: float) -> MassLine:
    """The row with other pieces of the same part."""
    if not isinstance(row.each, Figure) or row.each.key.startswith(f"{build.name}/wiring"):
        return row
    own = sqrt(row.count) * share * row.each.value
    about, name = f"Scatter between pieces of {row.label}, of a copy", f"{build.name}/copy"
    note = told("one differs from the next by ", PlainShare(share))
    scatter = leaf(f"{name}/scatter/{key}", about, 0.0, "kg", own=own, basis="setting", note=note)
    count = constant(f"{build.name}/count/{key}", f"Pieces of {row.label}", float(row.count), "1")
    line: MaybeFigure = apply(
        f"{name}/{key}", f"{row.label}, of a copy", formula(line_mass), row.each, count, scatter
    )
    return MassLine(row.key, row.label, row.group, row.count, row.each, line, row.others)


def _rows_of_copy(build: Build, rows: Mapping[str, MassLine]) -> dict[str, MassLine]:
    share, said = piece_scatter(build), build.site.spreads.pack_scatter
    of_packs = said.value if said is not None else PACK_SCATTER
    out = {}
    for key, row in rows.items():
        alike = key.startswith(("wiring/", "extra/"))
        scatter = of_packs if key.startswith("pack-") else share
        out[key] = row if alike else _own_pieces(build, key, row, scatter)
    return out


def copy_masses(build: Build, rows: Rows, evidence: Evidence) -> dict[str, CopyMass]:
    """Dry under '', then with each pack and the payload."""
    name = f"{build.name}/copy/mass"
    own_share = leaf(
        f"{build.name}/copy/beyond",
        "What a copy holds beyond its parts, against this aircraft",
        0.0,
        "kg",
        own=evidence.beyond.own,
        basis="setting",
        note=evidence.beyond.note,
    )
    beyond = MassLine("beyond", own_share.label, "other", 1, own_share, own_share)
    dry = {**_rows_of_copy(build, rows.dry), "copy/beyond": beyond}
    carried = _rows_of_copy(build, rows.payload)
    label = "Dry weight of a copy"
    out = {"": CopyMass("", estimate(evidence, f"{name}-dry", label, dry))}
    for k, line in rows.packs.items():
        flying = {**dry, **carried, **_rows_of_copy(build, {f"pack-{k}": line})}
        about = f"Flying weight of a copy with battery {k}"
        out[k] = CopyMass(k, estimate(evidence, f"{name}-{k}", about, flying))
    return out
