"""What conducts to what once a single fault is in, and what has power then.

A fault touches few nets: only those are joined anew, the others stay as they are in the sound build.
"""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from builder.compute.circuit.nets import Net, Netlist, components
from builder.compute.faults.single_faults import SingleFault, rail_name
from builder.compute.loops.series import ends_of_series, inner_links
from builder.compute.power_up.gate_readings import feed_of, ground_of
from builder.model.build import Build, Contact, piece_name
from builder.model.kinds import Connector, Motor

Joined = tuple[Contact, Contact]
Members = Mapping[int, tuple[Contact, ...]]


@dataclass(frozen=True, eq=False)
class Groups:
    """Contacts by what conducts to what: the number of each one's group, and who is in it."""

    net: Mapping[Contact, int]
    members: Members


def _groups(contacts: Iterable[Contact], joined: Iterable[Joined], first: int = 0) -> Groups:
    """Groups of some contacts, numbered from `first`; each in the order of the contacts."""
    net = {c: number + first for c, number in components(contacts, joined).items()}
    members: dict[int, list[Contact]] = {}
    for contact, number in net.items():
        members.setdefault(number, []).append(contact)
    return Groups(net, {number: tuple(row) for number, row in members.items()})


@dataclass(frozen=True, eq=False)
class Taker:
    """A piece that can have power: where it is fed, where its ground is, which rails it gives, by
    contact and name.
    """

    name: str
    feed: Contact
    ground: Contact
    gives: tuple[tuple[Contact, str], ...]


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
    def sound(self) -> Groups:
        """What conducts to what without a fault."""
        return _groups(self.build.contacts, self.joined)

    @cached_property
    def joined_on(self) -> Mapping[int, tuple[Joined, ...]]:
        """What is joined, by the sound group that it is in."""
        rows: dict[int, list[Joined]] = {}
        for pair in self.joined:
            rows.setdefault(self.sound.net[pair[0]], []).append(pair)
        return {number: tuple(row) for number, row in rows.items()}

    @cached_property
    def links(self) -> tuple[Net, ...]:
        """The nets between one battery and the next in series."""
        return inner_links(self.nets)

    @cached_property
    def takers(self) -> tuple[Taker, ...]:
        """The pieces with a feed and a ground, with the rails that they give."""
        out = []
        for key, fitted in self.build.parts.items():
            feed, ground = feed_of(fitted), ground_of(fitted)
            if feed is None or ground is None:
                continue
            pads = fitted.part.pads.items()
            rails = [(name, pad.rail) for name, pad in pads if pad.role == "supply" and pad.rail]
            for piece in fitted.pieces:
                ends = Contact(key, piece, feed), Contact(key, piece, ground)
                at = [(Contact(key, piece, name), rail) for name, rail in rails]
                gives = tuple((contact, rail_name(contact, rail)) for contact, rail in at)
                out.append(Taker(piece_name(key, piece), *ends, gives))
        return tuple(out)

    @cached_property
    def poles(self) -> tuple[Contact | None, Contact | None]:
        """Where the battery comes in: plus and minus of its plug, else of the first board."""
        ends = ends_of_series(self.nets)
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


def _with_fault(fault: SingleFault, joined: Iterable[Joined]) -> tuple[Joined, ...]:
    """What of some joints is joined with a fault in."""
    if fault.kind == "bridge":
        return (*joined, (fault.places[0], fault.places[1]))
    rest = _without(fault, joined)
    if fault.kind == "swap":
        a, b, c, d = fault.places
        return (*rest, (a, d), (c, b))
    return rest


def _without(fault: SingleFault, joined: Iterable[Joined]) -> tuple[Joined, ...]:
    """What of some joints is joined where the wires of a fault are off."""
    if fault.kind == "bridge":
        return tuple(joined)
    gone = [{a, b} for a, b in pairwise(fault.places)][::2]
    return tuple(pair for pair in joined if set(pair) not in gone)


def _touched(bench: WiredBench, fault: SingleFault) -> tuple[list[Contact], list[Joined]]:
    """Contacts and joints of the sound groups that a fault is at."""
    sound = bench.sound
    numbers = dict.fromkeys(sound.net[c] for c in fault.places)
    contacts = [c for number in numbers for c in sound.members[number]]
    joined = [pair for number in numbers for pair in bench.joined_on.get(number, ())]
    return contacts, joined


@dataclass(frozen=True, eq=False)
class FaultState:
    """The bench with one fault in, or with none."""

    bench: WiredBench
    fault: SingleFault | None

    @cached_property
    def _own(self) -> Groups:
        """The groups that the fault makes of those that it touches."""
        if self.fault is None or self.fault.kind in ("rail", "part"):
            return Groups({}, {})  # what is dead inside parts and joins nothing
        contacts, joined = _touched(self.bench, self.fault)
        return _groups(contacts, _with_fault(self.fault, joined), len(self.bench.sound.members))

    @cached_property
    def _net(self) -> Mapping[Contact, int]:
        return {**self.bench.sound.net, **self._own.net}

    @cached_property
    def changed(self) -> Collection[Contact]:
        """The contacts that conduct to others than in the sound build."""
        sound, own = self.bench.sound, self._own
        rows = ((c, own.members[n], sound.members[sound.net[c]]) for c, n in own.net.items())
        return frozenset(contact for contact, row, before in rows if row != before)

    def one(self, a: Contact, b: Contact) -> bool:
        """Whether two contacts conduct to each other."""
        return self._net[a] == self._net[b]

    def on(self, contact: Contact) -> tuple[Contact, ...]:
        """The contacts on the net of one."""
        number = self._net[contact]
        return self._own.members.get(number) or self.bench.sound.members[number]

    def is_dead(self, name: str) -> bool:
        """Whether a rail or a part of that name is dead inside."""
        return self.fault is not None and self.fault.name == name

    def _is_parted(self) -> bool:
        """Whether batteries in series are parted between one and the next: nothing has volts then."""
        return any(len({self._net[c] for c in link.contacts}) > 1 for link in self.bench.links)

    @cached_property
    def _live(self) -> tuple[Collection[int], Collection[str]]:
        """The groups with volts and the pieces with power: what the battery feeds, then what that
        feeds, until nothing more comes on.
        """
        net, (plus, minus) = self._net, self.bench.poles
        if plus is None or minus is None or self._is_parted():
            return (), ()
        live, on = {net[plus]}, set[str]()
        waiting = [t for t in self.bench.takers if net[t.ground] == net[minus]]
        waiting = [t for t in waiting if not self.is_dead(t.name)]
        while now := [t for t in waiting if net[t.feed] in live]:
            waiting = [t for t in waiting if t not in now]
            on |= {t.name for t in now}
            rails = [(c, name) for t in now for c, name in t.gives]
            live |= {net[c] for c, name in rails if not self.is_dead(name)}
        return live, on

    def fed(self, contact: Contact) -> bool:
        """Whether a source that lives stands on the net of a contact."""
        return self._net[contact] in self._live[0]

    def powered(self, piece: str) -> bool:
        """Whether a piece has its supply and its ground. A part that is dead inside is none."""
        return piece in self._live[1]


def beside(bench: WiredBench, fault: SingleFault) -> tuple[tuple[Contact, ...], ...]:
    """For each place of a fault: itself, then what conducts to it with the fault's wires off."""
    contacts, joined = _touched(bench, fault)
    off = _groups(contacts, _without(fault, joined))
    rows = []
    for place in fault.places:
        others = [c for c in off.members[off.net[place]] if c != place]
        rows.append((place, *others))
    return tuple(rows)
