"""What hangs on a wire and what it loses: cutting a net in thought, sharing a current, the
resistance of copper.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.feeds import Source
from builder.compute.circuit.nets import Net
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import total
from builder.compute.formulas.electric.conductor import (
    resistance_per_length,
    stranded_resistance,
    wire_resistance,
)
from builder.compute.formulas.electric.electronics import (
    drop,
    series_resistance,
    shared_current,
    wire_pair_resistance,
)
from builder.compute.weight.wire_mass import copper_area
from builder.load.assumed import assumed
from builder.model.build import Build, Contact, WireRun

WARM = assumed("wires/reckoned-at")  # K
STRANDS = assumed("wires/strands")


@dataclass(frozen=True, eq=False)
class SupplyWire:
    """A wire of a supply. `steady` is its current in the builder's style, `short` at full throttle
    or with all peaks.

    A way back is held likewise, with the current of all that returns through it. `resistance` is
    out and back, `lost` what is lost there, in V, both by the way back between the same two pieces
    where that loses more; else it is taken as long and as thick. `volts` are the source's, `beside`
    how many wires run side by side, `paired` whether the way back (or out) is a wire between the
    same two pieces, `towards` the end to which the current goes, `share` the largest share of one
    load's motors that it carries.
    """

    run: WireRun
    source: Source
    volts: float | None
    steady: MaybeFigure
    short: MaybeFigure
    resistance: MaybeFigure
    lost: MaybeFigure
    beside: int
    motors: bool
    paired: bool = False
    towards: Contact | None = None
    share: float = 1.0

    @property
    def lost_share(self) -> float | None:
        """Volts lost as a share of the source's, or None."""
        return (
            self.lost.value / self.volts if isinstance(self.lost, Figure) and self.volts else None
        )


@dataclass(frozen=True, eq=False)
class PlugLoad:
    """A contact of a plug that carries a supply or its return: its currents, whether motors are
    among them, and the end to which they go.
    """

    join: Join
    steady: MaybeFigure
    short: MaybeFigure
    motors: bool
    towards: Contact | None


@dataclass(frozen=True, eq=False)
class Taken:
    """What one contact takes: steady and short, each figure by its label."""

    steady: tuple[MaybeFigure, ...]
    short: tuple[MaybeFigure, ...]
    motors: bool = False


def reach(net: Net, starts: Iterable[Contact], without: frozenset[Join]) -> frozenset[Contact]:
    """Contacts of a net that conduct to the starts with some joins taken out."""
    near: dict[Contact, list[Contact]] = {}
    for join in net.joins:
        if join not in without:
            near.setdefault(join.a, []).append(join.b)
            near.setdefault(join.b, []).append(join.a)
    seen = set(starts)
    stack = list(seen)
    while stack:
        for other in near.get(stack.pop(), ()):
            if other not in seen:
                seen.add(other)
                stack.append(other)
    return frozenset(seen)


def wires_beside(build: Build, net: Net, join: Join) -> frozenset[Join]:
    """The join and those that run side by side with it, between the same two pieces."""
    ends = {join.a.board, join.b.board}
    return frozenset(j for j in net.joins if j.by == join.by and {j.a.board, j.b.board} == ends)


def shared_equally(group: Collection[Join]) -> bool:
    """Whether wires side by side share a current equally: all of one gauge and one length."""
    wires = [j.wire for j in group if j.wire is not None]
    made = {(w.gauge, w.trim_to or w.length) for w in wires}
    return len(made) <= 1 and len(wires) in (0, len(group))


def shared(key: str, label: str, parts: list[MaybeFigure], beside: int) -> MaybeFigure:
    """The sum of some currents, shared by wires side by side."""
    missing = tuple(dict.fromkeys(m for p in parts if isinstance(p, Unknown) for m in p.missing))
    if missing:
        return Unknown(key, label, missing)
    whole = total(f"{key}-all" if beside > 1 else key, label, "A", parts)
    if beside == 1:
        return whole
    many = constant(f"{key}-beside", "Wires in parallel", float(beside), "1")
    return apply(key, label, formula(shared_current), whole, many)


def _copper(build: Build, run: WireRun, key: str) -> tuple[MaybeFigure, MaybeFigure]:
    """Resistance of each metre of a wire, and its length."""
    wire, name = run.wire, f"{run.start} to {run.end}"
    length = wire.trim_to or wire.length
    if wire.gauge is None or length is None:
        lacks = Unknown(key, f"Copper of {name}", (f"gauge and length of {name}",))
        return lacks, lacks
    each = stranded_resistance(resistance_per_length(copper_area(wire.gauge), WARM), STRANDS)
    gauge = wire.gauge.label
    per_length = leaf(
        f"wire/{gauge.replace(' ', '-')}/resistance",
        f"Resistance of {gauge}, stranded, at 60 °C",
        each,
        "Ω/m",
        own=STRANDS * each,
        basis="estimate",
        note="ASTM B258 and NBS Handbook 100, with 5 % for the strands",
    )
    field = "trim_to" if wire.trim_to is not None else "length"
    where, label = run.where.at(field), f"Length of {name}"
    long = leaf(f"{key}/length", label, length.value, "m", basis="estimate", where=where)
    return per_length, long


@dataclass(frozen=True, eq=False)
class Half:
    """One wire of a pair, the way out or the way back: what it carries at most and its own
    resistance.
    """

    name: str
    short: MaybeFigure
    copper: tuple[MaybeFigure, MaybeFigure]
    key: str

    @property
    def ohms(self) -> MaybeFigure:
        """Resistance of this wire alone."""
        return apply(
            f"{self.key}/one-way",
            f"Resistance of {self.name}",
            formula(wire_resistance),
            *self.copper,
        )

    @property
    def drop(self) -> MaybeFigure:
        """Volts lost in this wire alone."""
        return apply(
            f"{self.key}/one-way-lost",
            f"Volts lost in {self.name}",
            formula(drop),
            self.short,
            self.ohms,
        )


def half(build: Build, run: WireRun, short: MaybeFigure, key: str) -> Half:
    """A wire of the build as one half of a pair."""
    return Half(f"{run.start} to {run.end}", short, _copper(build, run, f"{key}/resistance"), key)


def _loses_less(one: Half, other: Half) -> bool:
    return (
        isinstance(one.drop, Figure)
        and isinstance(other.drop, Figure)
        and one.drop.value <= other.drop.value
    )


def pair(own: Half, other: Half | None) -> tuple[MaybeFigure, MaybeFigure]:
    """Resistance of a wire and its fellow, and the volts lost in both.

    Both go the same way, so a fellow that loses less than the wire itself, or none, is taken as one
    like itself.
    """
    label, lost = f"Resistance of {own.name} and back", f"Volts lost in {own.name} and back"
    if other is None or _loses_less(other, own):
        ohms = apply(f"{own.key}/resistance", label, formula(wire_pair_resistance), *own.copper)
        return ohms, apply(f"{own.key}/lost", lost, formula(drop), own.short, ohms)
    ohms = apply(f"{own.key}/resistance", label, formula(series_resistance), own.ohms, other.ohms)
    missing = tuple(
        dict.fromkeys(
            m for d in (own.drop, other.drop) if isinstance(d, Unknown) for m in d.missing
        )
    )
    if missing:
        return ohms, Unknown(f"{own.key}/lost", lost, missing)
    return ohms, total(f"{own.key}/lost", lost, "V", [own.drop, other.drop])


def joins_between(net: Net) -> list[Join]:
    """Wires and plugs of a net, without the copper inside its parts."""
    return [j for j in net.joins if j.by != "inside"]
