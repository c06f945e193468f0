"""How much heat the wire and the copper behind a contact lead away while the iron is on it, as
figures.

A wire is a long fin (Incropera and DeWitt, ch. 3), its insulation counted on the surface of its
copper. Copper that spreads from the pad is a sheet whose rim is still cold: that is the seconds of
a joint, not the steady state. A trace is a fin as wide as half a millimetre. A connector's contact
leads heat into the mate that is plugged in.
"""

from dataclasses import dataclass
from math import pi, sqrt

from builder.compute.circuit.usual_pads import PadArea, copper_behind, pad_area
from builder.compute.figures.figure import Figure, MaybeFigure, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.formulas.electric.conductor import wire_diameter
from builder.compute.formulas.soldering.fins import (
    film_through_insulation,
    long_fin_heat,
    ring_heat,
    round_perimeter,
    soaked_heat,
)
from builder.compute.formulas.soldering.heat import conduction_heat
from builder.compute.formulas.soldering.solder import COPPER_CONDUCTIVITY
from builder.compute.joints.soldering_bench import SolderingBench
from builder.compute.weight.wire_mass import COVER, copper_area
from builder.load.assumed import assumed
from builder.model.build import Build, Contact
from builder.model.values.measures import Gauge

_NO_SOURCE = "common practice, no source"
_FILM = assumed("soldering/film")
_COVER_CONDUCTIVITY = assumed("soldering/cover-conductivity")
_FOIL = assumed("soldering/foil")
_BOARD = assumed("soldering/board")
_TRACE = assumed("soldering/trace")
_BRASS = assumed("soldering/brass")
_INTO_MATE = assumed("soldering/into-mate")
_THICKER = assumed("soldering/contact-section")
_USUAL_BOARD = assumed("soldering/usual-board")


def wire_flow(build: Build, bench: SolderingBench, gauge: Gauge) -> MaybeFigure:
    """Heat that a wire leads away."""
    key = gauge.label.replace(" ", "-")
    area = constant(
        f"wire/{key}/area", f"Copper of {gauge.label}", copper_area(gauge), "m²", "ASTM B258"
    )
    bare = wire_diameter(copper_area(gauge))
    across = constant(f"wire/{key}/bare", f"Diameter of {gauge.label}", bare, "m", "ASTM B258")
    outer = constant(
        f"wire/{key}/covered",
        f"{gauge.label} with its cover",
        bare + 2 * COVER,
        "m",
        "cover of 0.4 mm",
    )
    film = _film()
    rubber = leaf(
        "heat/cover",
        "Conductivity of silicone rubber",
        _COVER_CONDUCTIVITY,
        "W/m/K",
        own=0.05,
        basis="estimate",
        note="from memory",
    )
    through = apply(
        f"wire/{key}/film",
        f"Given off by {gauge.label}",
        formula(film_through_insulation),
        film,
        across,
        outer,
        rubber,
    )
    around = apply(
        f"wire/{key}/perimeter", f"Perimeter of {gauge.label}", formula(round_perimeter), across
    )
    label = f"Heat that {gauge.label} takes away"
    return apply(
        f"{build.name}/heat/wire-{key}",
        label,
        formula(long_fin_heat),
        through,
        around,
        _copper(),
        area,
        bench.excess,
    )


def _film() -> Figure:
    return leaf(
        "heat/film",
        "Given off to still air",
        _FILM,
        "W/m²/K",
        own=5.0,
        basis="estimate",
        note=_NO_SOURCE,
    )


def _copper() -> Figure:
    return constant(
        "heat/copper", "Conductivity of copper", COPPER_CONDUCTIVITY, "W/m/K", "handbook value"
    )


@dataclass(frozen=True, eq=False)
class Spread:
    """Copper that spreads from a pad: foil, radius of the pad, and where the copper is still cold,
    in m.
    """

    name: str
    foil: Figure
    inner: Figure
    outer: Figure


