"""The heat of a joint: what it takes in, what flows away meanwhile, hence tip, iron temperature and
dwell.

The tip follows from the conductance of wire and copper (W for each kelvin above the air). Ranges of
temperature and dwell by tip are bench practice; inside its range the iron is set to the lowest step
at which the joint is hot enough within the usual dwell. The dwell by the figures warms joint and
board as one lump, as if the tip met them at
once: practice is longer.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, fsum, hypot

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.usual_pads import copper_behind, pad_area, usual_pad
from builder.compute.figures.figure import Figure, MaybeFigure, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import total
from builder.compute.figures.told import PlainValue, WordsOrTold, told
from builder.compute.formulas.soldering.heat import (
    dwell_time,
    joint_heat,
    loss_conductance,
    melting_heat,
    warming_heat,
)
from builder.compute.formulas.soldering.solder import COPPER_HEAT_CAPACITY
from builder.compute.joints.bare_end import bare_end, pad_depth
from builder.compute.joints.heat_flows import board_heat, cup_flow, pad_flow, wire_flow
from builder.compute.joints.soldering_bench import ZERO, SolderingBench
from builder.compute.joints.tips import PRACTICE, Tip, gauge_of, setting_for, tip_of
from builder.compute.weight.wire_mass import copper_area
from builder.load.assumed import assumed
from builder.model.build import Build, Contact

_FILLET = assumed("soldering/fillet")
_COPPER_DENSITY = assumed("soldering/copper-density")
_FOIL = assumed("soldering/foil")
_UNSAID = assumed("soldering/unsaid-lead")


@dataclass(frozen=True, eq=False)
class Heat:
    """What a joint asks for. Iron in °C: the usual range and the setting; dwell in s: by practice
    and by the figures.

    `strip` is the bare end in m, `strip_basis` what it rests on where that is not the pad's own
    size.
    """

    flow: MaybeFigure
    heat: MaybeFigure
    least_dwell: MaybeFigure
    tip: Tip
    iron: tuple[int, int]
    setting: int
    dwell: tuple[int, int]
    strip: float
    strip_basis: str
    melts: float

    @property
    def power(self) -> float:
        """Watts that flow away while the joint is held; 0 where nobody knows."""
        return self.flow.value if isinstance(self.flow, Figure) else 0.0

    @property
    def warm_first(self) -> bool:
        """Whether by the figures this tip alone does not get the joint hot within its usual dwell,
        or not at all.
        """
        if isinstance(self.least_dwell, Figure):
            return self.least_dwell.value > self.dwell[1]
        return isinstance(self.flow, Figure)


def _flow(
    build: Build, bench: SolderingBench, contact: Contact, wires: Sequence[Join], cup: bool
) -> list[MaybeFigure]:
    gauges = [gauge_of(build, j) for j in wires]
    unsaid = leaf(
        "heat/lead",
        "A lead of unknown gauge",
        _UNSAID,
        "W",
        own=0.2,
        basis="estimate",
        note="as 28 AWG",
    )
    flows = [wire_flow(build, bench, g) if g is not None else unsaid for g in gauges]
    thickest = max((g for g in gauges if g is not None), key=copper_area, default=None)
    return [*flows, cup_flow(build, bench, thickest) if cup else pad_flow(build, bench, contact)]


def _mass(key: str, label: str, value: float, note: WordsOrTold, share: float = 0.0) -> Figure:
    """A mass that is off by half of itself, and by the share by which its pad's area is."""
    own = hypot(0.5, share) * value
    return leaf(key, label, value, "kg", own=own, basis="estimate", note=note)


