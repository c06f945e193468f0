"""What the rules say of one selection: it breaks a rule (which one), a fact lacks, or all is right."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from builder.compute.choose.offers import Selection
from builder.compute.choose.selected_build import PartsAtHand
from builder.compute.choose.three_figures import ThreeFigures
from builder.compute.figures.figure import Unknown
from builder.diagnostics.finding import Severity
from builder.model.build import Build
from builder.rules.could_stay import looked_at, set_for_others
from builder.rules.judge import Verdict, judge
from builder.rules.judge_swap import rules_of_parts, rules_of_swaps
from builder.rules.rule import Case, Found, Outcome, Rule
from builder.rules.swap_facts import facts_lacking, unfed, use_not_known


@dataclass(frozen=True)
class Refusal:
    """Why a selection is none: the rule's code ('' for a join that is lost), and its words."""

    code: str
    words: str


def rules_asked() -> tuple[Rule, ...]:
    """The rules that a selection has to keep."""
    return (*rules_of_swaps(), *rules_of_parts())


@dataclass(frozen=True, eq=False)
class Hearing:
    """What rules say of one case, each asked once; local to a call."""

    case: Case
    said: dict[str, tuple[Outcome, ...]] = field(default_factory=dict)

    def answers_of(self, rule: Rule) -> tuple[Outcome, ...]:
        """All that one rule says."""
        if rule.code not in self.said:
            self.said[rule.code] = tuple(rule.check(self.case))
        return self.said[rule.code]


def first_fault(hearing: Hearing, rules: Sequence[Rule]) -> Refusal | None:
    """The first fault that one of these rules finds."""
    for rule in rules:
        if rule.severity != Severity.FAULT:
            continue
        for outcome in hearing.answers_of(rule):
            if isinstance(outcome, Found) and outcome.severity in (None, Severity.FAULT):
                return Refusal(rule.code, outcome.message)
    return None


def newly_unfed(before: Build, after: Build, selection: Selection) -> Refusal | None:
    """A part that nothing feeds any more."""
    for offer in selection.parts:
        if not unfed(before, offer.key) and (dry := unfed(after, offer.key)):
            return Refusal("", dry[0])
    return None


def judged_whole(hearing: Hearing) -> tuple[Verdict, Refusal | None]:
    """All answers, and the first fault among them."""
    said = judge(hearing.case, rules_asked(), hearing.said)
    fault = next((f for f in said.findings if f.severity == Severity.FAULT), None)
    return said, Refusal(fault.code, fault.message) if fault is not None else None


def new_remarks(before: Verdict, after: Verdict) -> tuple[str, ...]:
    """What is worth knowing of a selection, and is not said of the build as it is."""
    known = {(f.code, f.message) for f in before.findings}
    new = (f for f in after.findings if f.severity == Severity.REMARK)
    return tuple(dict.fromkeys(str(f.message) for f in new if (f.code, f.message) not in known))


def facts_that_stay_open(base: Build, selection: Selection, shelf: PartsAtHand) -> tuple[str, ...]:
    """What is not known of a selection whatever else is swapped with it."""
    out: list[str] = []
    for offer in selection.parts:
        out += use_not_known(base.parts[offer.key].part, shelf[offer.shelf].part)
    if selection.other_pack is not None:
        made_for = frozenset(p.part.chemistry for p in base.packs.values())
        chemistry = getattr(shelf[selection.other_pack.shelf].part, "chemistry", None)
        if chemistry is None or made_for != {chemistry}:
            out.append(set_for_others(chemistry, made_for))
    return tuple(out)


def facts_not_known(
    before: Verdict,
    after: Verdict,
    base: Build,
    selection: Selection,
    shelf: PartsAtHand,
    found: ThreeFigures,
) -> tuple[str, ...]:
    """What is to be found out before a selection can be called right."""
    out: list[str] = []
    for offer in selection.swaps:
        part = shelf[offer.shelf].part
        out += facts_lacking(before, after, offer.key, offer.shelf)
        passed, _ = looked_at(part, after.answers)
        if not passed:
            out.append(f"how {part.name} fits: no rule looks at it there")
    out += facts_that_stay_open(base, selection, shelf)
    out += found.mass.lacks
    out += [f"price of {name}" for name in found.unpriced]
    out += found.time.missing if isinstance(found.time, Unknown) else ()
    return tuple(dict.fromkeys(out))
