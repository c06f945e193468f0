"""Runs every rule over a build and keeps all answers: found, passed, nothing to check, not checked."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from builder.compute.circuit.contacts import as_written
from builder.compute.compute import assemble
from builder.diagnostics.finding import Finding, Severity
from builder.model.build import Build
from builder.rules.accept import Accepted, accept_findings
from builder.rules.find_rules import all_rules
from builder.rules.places import at_one_place
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome, Rule

Answer = Literal["found", "passed", "not judged", "nothing to judge"]


@dataclass(frozen=True)
class RuleAnswer:
    """What one rule said of one build. A rule may find, and lack a fact elsewhere, at once."""

    rule: Rule
    findings: tuple[Finding, ...]
    not_judged: tuple[NotJudged, ...]
    passed: int

    @property
    def answer(self) -> Answer:
        """The answer in one word."""
        if self.findings:
            return "found"
        if self.not_judged:
            return "not judged"
        return "passed" if self.passed else "nothing to judge"


@dataclass(frozen=True)
class Verdict:
    """All answers of all rules for one build."""

    answers: tuple[RuleAnswer, ...]
    accepted: tuple[Accepted, ...]
    stale_accepts: tuple[Finding, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything found, accepted faults included, in the order of the rules."""
        return tuple(f for a in self.answers for f in a.findings) + self.stale_accepts

    @property
    def faults(self) -> tuple[Finding, ...]:
        """Faults that nobody accepted: they stop a publish."""
        accepted = {a.finding for a in self.accepted}
        return tuple(f for f in self.findings if f.severity == Severity.FAULT and f not in accepted)

    @property
    def remarks(self) -> tuple[Finding, ...]:
        """What is worth knowing, and was not accepted."""
        accepted = {a.finding for a in self.accepted}
        left = (f for f in self.findings if f not in accepted)
        return tuple(f for f in left if f.severity == Severity.REMARK)

    @property
    def judged(self) -> int:
        """How many rules came to a decision, wholly or in part."""
        return sum(1 for a in self.answers if a.findings or a.passed)

    @property
    def not_judged(self) -> tuple[RuleAnswer, ...]:
        """Answers that lack at least one fact."""
        return tuple(a for a in self.answers if a.not_judged)

    def summary(self) -> str:
        """One line: `61 checks passed, 2 found something, 8 could not be checked, 12 had nothing to
        look at`. One that found something and lacks a fact for the rest counts as both.
        """
        passed = sum(1 for a in self.answers if a.answer == "passed")
        found = sum(1 for a in self.answers if a.findings)
        idle = sum(1 for a in self.answers if a.answer == "nothing to judge")
        lacking = len(self.not_judged)
        return (
            f"{passed} checks passed, {found} found something, {lacking} could not be checked,"
            f" {idle} had nothing to look at"
        )


def _answer(rule: Rule, build: str, outcomes: Iterable[Outcome]) -> RuleAnswer:
    findings: list[Finding] = []
    lacking: list[NotJudged] = []
    passed = 0
    for outcome in outcomes:
        if isinstance(outcome, Found):
            signal = outcome.signal or rule.signal
            findings.append(
                Finding(
                    rule.code,
                    outcome.severity or rule.severity,
                    outcome.message,
                    outcome.hint,
                    outcome.where,
                    build,
                    signal,
                    outcome.see,
                )
            )
        elif isinstance(outcome, NotJudged):
            lacking.append(outcome)
        elif isinstance(outcome, Judged):
            passed += 1
    return RuleAnswer(rule, tuple(dict.fromkeys(findings)), tuple(dict.fromkeys(lacking)), passed)


def _with_wiring_as_written(answers: tuple[RuleAnswer, ...], case: Case) -> tuple[RuleAnswer, ...]:
    """What the rules of wiring find besides, if a cable lies as the build writes and not as the
    shelf says.
    """
    out = []
    for answer in answers:
        said = {f.message for f in answer.findings}
        if answer.rule.family != "wiring":
            out.append(answer)
            continue
        besides = _answer(answer.rule, case.build.name, answer.rule.check(case)).findings
        new = tuple(f for f in besides if f.message not in said)
        out.append(replace(answer, findings=(*answer.findings, *new)))
    return tuple(out)


def one_finding_a_cause(build: Build, answers: tuple[RuleAnswer, ...]) -> tuple[RuleAnswer, ...]:
    """The answers without what another rule, to which theirs yields, found at the same place and no
    milder.
    """
    by_code = {a.rule.code: a.findings for a in answers}

    def stays(finding: Finding, answer: RuleAnswer) -> bool:
        others = (f for code in answer.rule.yields_to for f in by_code.get(code, ()))
        no_milder = (f for f in others if f.severity in (finding.severity, Severity.FAULT))
        return not any(at_one_place(build, finding, other) for other in no_milder)

    return tuple(
        replace(a, findings=tuple(f for f in a.findings if stays(f, a))) if a.rule.yields_to else a
        for a in answers
    )


def judge(
    case: Case,
    rules: Sequence[Rule] | None = None,
    heard: Mapping[str, tuple[Outcome, ...]] | None = None,
) -> Verdict:
    """Every rule's answer. What stands under `accept` is kept, with the builder's reason.

    `heard` is what rules, by code, have said of this case already: they are not asked again.
    """
    asked = all_rules() if rules is None else rules
    said, name = dict(heard or {}), case.build.name
    for rule in asked:
        if rule.code not in said:
            said[rule.code] = tuple(rule.check(case))
    answers = tuple(_answer(rule, name, said[rule.code]) for rule in asked)
    written = as_written(case.build)
    if written is not None:
        answers = _with_wiring_as_written(answers, Case(written, assemble(written)))
    answers = one_finding_a_cause(case.build, answers)
    accepted, stale = accept_findings(case.build, [f for a in answers for f in a.findings])
    return Verdict(answers, accepted, stale)
