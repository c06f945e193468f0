"""What is different between two builds: parts, grams, money, wires, order, setup. Shared leaves cancel in the spreads."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from builder.compute.budget import Budget
from builder.compute.figure import Figure, Known, Unknown, constant, difference
from builder.compute.mass import MassTable
from builder.compute.mass_lines import MassLine
from builder.compute.nets import Netlist
from builder.compute.results import Results
from builder.model.build import Build, Fitted
from builder.model.measures import Money

How = Literal["same", "swapped", "added", "dropped", "recounted"]


@dataclass(frozen=True, eq=False)
class PartChange:
    """One place of the two builds: what stands there in each, and what that does to grams and money (second less first)."""

    key: str
    how: How
    first: str
    second: str
    grams: Known
    money: Money | None


@dataclass(frozen=True, eq=False)
class Pair:
    """A figure of both builds and its difference, second less first."""

    key: str
    label: str
    first: Known
    second: Known
    change: Known

    @property
    def real(self) -> bool:
        """Whether the difference is larger than twice its spread."""
        return (
            isinstance(self.change, Figure)
            and abs(self.change.value) > 2 * self.change.spread
            and self.change.value != 0
        )


@dataclass(frozen=True, eq=False)
class Difference:
    """Two builds side by side."""

    first: str
    second: str
    parts: tuple[PartChange, ...]
    dry: Pair
    all_up: tuple[Pair, ...]
    flight: tuple[Pair, ...]
    price: tuple[Money, Money]
    wires_gone: tuple[str, ...]
    wires_new: tuple[str, ...]
    steps_gone: tuple[str, ...]
    steps_new: tuple[str, ...]


def _pair(key: str, label: str, unit: str, a: Known, b: Known) -> Pair:
    return Pair(key, label, a, b, difference(f"difference/{key}", label, unit, b, a))


def _lines(mass: MassTable) -> dict[str, MassLine]:
    return {line.key: line for line in mass.lines}


def _grams(key: str, a: MassLine | None, b: MassLine | None) -> Known:
    nothing = constant("nothing", "nothing", 0.0, "kg")
    first: Known = a.line if a is not None else nothing
    second: Known = b.line if b is not None else nothing
    return difference(f"difference/part/{key}", key, "kg", second, first)


def _money(budget: Budget) -> Mapping[str, Money | None]:
    return {line.key: line.used for line in budget.lines}


def _how(a: Fitted | None, b: Fitted | None) -> How:
    if a is None:
        return "added"
    if b is None:
        return "dropped"
    if a.shelf != b.shelf:
        return "swapped"
    return "same" if a.count == b.count else "recounted"


def _name(f: Fitted | None) -> str:
    return "" if f is None else (f"{f.count} x " if f.count > 1 else "") + f.part.name


def _parts(a: Build, b: Build, ra: Results, rb: Results) -> tuple[PartChange, ...]:
    la, lb = _lines(ra.mass), _lines(rb.mass)
    ma, mb = _money(ra.budget), _money(rb.budget)
    out = []
    for key in dict.fromkeys([*a.parts, *b.parts, *la, *lb]):
        fa, fb = a.parts.get(key), b.parts.get(key)
        if key not in la and key not in lb and _how(fa, fb) == "same":
            continue
        first, second = ma.get(key), mb.get(key)
        money = None
        if first is not None or second is not None:
            minor = (second.minor if second else 0) - (first.minor if first else 0)
            money = Money(minor, (second or first or Money(0, "")).currency)
        named = key in a.parts or key in b.parts
        how: How = _how(fa, fb) if named else "same" if key in la and key in lb else "added" if key in lb else "dropped"
        out.append(
            PartChange(
                key,
                how,
                _name(fa) if named else la[key].label if key in la else "",
                _name(fb) if named else lb[key].label if key in lb else "",
                _grams(key, la.get(key), lb.get(key)),
                money,
            )
        )
    return tuple(out)


def _wires(build: Build, nets: Netlist) -> list[str]:
    return [f"{min(str(j.a), str(j.b))} to {max(str(j.a), str(j.b))}" for j in nets.joins if j.by != "inside"]


def _packs(a: Mapping[str, object], b: Mapping[str, object]) -> list[str]:
    return [k for k in a if k in b]


def _flight(ra: Results, rb: Results) -> tuple[Pair, ...]:
    out = []
    for pack in _packs(ra.flight.packs, rb.flight.packs):
        fa, fb = ra.flight.packs[pack], rb.flight.packs[pack]
        out += [
            _pair(f"throttle/{pack}", f"Hover throttle on {pack}", "1", fa.throttle, fb.throttle),
            _pair(f"hover-power/{pack}", f"Hover power on {pack}", "W", fa.hover_power, fb.hover_power),
            _pair(f"endurance/{pack}", f"Time in the air on {pack}", "s", fa.endurance_styled, fb.endurance_styled),
            _pair(f"punch/{pack}", f"Current at full throttle on {pack}", "A", fa.peak_current, fb.peak_current),
            _pair(
                f"thrust-to-weight/{pack}",
                f"Thrust over weight on {pack}",
                "1",
                fa.thrust_to_weight,
                fb.thrust_to_weight,
            ),
        ]
    return tuple(p for p in out if not (isinstance(p.first, Unknown) and isinstance(p.second, Unknown)))


def compare(a: Build, ra: Results, b: Build, rb: Results) -> Difference:
    """The second build less the first."""
    wa, wb = _wires(a, ra.netlist), _wires(b, rb.netlist)
    sa = [s.id for s in getattr(ra.order, "steps", ())]
    sb = [s.id for s in getattr(rb.order, "steps", ())]
    return Difference(
        a.name,
        b.name,
        _parts(a, b, ra, rb),
        _pair("dry", "Dry weight", "kg", ra.mass.dry, rb.mass.dry),
        tuple(
            _pair(f"all-up/{p}", f"All-up weight with {p}", "kg", ra.mass.all_up[p], rb.mass.all_up[p])
            for p in _packs(ra.mass.all_up, rb.mass.all_up)
        ),
        _flight(ra, rb),
        (ra.budget.this_build, rb.budget.this_build),
        tuple(w for w in wa if w not in set(wb)),
        tuple(w for w in wb if w not in set(wa)),
        tuple(s for s in sa if s not in set(sb)),
        tuple(s for s in sb if s not in set(sa)),
    )
