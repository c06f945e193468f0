"""Which parts and batteries of one build would fit another as they are: the rules are run on that build
with each of them.
"""

from dataclasses import dataclass, replace

from builder.compute.compare.alternatives import swapped, with_pack
from builder.diagnostics.finding import Finding, Severity
from builder.model.build import Build
from builder.model.source.part import Part
from builder.rules.judge import RuleAnswer, Verdict
from builder.rules.judge_swap import judge_swap, rules_of_parts, rules_of_swaps
from builder.rules.swap_facts import (
    Fits,
    answer_of,
    facts_lacking,
    is_blind_cable,
    unfed,
    unwired,
    use_not_known,
)
from builder.rules.touched import touched

MOST = 6  # places tried for one pair; each is computed and judged


@dataclass(frozen=True, eq=False)
class Stay:
    """One place of the second build with the first build's part in it.

    `lost` are joins that find no contact and contacts that nothing feeds, `new` are findings that
    were not there before, `passed` is what rules of fit looked at and found right, `lacking` are
    facts that a rule lacks with it.
    """

    key: str
    label: str
    lost: tuple[str, ...]
    new: tuple[Finding, ...]
    passed: tuple[str, ...] = ()
    lacking: tuple[str, ...] = ()

    @property
    def answer(self) -> Fits:
        """No: a join is lost or a fault is new. Not known: a rule lacks a fact, or none looked at
        how it fits.
        """
        against = bool(self.lost) or any(f.severity == Severity.FAULT for f in self.new)
        unseen = () if self.passed else ("no rule looks at how it fits there",)
        return answer_of(against, (*self.lacking, *unseen))

    @property
    def fits(self) -> bool:
        """Whether the answer is yes: nothing speaks against it, and nothing is unknown."""
        return self.answer == "yes"


def looked_at(
    part: Part, answers: tuple[RuleAnswer, ...]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What the rules that this part touches found right, in the part's own keys, and the facts that
    they lack.
    """
    keys = touched(part)
    asked = [(a, keys[a.rule.code]) for a in answers if a.rule.code in keys]
    passed = [key for a, names in asked if a.answer == "passed" for key in names]
    lacking = [n.missing for a, _ in asked for n in a.not_judged]
    return tuple(dict.fromkeys(passed)), tuple(dict.fromkeys(lacking))


def _new(part: Part, said: Verdict, before: set[tuple[str, str]]) -> tuple[Finding, ...]:
    """What was not found before, that of the rules that this part touches first, faults before
    remarks.
    """
    mine = touched(part)
    asked = {r.code for r in (*rules_of_swaps(), *rules_of_parts())}
    new = [f for f in said.findings if f.code in asked and (f.code, f.message) not in before]
    return tuple(sorted(new, key=lambda f: (f.severity != Severity.FAULT, f.code not in mine)))


def could_stay(a: Build, b: Build, verdict: Verdict) -> tuple[Stay, ...]:
    """Each place that both have with parts of one kind that differ, in the order of the second
    build's file.
    """
    before = {(f.code, f.message) for f in verdict.findings}
    stocked = replace(
        b, shelf={**a.shelf, **b.shelf}
    )  # a build's own shelf holds only what it may use
    out: list[Stay] = []
    for key, there in b.parts.items():
        here = a.parts.get(key)
        alike = here is not None and here.shelf != there.shelf and here.part.kind == there.part.kind
        if here is None or not alike or len(out) == MOST:
            continue
        swap = swapped(stocked, key, here.shelf)
        said = judge_swap(swap.build)[1]
        passed, lacking = looked_at(here.part, said.answers)
        lacking += (*facts_lacking(verdict, said, key, here.shelf), *unwired(swap.build, key, a))
        lacking += use_not_known(there.part, here.part)
        lost = (*swap.lost, *unfed(swap.build, key))
        new = () if is_blind_cable(swap.build, key) else _new(here.part, said, before)
        out.append(Stay(key, here.part.name, lost, new, passed, tuple(dict.fromkeys(lacking))))
    return tuple(out)


def set_for_others(chemistry: str | None, made_for: frozenset[str | None]) -> str:
    """That landing volts and alarms are set for other cells: what lands one kind at 3.0 V a cell
    harms another.
    """
    names = ", ".join(sorted(c or "cells not named" for c in made_for)) or "no battery"
    return (
        f"landing volts and alarms for {chemistry or 'cells not named'}: they are set for {names}"
    )


def packs_could_stay(a: Build, b: Build, verdict: Verdict) -> tuple[Stay, ...]:
    """Each pack of the first build on the second one, by every rule: its connector, its cells, what
    it is asked for.
    """
    before = {(f.code, f.message) for f in verdict.findings}
    there = {p.shelf for p in b.packs.values()}
    made_for: frozenset[str | None] = frozenset(p.part.chemistry for p in b.packs.values())
    out: list[Stay] = []
    for key, pack in a.packs.items():
        if pack.shelf in there or len(out) == MOST:
            continue
        flown = with_pack(b, pack)
        said = judge_swap(flown)[1]
        passed, lacking = looked_at(pack.part, said.answers)
        lacking += facts_lacking(verdict, said, key, pack.shelf)
        if pack.part.chemistry is None or made_for != {pack.part.chemistry}:
            lacking += (set_for_others(pack.part.chemistry, made_for),)
        new = _new(pack.part, said, before)
        out.append(
            Stay(f"battery {key}", pack.part.name, (), new, passed, tuple(dict.fromkeys(lacking)))
        )
    return tuple(out)


def stays(a: Build, b: Build, verdict: Verdict) -> tuple[Stay, ...]:
    """Parts, then packs of the first build that were tried on the second, whose verdict is given."""
    return (*could_stay(a, b, verdict), *packs_could_stay(a, b, verdict))
