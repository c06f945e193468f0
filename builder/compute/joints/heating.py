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
from math import ceil
from typing import Literal

from builder.compute.circuit.contacts import Join
from builder.compute.figures.figure import (
    Figure,
    MaybeFigure,
    apply,
    constant,
    formula,
    leaf,
)
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
from builder.compute.joints.heat_flows import (
    ZERO,
    SolderingBench,
    board_heat,
    copper_behind,
    cup_flow,
    pad_flow,
    pad_size,
    wire_flow,
)
from builder.compute.weight.wire_mass import copper_area
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build, Contact
from builder.model.kinds import Tool
from builder.model.values.measures import Gauge

Tip = Literal["fine", "medium", "broad"]


@dataclass(frozen=True, slots=True)
class Practice:
    """A tip class: iron in °C for tin-lead, dwell in s, longest bare end of the wire in m, heat
    that it passes in W/K.
    """

    iron: tuple[int, int]
    dwell: tuple[int, int]
    strip: float
    passes: float


_TIPS: tuple[Tip, ...] = ("fine", "medium", "broad")


def _practice() -> dict[Tip, Practice]:
    cool, hot = assumed_list("soldering/iron-from"), assumed_list("soldering/iron-to")
    short, long = assumed_list("soldering/dwell-from"), assumed_list("soldering/dwell-to")
    strip, passes = assumed_list("soldering/strip"), assumed_list("soldering/tip-passes")
    out: dict[Tip, Practice] = {}
    for i, tip in enumerate(_TIPS):
        iron = int(cool[i]), int(hot[i])
        dwell = int(short[i]), int(long[i])
        out[tip] = Practice(iron, dwell, strip[i], passes[i])
    return out


PRACTICE = _practice()
TIP_WIDE = dict(zip(_TIPS, assumed_list("soldering/tip-width"), strict=True))
LEADFREE_MORE = int(assumed("soldering/lead-free-more"))  # °C
HOTTEST = int(assumed("soldering/iron-hottest"))  # °C
_MEDIUM, _BROAD = assumed_list("soldering/tip-from")
_ROOM = assumed("soldering/broad-tip-room")
_STEP = int(assumed("soldering/iron-step"))  # °C
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


def gauge_of(build: Build, join: Join) -> Gauge | None:
    """The gauge of a wire, or of the lead that its part came with."""
    if join.wire is not None and join.wire.gauge is not None:
        return join.wire.gauge
    leads = build.parts[join.a.part].part.leads
    return leads.gauge if leads is not None else None


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


def _mass(key: str, label: str, value: float, note: WordsOrTold) -> Figure:
    return leaf(key, label, value, "kg", own=0.5 * value, basis="estimate", note=note)


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
    long, wide = pad_size(build, contact)
    ends = (
        sum(copper_area(g) for g in (gauge_of(build, j) for j in wires) if g is not None)
        * strip
        * _COPPER_DENSITY
    )
    solder = long * wide * _FILLET * bench.alloy.density
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
    pad = _mass(
        f"{name}/pad", "Copper of the pad", long * wide * _FOIL * _COPPER_DENSITY, "its size, 35 µm"
    )
    tin = _mass(f"{name}/solder", "Solder of the joint", solder, "the pad's area, 1 mm high")
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


def tip_for(loss: float, narrow: float, room: float | None = None) -> Tip:
    """The tip class for a joint that loses so many W for each kelvin, on a pad so many m wide.

    `room` is how wide a tip may be (m) before it reaches a neighbour; None where nobody says.
    """
    if loss >= _BROAD and narrow >= _ROOM and _has_room("broad", room):
        return "broad"
    return "medium" if loss >= _MEDIUM and _has_room("medium", room) else "fine"


def _has_room(tip: Tip, room: float | None) -> bool:
    return room is None or TIP_WIDE[tip] < room


