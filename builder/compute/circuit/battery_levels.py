"""How the batteries of a build are joined by its wires: how many lie below each contact.

Each connector of the battery lifts the net of its plus by one battery over the net of its minus.
Followed from net to net, this gives the batteries in series; where two ways to a net differ, a ring
of batteries is shorted. A balance lead lifts nothing: it is a tap of a battery that is joined
elsewhere.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

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
    close a ring of batteries, `links` the names of the nets between one battery and the next.
    """

    plugs: tuple[BatteryPlug, ...]
    below: Mapping[str, int]
    steps: int
    rings: tuple[BatteryPlug, ...]
    links: tuple[str, ...]

    @property
    def rows(self) -> int:
        """How many batteries, or strings of them, stand side by side."""
        return max(1, len(self.plugs) // max(1, self.steps))


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


def _steps_of(names: Mapping[Contact, str], plugs: Collection[BatteryPlug]) -> list[_Step]:
    """Each connector as a step up from net to net, and as one down."""
    out: list[_Step] = []
    for plug in plugs:
        low, high = names[plug.minus], names[plug.plus]
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


def _raised(steps: list[_Step]) -> tuple[dict[str, int], set[str]]:
    """Batteries below each net, and the connectors at which two ways to a net differ."""
    below: dict[str, int] = {}
    rings: set[str] = set()
    for _, start, _, _ in steps:
        if start in below:
            continue
        found, closed = _from(start, steps)
        below.update(found)
        rings |= closed
    return below, rings


def levels_of(plugs: tuple[BatteryPlug, ...], names: Mapping[Contact, str]) -> BatteryLevels:
    """How the connectors of the battery that are wired are joined, by the name of each contact's net."""
    below, rings = _raised(_steps_of(names, plugs))
    steps = max(below.values(), default=0)
    feet = {names[p.minus] for p in plugs}
    links = tuple(dict.fromkeys(names[p.plus] for p in plugs if names[p.plus] in feet))
    closed = tuple(p for p in plugs if p.board in rings)
    return BatteryLevels(plugs, below, steps, closed, links)
