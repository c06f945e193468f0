"""How the batteries of a build are joined by its wires: how many lie below each contact.

Each connector of the battery lifts the net of its plus by one battery over the net of its minus.
Followed from net to net, this gives the batteries in series; where two ways to a net differ, a ring
of batteries is shorted. A balance lead lifts nothing: it is a tap of a battery that is joined
elsewhere.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.nets import Net, Netlist
from builder.model.build import Build, Contact, Fitted
from builder.model.kinds import Connector


@dataclass(frozen=True)
class BatteryPlug:
    """A connector of the battery on the aircraft, by its plus and its minus."""

    board: str
    plus: Contact
    minus: Contact


@dataclass(frozen=True)
class BatteryLevels:
    """Batteries below each net that a connector of the battery is on, by the net's name, counted
    from the lowest of what is joined. `steps` are batteries in series, `rings` connectors that
    close a ring of batteries, `links` the nets between one battery and the next.
    """

    plugs: tuple[BatteryPlug, ...]
    below: Mapping[str, int]
    steps: int
    rings: tuple[BatteryPlug, ...]
    links: tuple[Net, ...]

    @property
    def rows(self) -> int:
        """How many batteries, or strings of them, stand side by side."""
        return max(1, len(self.plugs) // max(1, self.steps))

    def link_joins(self) -> tuple[Join, ...]:
        """Wires and plugs of the nets between one battery and the next."""
        return tuple(j for net in self.links for j in net.joins if j.by != "inside")


def is_balance_lead(part: Connector) -> bool:
    """Whether a connector is a balance lead: some of its contacts lie between plus and minus."""
    live = [p for p in part.pads.values() if p.role in ("supply", "ground")]
    named = "balance" in (part.type or "").lower()
    return named or len(live) > 2 or any(p.tap is not None for p in live)


def balance_contacts(build: Build) -> tuple[Contact, ...]:
    """Every contact of a balance lead on the aircraft."""
    leads = [f for f in build.of_kind(Connector) if is_balance_lead(f.part)]
    return tuple(Contact(f.key, n, name) for f in leads for n in f.pieces for name in f.part.pads)


def _plug_of(fitted: Fitted, piece: int) -> BatteryPlug | None:
    """One piece of a connector as a plug of the battery; None where it has not one plus and one
    minus.
    """
    pads = fitted.part.pads
    plus = [n for n, p in pads.items() if p.role == "supply"]
    minus = [n for n, p in pads.items() if p.role == "ground"]
    if len(plus) != 1 or len(minus) != 1:
        return None
    top, foot = (Contact(fitted.key, piece, names[0]) for names in (plus, minus))
    return BatteryPlug(top.board, top, foot)


def battery_plugs(build: Build) -> tuple[BatteryPlug, ...]:
    """Every connector of the battery on the aircraft, piece by piece, without balance leads."""
    leads = [f for f in build.of_kind(Connector) if not is_balance_lead(f.part)]
    made = [_plug_of(f, piece) for f in leads for piece in f.pieces]
    return tuple(p for p in made if p is not None)


_Step = tuple[BatteryPlug, str, str, int]


def _steps_of(nets: Netlist, plugs: tuple[BatteryPlug, ...]) -> list[_Step]:
    """Each connector as a step up from net to net, and as one down."""
    out: list[_Step] = []
    for plug in plugs:
        low, high = nets.of[plug.minus].name, nets.of[plug.plus].name
        out += [(plug, low, high, 1), (plug, high, low, -1)]
    return out


def _from(start: str, steps: list[_Step]) -> tuple[dict[str, int], set[str]]:
    """Batteries below each net that is reached from one, and the connectors that contradict it."""
    found, rings, queue = {start: 0}, set[str](), [start]
    while queue:
        here = queue.pop()
        for plug, _, other, step in (s for s in steps if s[1] == here):
            level = found[here] + step
            if other not in found:
                found[other] = level
                queue.append(other)
            elif found[other] != level:
                rings.add(plug.board)
    least = min(found.values())
    return {name: level - least for name, level in found.items()}, rings


def _raised(nets: Netlist, plugs: tuple[BatteryPlug, ...]) -> tuple[dict[str, int], set[str]]:
    """Batteries below each net, and the connectors at which two ways to a net differ."""
    below: dict[str, int] = {}
    rings: set[str] = set()
    steps = _steps_of(nets, plugs)
    for _, start, _, _ in steps:
        if start in below:
            continue
        found, closed = _from(start, steps)
        below.update(found)
        rings |= closed
    return below, rings


def battery_levels(build: Build, nets: Netlist) -> BatteryLevels:
    """How the connectors of the battery are joined by the wires of a build."""
    wired = (p for p in battery_plugs(build) if p.plus in nets.at or p.minus in nets.at)
    plugs = tuple(wired)
    below, rings = _raised(nets, plugs)
    steps = max(below.values(), default=0)
    feet = {nets.of[p.minus].name for p in plugs}
    between = [n for p in plugs if (n := nets.of[p.plus]).name in feet]
    links = tuple({n.name: n for n in between}.values())
    closed = tuple(p for p in plugs if p.board in rings)
    return BatteryLevels(plugs, below, steps, closed, links)


def said_in_series(build: Build) -> int | None:
    """How many batteries are in series by what the build says of each of its own; None where they
    differ.
    """
    said = {p.use.series for p in build.packs.values()}
    return said.pop() if len(said) == 1 else None


def series_links(build: Build, nets: Netlist) -> frozenset[str]:
    """Names of the nets that join one battery's minus to the next one's plus, where the build says
    that so many are in series.
    """
    said = {p.use.series for p in build.packs.values()} - {1}
    if not said:
        return frozenset()
    levels = battery_levels(build, nets)
    if levels.rings or levels.steps not in said:
        return frozenset()
    return frozenset(n.name for n in levels.links)


def inner_links(build: Build, nets: Netlist) -> tuple[Net, ...]:
    """The nets between one battery and the next, of several connectors wired in series; none where
    one connector has both poles.
    """
    levels = battery_levels(build, nets)
    return () if levels.rings else levels.links


def ends_of_series(build: Build, nets: Netlist) -> tuple[Contact, Contact] | None:
    """Plus and minus of all batteries together, where several connectors are wired in series: the
    plus of the highest and the minus of the lowest. None where one connector has both.
    """
    levels = battery_levels(build, nets)
    if levels.steps < 2 or levels.rings:
        return None
    below = levels.below
    highest = max(levels.plugs, key=lambda p: below[nets.of[p.plus].name])
    lowest = min(levels.plugs, key=lambda p: below[nets.of[p.minus].name])
    return highest.plus, lowest.minus