def _room(build: Build, contact: Contact) -> float | None:
    """How wide a tip on a pad may be before it reaches a neighbour; None where neither the gap nor
    the pitch is said.
    """
    pad, narrow = build.pad(contact), min(pad_size(build, contact))
    if pad.gap is not None:
        return narrow + 2.0 * pad.gap.value
    if pad.pitch is None or pad.pad_size is None:
        return None
    return 2.0 * pad.pitch.value - narrow


def takes_tip(build: Build, contact: Contact, tip: Tip) -> bool:
    """Whether a tip fits on a contact without touching its neighbour; yes where nobody says."""
    wide_enough = tip != "broad" or min(pad_size(build, contact)) >= _ROOM
    return wide_enough and _has_room(tip, _room(build, contact))


def _thick_battery(build: Build, contact: Contact, wires: Sequence[Join]) -> bool:
    """A battery contact with a lead of 18 AWG or thicker, on a pad whose size nobody says."""
    pad = build.pad(contact)
    if not pad.battery or pad.pad_size is not None:
        return False
    areas = [copper_area(g) for g in (gauge_of(build, j) for j in wires) if g is not None]
    return max(areas, default=0.0) >= copper_area(Gauge(18, None)) * (1.0 - 1e-9)


def _tip(build: Build, contact: Contact, wires: Sequence[Join], loss: float, cup: bool) -> Tip:
    """The tip for one joint: by its loss and its room; a battery's thick lead takes the broad one."""
    if cup:
        return tip_for(loss, 1.0) if loss else "medium"
    room = _room(build, contact)
    if _thick_battery(build, contact, wires) and _has_room("broad", room):
        return "broad"
    if loss:
        return tip_for(loss, min(pad_size(build, contact)), room)
    return "fine" if copper_behind(build, contact) == "signal" else "medium"


def setting_for(
    tip: Tip, heat: float, loss: float, working: float, ambient: float, lead_free: bool
) -> tuple[tuple[int, int], int]:
    """The usual range of a tip, and the lowest step in it that is hot enough within the usual
    dwell; °C.

    `heat` in J, `loss` in W/K, `working` and `ambient` in K. The top of the range where no step is.
    """
    more = LEADFREE_MORE if lead_free else 0
    low, high = (t + more for t in PRACTICE[tip].iron)
    high = min(high, HOTTEST)
    for step in range(low, high, _STEP):
        try:
            dwell = dwell_time(heat, working, step + ZERO, ambient, PRACTICE[tip].passes, loss)
        except ValueError:  # it never gets hot enough
            continue
        if dwell <= PRACTICE[tip].dwell[1]:
            return (low, high), step
    return (low, high), high


def likeness(
    build: Build, contact: Contact, wires: Sequence[Join], *, cup: bool
) -> tuple[object, ...]:
    """What the heat of a joint depends on: joints that agree in it have the same figures."""
    gauges = tuple(sorted(str(gauge_of(build, j)) for j in wires))
    pad = build.pad(contact)
    beside = tuple(q.value if q is not None else None for q in (pad.pitch, pad.gap))
    known = pad.pad_size is not None
    size = (pad_size(build, contact), known, pad_depth(build, contact), pad.battery, *beside)
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
    tip = _tip(build, contact, wires, known, cup)
    usual = PRACTICE[tip]
    wide_copper = copper_behind(build, contact) != "signal"
    bare = bare_end(build, contact, usual.strip, cup=cup, wide_copper=wide_copper)
    heat = _heat(build, bench, name, contact, wires, bare.length, cup)
    iron, setting = setting_for(
        tip, heat.value, known, bench.working.value, bench.ambient.value, bench.alloy.lead_free
    )
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


def iron_of(build: Build) -> Tool | None:
    """The builder's iron: the first tool that names its tips."""
    tools = (f.part for f in build.of_kind(Tool))
    return next((t for t in tools if t.tips is not None), None)


def iron_power(build: Build) -> float | None:
    """Watts of the builder's iron, if a tool says so."""
    iron = iron_of(build)
    return iron.power.value if iron is not None and iron.power is not None else None