def _heat(
    build: Build,
    bench: SolderingBench,
    name: str,
    contact: Contact,
    wires: Sequence[Join],
    strip: float,
    cup: bool,
) -> Figure:
    """Heat that goes into the ends of the wires, the pad and the solder until it is all liquid and
    hot.
    """
    area = pad_area(build, contact)
    face = area.length * area.width
    of_pad = area.basis or "its size"
    ends = (
        fsum(copper_area(g) for g in (gauge_of(build, j) for j in wires) if g is not None)
        * strip
        * _COPPER_DENSITY
    )
    solder = face * _FILLET * bench.alloy.density
    copper = constant(
        "heat/copper/capacity",
        "Heat capacity of copper",
        COPPER_HEAT_CAPACITY,
        "J/kg/K",
        "handbook",
    )
    alloy = bench.alloy
    warm = formula(warming_heat)
    capacity = constant(
        f"heat/{alloy.name}/capacity",
        f"Heat capacity of {alloy.name}",
        alloy.heat_capacity,
        "J/kg/K",
        "from memory",
    )
    latent = constant(
        f"heat/{alloy.name}/latent",
        f"Latent heat of {alloy.name}",
        alloy.latent_heat,
        "J/kg",
        "from memory",
    )
    wire = _mass(
        f"{name}/ends", "Copper of the bare ends", ends, told(PlainValue(strip, "m"), " bare")
    )
    foil = face * _FOIL * _COPPER_DENSITY
    pad = _mass(f"{name}/pad", "Copper of the pad", foil, f"{of_pad}, 35 µm", area.share)
    height = "the pad's area, 1 mm high"
    tin = _mass(f"{name}/solder", "Solder of the joint", solder, height, area.share)
    excess, label = bench.excess, f"Heat of a joint like {contact}"
    ends_warm = apply(f"{name}/ends/heat", "Warms the bare ends", warm, wire, copper, excess)
    pad_warms = apply(f"{name}/pad/heat", "Warms the pad", warm, pad, copper, excess)
    tin_warms = apply(f"{name}/solder/heat", "Warms the solder", warm, tin, capacity, excess)
    melts = apply(f"{name}/melting", "Melts the solder", formula(melting_heat), tin, latent)
    parts = ends_warm, pad_warms, tin_warms, melts
    own = apply(f"{name}/own", label, formula(joint_heat), *parts)
    board = None if cup else board_heat(build, bench, contact)
    return total(
        f"{name}/heat",
        f"Heat that a joint like {contact} takes in",
        "J",
        [k for k in (own, board) if k is not None],
    )


def likeness(
    build: Build, contact: Contact, wires: Sequence[Join], *, cup: bool
) -> tuple[object, ...]:
    """What the heat of a joint depends on: joints that agree in it have the same figures."""
    gauges = tuple(sorted(str(gauge_of(build, j)) for j in wires))
    pad = build.pad(contact)
    beside = tuple(q.value if q is not None else None for q in (pad.pitch, pad.gap))
    guessed = pad.pad_size is None or beside == (None, None)
    usual = usual_pad(build, contact).what if guessed else ""
    size = (pad_area(build, contact), usual, pad_depth(build, contact), pad.battery, *beside)
    return (build.parts[contact.part].shelf, copper_behind(build, contact), size, gauges, cup)


def heat_of(
    build: Build, bench: SolderingBench, contact: Contact, wires: Sequence[Join], *, cup: bool
) -> Heat:
    """The heat of one joint: all these wires at one contact in one heating."""
    name = f"{build.name}/joint/{contact}"
    flow = total(
        f"{name}/flow",
        f"Heat lost by a joint like {contact}",
        "W",
        _flow(build, bench, contact, wires, cup),
    )
    loss = apply(
        f"{name}/loss",
        f"Loss of a joint like {contact}",
        formula(loss_conductance),
        flow,
        bench.excess,
    )
    known = loss.value if isinstance(loss, Figure) else 0.0
    tip = tip_of(build, contact, wires, known, cup)
    usual = PRACTICE[tip]
    bare = bare_end(build, contact, usual.strip, cup=cup)
    heat = _heat(build, bench, name, contact, wires, bare.length, cup)
    working, ambient = bench.working.value, bench.ambient.value
    lead_free = bench.alloy.lead_free
    iron, setting = setting_for(tip, heat.value, known, working, ambient, lead_free)
    hot = constant(
        f"heat/iron/{setting}", f"Iron at {setting} °C", setting + ZERO, "K", "bench practice"
    )
    passes = leaf(
        f"heat/tip/{tip}",
        f"What a {tip} tip passes",
        usual.passes,
        "W/K",
        own=usual.passes / 3,
        basis="estimate",
        note="common practice, no source",
    )
    least = apply(
        f"{name}/dwell",
        f"Time at a joint like {contact}, as one lump",
        formula(dwell_time),
        heat,
        bench.working,
        hot,
        bench.ambient,
        passes,
        loss,
    )
    melts, dwell = bench.liquidus.value - ZERO, _dwell(usual.dwell, least)
    return Heat(flow, heat, least, tip, iron, setting, dwell, bare.length, bare.basis, melts)


def _dwell(usual: tuple[int, int], least: MaybeFigure) -> tuple[int, int]:
    """The usual dwell, not begun below what the figures ask for."""
    if not isinstance(least, Figure) or least.value > usual[1]:
        return usual
    return max(usual[0], ceil(least.value)), usual[1]
