"""Runs compute and rules once for each alternative part: what it changes in grams, money, margin
and findings.
"""

from dataclasses import dataclass

from builder.compute.compare.alternatives import Swap, swaps
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from builder.compute.figures.sums import difference, total
from builder.compute.money.price_figures import price_figure
from builder.compute.results import Assembly, Results
from builder.compute.weight.limits import keeps_limit
from builder.compute.weight.swap_mass import part_change
from builder.diagnostics.finding import Finding
from builder.model.build import Build
from builder.rules.judge import Verdict
from builder.rules.judge_swap import judge_swap, rules_of_parts, rules_of_swaps
from builder.rules.swap_facts import (
    Fits,
    answer_of,
    facts_lacking,
    is_blind_cable,
    unfed,
    use_not_known,
)


@dataclass(frozen=True, eq=False)
class Tried:
    """One alternative. `margins` are (limit, pack, what is left in kg, whether it keeps it, None
    for not known).

    `unfed` are contacts that nothing would feed, `lacking` facts that a rule lacks with it.
    `times` are (pack, time in the air now, and with it), in the builder's style as far as the log
    knows it.
    """

    key: str
    shelf: str
    label: str
    mass_change: MaybeFigure
    price_change: MaybeFigure
    margins: tuple[tuple[str, str, MaybeFigure, bool | None], ...]
    times: tuple[tuple[str, MaybeFigure, MaybeFigure], ...]
    new_findings: tuple[Finding, ...]
    gone_findings: tuple[Finding, ...]
    lost_joins: tuple[str, ...]
    unfed: tuple[str, ...] = ()
    lacking: tuple[str, ...] = ()

    @property
    def answer(self) -> Fits:
        """No: it breaks something. Not known: a rule lacks a fact that it had with the part of now.
        Else yes.
        """
        return answer_of(self.breaks, self.lacking)

    @property
    def breaks(self) -> bool:
        """Whether the wiring loses a join, nothing feeds it, or a fault appears that was not there."""
        return bool(self.lost_joins or self.unfed) or any(
            f.severity == "fault" for f in self.new_findings
        )


@dataclass(frozen=True, eq=False)
class Alternatives:
    """All that were tried, and how many more are named but were not."""

    tried: tuple[Tried, ...] = ()
    left_out: int = 0


def _said(verdict: Verdict) -> dict[tuple[str, str], Finding]:
    """What the rules found that a swap is judged by."""
    asked = {r.code for r in (*rules_of_swaps(), *rules_of_parts())}
    return {
        (f.code, f.message): f for a in verdict.answers if a.rule.code in asked for f in a.findings
    }


def _mass_change(build: Build, results: Results, swap: Swap) -> MaybeFigure:
    name = f"{build.name}/swap/{swap.key}-{swap.shelf}"
    return part_change(build, results.mass, name, swap.key, swap.shelf)


def _price_change(build: Build, results: Results, swap: Swap) -> MaybeFigure:
    name, entry = f"{build.name}/swap/{swap.key}-{swap.shelf}", build.shelf[swap.shelf]
    old = next(x for x in results.budget.lines if x.key == swap.key)
    count, where = build.parts[swap.key].count, entry.where.at("price")
    new = price_figure(build, f"{name}/price", entry.part.name, entry.part.price, count, where)
    label = f"Price of {entry.part.name} in place of {old.label}"
    return difference(f"{name}/price-change", label, build.site.currency, new, old.used_figure)


def _times(
    build: Build, now: Results, then: Assembly, swap: Swap
) -> tuple[tuple[str, MaybeFigure, MaybeFigure], ...]:
    """Time in the air on each pack, now and then, where the swap changes it.

    The other build's figures have the keys of this one, so what comes out of it stands here as one
    figure of its own.
    """
    out = []
    for pack, flown in now.flight.packs.items():
        old, new = flown.endurance_styled, then.flight.packs[pack].endurance_styled
        key = f"{build.name}/swap/{swap.key}-{swap.shelf}/time-{pack}"
        label = f"Time in the air on {pack} with {build.shelf[swap.shelf].part.name}"
        if isinstance(new, Unknown):
            shown: MaybeFigure = Unknown(key, label, new.missing)
        else:
            note = f"the whole build computed again with this part; {then.flight.style.note}"
            shown = Figure(
                key, label, new.value, new.unit, own=new.spread, shape="lognormal", note=note
            )
        if (
            isinstance(old, Unknown)
            or isinstance(new, Unknown)
            or abs(new.value - old.value) > 1e-9 * old.value
        ):
            out.append((pack, old, shown))
    return tuple(out)


def _try(build: Build, results: Results, verdict: Verdict, swap: Swap) -> Tried:
    change = _mass_change(build, results, swap)
    with_it, judged = judge_swap(swap.build, results.flight.style, results.mass)
    before, after = _said(verdict), _said(judged)
    price = _price_change(build, results, swap)
    margins = []
    for m in results.margins if isinstance(change, Figure) else ():
        key = f"{build.name}/swap/{swap.key}-{swap.shelf}/{m.limit.name}/{m.pack or 'dry'}"
        becomes = total(f"{key}/mass", f"{m.mass.label} with {swap.shelf}", "kg", [m.mass, change])
        left = difference(
            f"{key}/left",
            f"Left to {m.limit.name}, {m.pack or 'dry'} with {swap.shelf}",
            "kg",
            m.bound,
            becomes,
        )
        margins.append((m.limit.name, m.pack, left, keeps_limit(becomes, m.limit)))
    new = tuple(f for k, f in after.items() if k not in before)
    lacking = facts_lacking(verdict, judged, swap.key, swap.shelf)
    use = use_not_known(build.parts[swap.key].part, build.shelf[swap.shelf].part)
    return Tried(
        swap.key,
        swap.shelf,
        build.shelf[swap.shelf].part.name,
        change,
        price,
        tuple(margins),
        _times(build, results, with_it, swap),
        () if is_blind_cable(swap.build, swap.key) else new,
        tuple(f for k, f in before.items() if k not in after),
        swap.lost,
        _newly_unfed(build, swap),
        (*lacking, *use),
    )


def _newly_unfed(build: Build, swap: Swap) -> tuple[str, ...]:
    return () if unfed(build, swap.key) else unfed(swap.build, swap.key)


def try_alternatives(build: Build, results: Results, verdict: Verdict) -> Alternatives:
    """Every alternative that the parts name, up to a bound. A tool or other part without a weight
    line is passed by.
    """
    made, left_out = swaps(build)
    flying = {x.key for x in (*results.mass.lines, *results.mass.payload)}
    return Alternatives(
        tuple(_try(build, results, verdict, s) for s in made if s.key in flying), left_out
    )
