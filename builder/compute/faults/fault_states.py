"""What conducts to what once a single fault is in, and what has power then."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from builder.compute.circuit.nets import Netlist, components
from builder.compute.faults.single_faults import SingleFault, rail_name
from builder.compute.loops.battery_levels import ends_of_series
from builder.compute.power_up.gate_readings import feed_of, ground_of
from builder.model.build import Build, Contact, piece_name
from builder.model.kinds import Connector, Motor

Joined = tuple[Contact, Contact]
_DEEPEST = 6  # boards that feed each other in a row


@dataclass(frozen=True, eq=False)
class WiredBench:
    """A build on the bench: what joins its contacts, the battery's two poles."""

    build: Build
    nets: Netlist

    @cached_property
    def joined(self) -> tuple[Joined, ...]:
        """Wires, plugs, copper inside parts, and the windings of motors."""
        wound: list[Joined] = []
        for motor in self.build.of_kind(Motor):
            for piece in motor.pieces:
                wound += pairwise(Contact(motor.key, piece, pad) for pad in motor.part.pads)
        return (*((j.a, j.b) for j in self.nets.joins), *wound)

    @cached_property
    def poles(self) -> tuple[Contact | None, Contact | None]:
        """Where the battery comes in: plus and minus of its plug, else of the first board."""
        ends = ends_of_series(self.build, self.nets)
        if ends is not None:
            return ends
        plugs = self.build.of_kind(Connector)
        for fitted in (*plugs, *self.build.parts.values()):
            pads = fitted.part.pads
            own = {p.polarity: name for name, p in pads.items() if p.polarity is not None}
            plus, minus = own.get("plus", feed_of(fitted)), own.get("minus", ground_of(fitted))
            if plus is not None and minus is not None and pads[plus].battery:
                piece = fitted.pieces[0]
                return Contact(fitted.key, piece, plus), Contact(fitted.key, piece, minus)
        return None, None


def with_fault(bench: WiredBench, fault: SingleFault | None) -> tuple[Joined, ...]:
    """What is joined with a fault in."""
    if fault is None or fault.kind in ("rail", "part"):
        return bench.joined
    if fault.kind == "bridge":
        return (*bench.joined, (fault.places[0], fault.places[1]))
    rest = without(bench, fault)
    if fault.kind == "swap":
        a, b, c, d = fault.places
        return (*rest, (a, d), (c, b))
    return rest


def without(bench: WiredBench, fault: SingleFault) -> tuple[Joined, ...]:
    """What is joined where the wires of a fault are off."""
    if fault.kind == "bridge":
        return bench.joined
    gone = [{a, b} for a, b in pairwise(fault.places)][::2]
    return tuple(pair for pair in bench.joined if set(pair) not in gone)


@dataclass(frozen=True, eq=False)
class FaultState:
    """The bench with one fault in, or with none."""

    bench: WiredBench
    fault: SingleFault | None
    net: Mapping[Contact, int]

    def one(self, a: Contact, b: Contact) -> bool:
        """Whether two contacts conduct to each other."""
        return self.net[a] == self.net[b]

    @cached_property
    def _members(self) -> Mapping[int, tuple[Contact, ...]]:
        rows: dict[int, list[Contact]] = {}
        for contact, number in self.net.items():
            rows.setdefault(number, []).append(contact)
        return {number: tuple(row) for number, row in rows.items()}

    def on(self, contact: Contact) -> tuple[Contact, ...]:
        """The contacts on the net of one."""
        return self._members[self.net[contact]]

    def is_dead(self, name: str) -> bool:
        """Whether a rail or a part of that name is dead inside."""
        return self.fault is not None and self.fault.name == name

    def fed(self, contact: Contact, deep: int = 0) -> bool:
        """Whether a source that lives stands on the net of a contact."""
        plus, _ = self.bench.poles
        if plus is not None and self.one(plus, contact):
            return True
        if deep > _DEEPEST:
            return False
        return any(self._gives(c, deep) for c in self.on(contact))

    def _gives(self, contact: Contact, deep: int) -> bool:
        pad = self.bench.build.pad(contact)
        if pad.role != "supply" or not pad.rail or self.is_dead(rail_name(contact, pad.rail)):
            return False
        return self.powered(contact.part, contact.piece, deep + 1)

    def powered(self, part: str, piece: int, deep: int = 0) -> bool:
        """Whether a piece has its supply and its ground. A part that is dead inside is none."""
        fitted, (_, minus) = self.bench.build.parts[part], self.bench.poles
        feed, ground = feed_of(fitted), ground_of(fitted)
        board = piece_name(part, piece)
        if feed is None or ground is None or minus is None or self.is_dead(board):
            return False
        grounded = self.one(Contact(part, piece, ground), minus)
        return grounded and self.fed(Contact(part, piece, feed), deep)


def state_of(bench: WiredBench, fault: SingleFault | None) -> FaultState:
    """The bench with a fault in."""
    return FaultState(bench, fault, components(bench.build.contacts, with_fault(bench, fault)))
