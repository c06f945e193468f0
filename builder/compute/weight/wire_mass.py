"""Mass of wires from gauge and length, of what trimming a fitted lead takes off, and of the solder
in the joints.
"""

from collections import Counter
from dataclasses import replace
from math import hypot

from builder.compute.circuit.usual_pads import PadArea, pad_area
from builder.compute.figures.figure import Figure, MaybeFigure, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import total
from builder.compute.formulas.electric.conductor import awg_diameter, wire_area, wire_diameter
from builder.compute.formulas.weight.mass_lines import joint_solder, trimmed_mass, wire_run_mass
from builder.compute.weight.one_aircraft import wire_keys
from builder.load.assumed import assumed
from builder.model.build import Build, WireRun
from builder.model.values.measures import Gauge

COVER = assumed("wires/cover")
STRANDED = assumed("wires/stranded")
_COVER_SPREAD = assumed("wires/cover-spread")
_LENGTH_SHARE = assumed("wires/length-spread")
_FILLET = assumed("soldering/fillet")
_SOLDER_DENSITY = assumed("soldering/solder-density")
_SOLDER_SPREAD = assumed("soldering/solder-spread")


def copper_area(gauge: Gauge) -> float:
    """Cross-section of a gauge's copper in m²."""
    return gauge.area if gauge.area is not None else wire_area(awg_diameter(float(gauge.awg or 0)))


def outer_diameter(gauge: Gauge) -> float:
    """Diameter over the cover in m: strands 15 % thicker than solid copper, 0.4 mm of silicone
    (from memory).
    """
    return STRANDED * wire_diameter(copper_area(gauge)) + 2 * COVER


def _per_length(build: Build, gauge: Gauge) -> tuple[Figure, Figure]:
    """Copper area and outer diameter of a gauge, as figures that all builds share."""
    area = copper_area(gauge)
    key = gauge.label.replace(" ", "-")
    outer = outer_diameter(gauge)
    copper = constant(f"wire/{key}/area", f"Copper of {gauge.label}", area, "m²", "ASTM B258")
    cover = leaf(
        f"wire/{key}/outer",
        f"Outer diameter of {gauge.label}",
        outer,
        "m",
        own=2 * COVER * _COVER_SPREAD,
        basis="estimate",
        note="silicone cover of 0.4 mm (from memory)",
    )
    return copper, cover


def _length_share(build: Build) -> float:
    given = build.site.spreads.wire_length
    return given.value if given is not None else _LENGTH_SHARE


def _bought(build: Build, i: int, run: WireRun, of_run: str) -> Figure | None:
    wire = run.wire
    if wire.gauge is None or wire.length is None or wire.lead is not None:
        return None
    copper, outer = _per_length(build, wire.gauge)
    own = (
        wire.length.spread
        if wire.length.spread is not None
        else wire.length.value * _length_share(build)
    )
    name, key = f"{run.start} to {run.end}", f"{of_run}/length"
    long, where = wire.length.value, run.where.at("length")
    length = leaf(key, f"Length of {name}", long, "m", own=own, basis="estimate", where=where)
    key, label = f"{build.name}/wire/{i + 1}/mass", f"Wire {name}"
    made = apply(key, label, formula(wire_run_mass), copper, outer, length)
    return made if isinstance(made, Figure) else None


def _trimmed(build: Build, i: int, run: WireRun, of_run: str) -> Figure | None:
    """What trimming takes off a fitted lead whose mass is inside its part's; negative."""
    part = build.parts[run.start.part].part
    leads = part.leads
    if (
        run.wire.lead != "fitted"
        or run.wire.trim_to is None
        or leads is None
        or "leads" not in part.mass_with
    ):
        return None
    if leads.gauge is None or leads.length is None:
        return None
    copper, outer = _per_length(build, leads.gauge)
    whole = constant(
        f"shelf/{build.parts[run.start.part].shelf}/lead-length",
        f"Fitted lead of {run.start.part}",
        leads.length.value,
        "m",
    )
    own = run.wire.trim_to.value * _length_share(build)
    long, where = run.wire.trim_to.value, run.where.at("trim_to")
    key, label = f"{of_run}/trim", f"Lead {run.start} trimmed to"
    left = leaf(key, label, long, "m", own=own, basis="estimate", where=where)
    key, label = f"{build.name}/wire/{i + 1}/trimmed", f"Trimmed off {run.start}"
    made = apply(key, label, formula(trimmed_mass), copper, outer, whole, left)
    return made if isinstance(made, Figure) else None


def wire_mass(build: Build) -> Figure | None:
    """All wires that are bought by length, less what is trimmed off fitted leads; None without any."""
    runs = list(zip(build.wires, wire_keys(build), strict=True))
    made = [f(build, i, *run) for i, run in enumerate(runs) for f in (_bought, _trimmed)]
    found = [r for r in made if r is not None]
    if not found:
        return None
    return total(f"{build.name}/wiring/wires", "Wires, less trimmed leads", "kg", found)


def _soldered(build: Build) -> Counter[PadArea]:
    """How many joints there are on pads of each size, in whole micrometres, so that like pads are
    alike.
    """
    ends = [c for run in build.wires for c in (run.start, run.end)]
    boards = [c for c in ends if build.parts[c.part].part.leads is None]
    return Counter(_in_micrometres(pad_area(build, contact)) for contact in boards)


def _in_micrometres(area: PadArea) -> PadArea:
    length, width = round(area.length, 6), round(area.width, 6)
    return replace(area, length=length, width=width, narrowest=round(area.narrowest, 6))


def _order(area: PadArea) -> tuple[float, float, str]:
    return area.length, area.width, area.basis


def _solder_on(build: Build, area: PadArea, count: int, key: str) -> MaybeFigure:
    """The solder on all pads of one size."""
    words = f"{1000 * area.length:.3g} x {1000 * area.width:.3g} mm"
    each = area.length * area.width * _FILLET * _SOLDER_DENSITY
    note = "1 mm high on the pad's area (common practice, no source)"
    per = leaf(
        f"solder/{key}",
        f"Solder of a joint on a pad of {words}",
        each,
        "kg",
        own=each * hypot(_SOLDER_SPREAD, area.share),
        basis="estimate",
        note=f"{note}; size {area.basis}" if area.basis else note,
    )
    joints = f"Joints on pads of {words}"
    pieces = constant(f"{build.name}/joints/{key}", joints, float(count), "1")
    made = f"{build.name}/wiring/solder-{key}"
    return apply(made, f"Solder on pads of {words}", formula(joint_solder), per, pieces)


def _size_key(area: PadArea) -> str:
    """By size; for a usual one by what it is usual for as well, since their bands differ."""
    size = f"{1e6 * area.length:.0f}x{1e6 * area.width:.0f}"
    return f"{size}-{area.kind}" if area.basis else size


def solder_mass(build: Build) -> Figure | None:
    """Solder in the joints, by the area of each pad; None without wires."""
    pads = _soldered(build)
    if not pads:
        return None
    sizes = sorted(pads, key=_order)
    parts = [_solder_on(build, area, pads[area], _size_key(area)) for area in sizes]
    return total(f"{build.name}/wiring/solder", "Solder", "kg", parts)
