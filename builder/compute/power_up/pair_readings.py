"""A reading with the power off, pair by pair, for whoever types each: wires one by one, neighbours of
one net apart from those that must not be joined; and which pairs burn something if they are.
"""

from collections.abc import Iterator
from dataclasses import replace

from builder.compute.circuit.nets import Netlist
from builder.compute.loops.series import inner_links
from builder.compute.power_up.gate_checks import BEEPS
from builder.compute.power_up.gate_readings import GateReading
from builder.compute.power_up.neighbour_readings import low_by_nature
from builder.model.build import Build, Contact

_Pair = tuple[Contact, Contact]


def _between(pair: _Pair) -> tuple[str, str]:
    return str(pair[0]), str(pair[1])


def _each(reading: GateReading, pairs: list[_Pair], expect: str, why: str) -> Iterator[GateReading]:
    """Pairs of one net, each with a reading of its own."""
    for pair in pairs:
        both = _between(pair)
        yield replace(
            reading,
            between=both,
            expect=expect,
            why=why,
            normal=(),
            one_net=(),
            suspects=both,
            pairs=(pair,),
        )


def _neighbours(build: Build, nets: Netlist, reading: GateReading) -> Iterator[GateReading]:
    """An edge in its parts: what must be open, what reads low by nature, what is one net."""
    apart = [p for p in reading.pairs if not nets.joined(*p)]
    low = {p: found for p in apart if (found := low_by_nature(build, nets, *p)) is not None}
    rest = tuple(p for p in apart if p not in low)
    same = [p for p in reading.pairs if nets.joined(*p)]
    if rest:
        more = bool(low or same)
        expect = f"{reading.expect}, but for the pairs below" if more else reading.expect
        yield replace(reading, expect=expect, normal=(), one_net=(), pairs=rest)
    for found in dict.fromkeys(low.values()):
        yield _low(reading, found, tuple(p for p in low if low[p] == found))
    yield from _each(reading, same, "beeps: one net", "the two are joined by a wire or the board")


def _low(
    reading: GateReading, found: tuple[str, float | None], pairs: tuple[_Pair, ...]
) -> GateReading:
    """Pairs that read low by nature, for one reason."""
    names = ", ".join(f"{a.pad} to {b.pad}" for a, b in pairs)
    row = f"{reading.between[0]}, normally low"
    between = _between(pairs[0]) if len(pairs) == 1 else (row, names)
    expect = "normally low; write the ohms down"
    return replace(
        reading, between=between, expect=expect, normal=(found,), one_net=(), pairs=pairs
    )


def by_pair(build: Build, nets: Netlist, reading: GateReading) -> tuple[GateReading, ...]:
    """The readings that one line of a gate stands for. Three phases stay together, for they are
    compared with each other.
    """
    if len(reading.pairs) == 1 and reading.between == _between(reading.pairs[0]):
        return (reading,)
    if reading.pairs and all(nets.joined(*p) for p in reading.pairs):
        return tuple(_each(reading, list(reading.pairs), BEEPS, reading.why))
    if any(nets.joined(*p) for p in reading.pairs) or reading.normal:
        return tuple(_neighbours(build, nets, reading))
    return (reading,)


def stands_on(build: Build, nets: Netlist, contact: Contact) -> str:
    """What a net carries: the battery, a rail, the ground, a motor; '' for any other."""
    pads = [build.pad(c) for c in nets.of[contact].contacts]
    if any(p.role == "ground" for p in pads):
        return "ground"
    if any(p.battery for p in pads):
        return "battery"
    if any(p.role == "phase" for p in pads):
        return "phase"
    return "rail" if any(p.role == "supply" for p in pads) else ""


def burns_if_joined(build: Build, nets: Netlist, a: Contact, b: Contact) -> bool:
    """Whether power through a bridge of two nets burns something: the battery's plus or a motor's
    lead to anything, a rail to ground or to another rail. One net cannot be bridged with itself.
    """
    if nets.joined(a, b):
        return False
    ends = {stands_on(build, nets, a), stands_on(build, nets, b)}
    if ends & {"battery", "phase"} or ("" not in ends and "rail" in ends):
        return True
    links = {net.name for net in inner_links(nets)}  # from one to an end shorts a battery
    return bool(links & {nets.of[a].name, nets.of[b].name})
