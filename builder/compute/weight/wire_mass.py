"""Mass of wires from gauge and length, of what trimming a fitted lead takes off, and of the solder
in the joints.
"""

from builder.compute.figures.figure import Figure, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import total
from builder.compute.formulas.electric.conductor import awg_diameter, wire_area, wire_diameter
from builder.compute.formulas.weight.mass_lines import joint_solder, trimmed_mass, wire_run_mass
from builder.compute.weight.one_aircraft import wire_keys
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build, WireRun
from builder.model.values.measures import Gauge

COVER = assumed("wires/cover")
STRANDED = assumed("wires/stranded")
_COVER_SPREAD = assumed("wires/cover-spread")
_LENGTH_SHARE = assumed("wires/length-spread")
_USUAL_PAD = {
    "signal": assumed_list("soldering/signal-pad"),
    "power": assumed_list("soldering/power-pad"),
    "plane": assumed_list("soldering/plane-pad"),
}
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


def _pads(build: Build) -> list[tuple[int, int]]:
    """Length and width of each soldered pad on a board, in whole micrometres, so that like pads are
    alike; the usual size where it is not said.
    """
    ends = [c for run in build.wires for c in (run.start, run.end)]
    out = []
    for contact in ends:
        if build.parts[contact.part].part.leads is not None:
            continue
        pad = build.pad(contact)
        size = pad.pad_size.along if pad.pad_size is not None else ()
        usual = _USUAL_PAD[pad.copper or "signal"]
        long, wide = (size[0], size[1]) if len(size) > 1 else usual
        out.append((round(1e6 * long), round(1e6 * wide)))
    return out


def solder_mass(build: Build) -> Figure | None:
    """Solder in the joints, by the area of each pad; None without wires."""
    pads = _pads(build)
    if not pads:
        return None
    parts = []
    for long, wide in sorted(set(pads)):
        words = f"{long / 1000:.3g} x {wide / 1000:.3g} mm"
        key = f"{long}x{wide}"
        each = 1e-12 * long * wide * _FILLET * _SOLDER_DENSITY
        per = leaf(
            f"solder/{key}",
            f"Solder of a joint on a pad of {words}",
            each,
            "kg",
            own=each * _SOLDER_SPREAD,
            basis="estimate",
            note="1 mm high on the pad's area (common practice, no source)",
        )
        pieces = constant(
            f"{build.name}/joints/{key}",
            f"Joints on pads of {words}",
            float(pads.count((long, wide))),
            "1",
        )
        parts.append(
            apply(
                f"{build.name}/wiring/solder-{key}",
                f"Solder on pads of {words}",
                formula(joint_solder),
                per,
                pieces,
            )
        )
    return total(f"{build.name}/wiring/solder", "Solder", "kg", parts)