def spread_of(build: Build, contact: Contact) -> Spread | None:
    """The copper around a pad; None for a pad on a trace."""
    copper, area = copper_behind(build, contact), pad_area(build, contact)
    if copper == "signal":
        return None
    part = build.parts[contact.part]
    sides = part.part.size.along[:2] if part.part.size is not None else (_USUAL_BOARD,)
    name = f"{part.shelf}/{copper}-{1000 * area.length:g}x{1000 * area.width:g}"
    name += f"-{area.kind}" if area.kind else ""
    layers, reach = (2, min(sides) / 2) if copper == "plane" else (1, min(sides) / 4)
    own = sqrt(area.length * area.width / pi)
    words = f"Copper foil, {layers} layer{'s' if layers > 1 else ''}"
    foil = constant(f"heat/foil/{layers}", words, layers * _FOIL, "m", "35 µm a layer, assumed")
    inner = _radius(f"shelf/{name}/radius", own, area)
    note = f"half the board for a plane, a quarter for wide copper: {_NO_SOURCE}"
    outer = constant(
        f"shelf/{name}/reach", "To where the copper is still cold", max(reach, 1.5 * own), "m", note
    )
    return Spread(name, foil, inner, outer)


def _radius(key: str, value: float, area: PadArea) -> Figure:
    """Radius of a pad as a disc: it is off by half the share by which the area is."""
    label = "Radius of the pad as a disc"
    if not area.basis:
        return constant(key, label, value, "m", "from its size")
    own = value * area.share / 2.0
    return leaf(key, label, value, "m", own=own, basis="estimate", note=area.basis)


def pad_flow(build: Build, bench: SolderingBench, contact: Contact) -> MaybeFigure:
    """Heat that the copper behind a pad leads away."""
    spread = spread_of(build, contact)
    if spread is not None:
        label = f"Heat that {copper_behind(build, contact)} copper takes"
        key = f"{build.name}/heat/{spread.name}"
        return apply(
            key,
            label,
            formula(ring_heat),
            _copper(),
            spread.foil,
            spread.inner,
            spread.outer,
            bench.excess,
        )
    around = constant("heat/trace/perimeter", "Both faces of a trace", 2 * _TRACE, "m", _NO_SOURCE)
    section = constant("heat/trace/area", "Section of a trace", _TRACE * _FOIL, "m²", _NO_SOURCE)
    key, label = f"{build.name}/heat/trace", "Heat that a trace takes"
    return apply(
        key, label, formula(long_fin_heat), _film(), around, _copper(), section, bench.excess
    )


def board_heat(build: Build, bench: SolderingBench, contact: Contact) -> MaybeFigure | None:
    """Heat that the board around a pad takes up while it flows outwards; None for a pad on a trace."""
    spread = spread_of(build, contact)
    if spread is None:
        return None
    sheet = leaf(
        "heat/board",
        "Heat capacity of a board",
        _BOARD,
        "J/m²/K",
        own=0.2 * _BOARD,
        basis="estimate",
        note="1.6 mm of glass and epoxy with its copper (from memory)",
    )
    key = f"{build.name}/heat/{spread.name}/soaked"
    return apply(
        key,
        "Heat that the board takes up",
        formula(soaked_heat),
        sheet,
        spread.inner,
        spread.outer,
        bench.excess,
    )


def cup_flow(build: Build, bench: SolderingBench, gauge: Gauge | None) -> MaybeFigure:
    """Heat that a connector's contact leads into its mate."""
    area = _THICKER * (copper_area(gauge) if gauge is not None else 1e-6)
    label = gauge.label.replace(" ", "-") if gauge is not None else "any"
    brass = constant(
        "heat/brass", "Conductivity of brass", _BRASS, "W/m/K", "handbook value, from memory"
    )
    section = constant(
        f"heat/cup/{label}/area",
        "Section of the contact",
        area,
        "m²",
        "twice its wire: " + _NO_SOURCE,
    )
    length = constant("heat/cup/length", "Brass up to the mate", _INTO_MATE, "m", _NO_SOURCE)
    key = f"{build.name}/heat/cup-{label}"
    return apply(
        key,
        "Heat that a cup leads into its mate",
        formula(conduction_heat),
        brass,
        section,
        length,
        bench.excess,
    )
