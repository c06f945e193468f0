"""What is different between two builds: parts, grams, money, wires, order, setup. Shared leaves
cancel in the spreads.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from builder.compute.circuit.contacts import how_it_lies
from builder.compute.compare.compared_places import matched, places
from builder.compute.compare.order_difference import StepChange, order_changes
from builder.compute.compare.part_changes import PartChange, part_change_of
from builder.compute.compare.purposes import UsePair, paired, purposes_of
from builder.compute.compare.setup_lines import setup_lines
from builder.compute.compare.turning_work import TurningWork, turning_work
from builder.compute.compare.wiring_difference import JoinChange, wiring_changes
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from builder.compute.figures.sums import difference
from builder.compute.flight.flight import PackFlight
from builder.compute.money.convert import Conversion, conversion
from builder.compute.results import Results
from builder.model.build import Build
from builder.model.values.money_text import Money


@dataclass(frozen=True, eq=False)
class Pair:
    """A figure of both builds and its difference, second less first."""

    key: str
    label: str
    first: MaybeFigure
    second: MaybeFigure
    change: MaybeFigure

    @property
    def real(self) -> bool:
        """Whether the difference is larger than twice its spread."""
        return (
            not self.alike
            and isinstance(self.change, Figure)
            and abs(self.change.value) > 2 * self.change.spread
        )

    @property
    def whole(self) -> bool:
        """Whether neither leaves anything out."""
        return isinstance(self.change, Unknown) or not self.change.lacks

    @property
    def alike(self) -> bool:
        """Whether both are the same but for what adding floats leaves behind."""
        if not isinstance(self.change, Figure) or not isinstance(self.first, Figure):
            return False
        return abs(self.change.value) <= 1e-12 * abs(self.first.value)


@dataclass(frozen=True, slots=True)
class LineChange:
    """A line of words, and which of the two builds say it."""

    text: str
    first: bool
    second: bool

    @property
    def differs(self) -> bool:
        """Whether only one of them says it."""
        return self.first != self.second


@dataclass(frozen=True, eq=False)
class Difference:
    """Two builds side by side. `unpriced`: whether a price of each leaves out parts that have none.
    `uses` are what both have a battery for; `all_up` and `flight` have the figures of each, by its key.
    """

    first: str
    second: str
    parts: tuple[PartChange, ...]
    dry: Pair
    all_up: tuple[Pair, ...]
    flight: tuple[Pair, ...]
    price: tuple[Money, Money]
    unpriced: tuple[bool, bool]
    wiring: tuple[JoinChange, ...]
    order: tuple[StepChange, ...]
    plugs: tuple[LineChange, ...]
    setup: tuple[LineChange, ...]
    conversion: Conversion
    uses: tuple[UsePair, ...]
    work: TurningWork

    def of_use(self, figure: str, purpose: str) -> tuple[Pair, UsePair] | None:
        """A figure of the batteries that serve a purpose; None where a build has no such battery."""
        use = next((u for u in self.uses if purpose in u.purposes), None)
        if use is None:
            return None
        wanted = f"{figure}/{use.key}"
        return next(p for p in (*self.all_up, *self.flight) if p.key == wanted), use


def _pair(key: str, label: str, unit: str, a: MaybeFigure, b: MaybeFigure) -> Pair:
    return Pair(key, label, a, b, difference(f"difference/{key}", label, unit, b, a))


def plug_list(build: Build) -> tuple[str, ...]:
    """Every plugged joint and how its cable lies."""
    out = []
    for join in build.plugs:
        lies = how_it_lies(build, join)
        words = ", by a table of its own" if lies else ""
        if isinstance(lies, str):
            words = f", {lies}"
        out.append(f"{join.plug.from_} to {join.plug.to}{words}")
    return tuple(out)


def line_changes(first: Sequence[str], second: Sequence[str]) -> tuple[LineChange, ...]:
    """Every line of both, in the order of the first, then what only the second has."""
    a, b = set(first), set(second)
    return tuple(LineChange(x, x in a, x in b) for x in dict.fromkeys((*first, *second)))


FLIGHT = (
    ("throttle", "Hover throttle", "1"),
    ("hover-power", "Hover power", "W"),
    ("endurance", "Time in the air", "s"),
    ("timer", "Timer", "s"),
    ("punch", "Current at full throttle", "A"),
    ("thrust-to-weight", "Thrust over weight", "1"),
)


def flight_figures(flight: PackFlight) -> tuple[MaybeFigure, ...]:
    """The figures of one pack in the order of FLIGHT."""
    return (
        flight.throttle,
        flight.hover_power,
        flight.endurance_styled,
        flight.reserve.timer,
        flight.peak_current,
        flight.thrust_to_weight,
    )


def _flight(ra: Results, rb: Results, uses: Sequence[UsePair]) -> tuple[Pair, ...]:
    """The figures of flight for each purpose, those too that neither has."""
    out = []
    for use in uses:
        both = (flight_figures(r.flight.packs[p]) for r, p in zip((ra, rb), use.packs, strict=True))
        for (key, label, unit), first, second in zip(FLIGHT, *both, strict=True):
            out.append(_pair(f"{key}/{use.key}", label, unit, first, second))
    return tuple(out)


def _all_up_label(use: UsePair, held: Sequence[str]) -> str:
    """The flying weight for a purpose, with what each of the two carries."""
    both = held[0] if held[0] == held[1] else f"{held[0]}; {held[1]}"
    return f"Flying weight (all-up), {' and '.join(use.purposes)}: {both}"


def difference_of(a: Build, ra: Results, b: Build, rb: Results) -> Difference:
    """The second build less the first."""
    both = matched(places(a, ra), places(b, rb))
    parts = tuple(part_change_of(x, y, ra.budget.currency) for x, y in both)
    dry = _pair("dry", "Dry weight", "kg", ra.mass.dry, rb.mass.dry)
    costs = ra.budget.this_build, rb.budget.this_build
    costs_lack = bool(ra.budget.lacks), bool(rb.budget.lacks)
    wiring = wiring_changes(ra.netlist, rb.netlist)
    order = order_changes(ra.order, rb.order)
    plugs = line_changes(plug_list(a), plug_list(b))
    setup = line_changes(setup_lines(a), setup_lines(b))
    uses = paired(purposes_of(a, ra), purposes_of(b, rb))
    work = turning_work((a, b), (ra.joints, rb.joints), parts, wiring, rb.order)
    return Difference(
        a.name,
        b.name,
        parts,
        dry,
        _all_up(ra, rb, uses),
        _flight(ra, rb, uses),
        costs,
        costs_lack,
        wiring,
        order,
        plugs,
        setup,
        conversion(a, b),
        uses,
        work,
    )


def _all_up(ra: Results, rb: Results, uses: Sequence[UsePair]) -> tuple[Pair, ...]:
    """The flying weight for each purpose."""
    out = []
    for use in uses:
        sides = tuple(zip((ra, rb), use.packs, strict=True))
        first, second = (r.mass.all_up[pack] for r, pack in sides)
        label = _all_up_label(use, [r.mass.flown_with(pack) for r, pack in sides])
        out.append(_pair(f"all-up/{use.key}", label, "kg", first, second))
    return tuple(out)
