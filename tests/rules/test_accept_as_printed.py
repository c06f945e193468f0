"""What a finding prints is what its `accept` takes: the first found case of each rule, accepted at
its place by its own first figure; and not by less, nor by the key for the other way.

Which way is worse is read here from the limit that the sentence names last, not from the code.
"""

from typing import Any

import pytest

from builder.diagnostics.finding import Finding
from builder.diagnostics.sentence import Amount, amounts_of
from builder.rules.find_rules import all_rules
from builder.rules.judge import judge
from tests.rules.rule_files import RuleCase, case_of, rule_cases

pytestmark = pytest.mark.slow  # takes long

RULES = {r.code: r for r in all_rules()}
_FIRST: dict[str, RuleCase] = {}
for _case in rule_cases():
    if _case.expect == "found":
        _FIRST.setdefault(_case.rule, _case)


def _place(finding: Finding) -> str:
    steps = finding.where.path if finding.where is not None else ()
    return "/".join(str(s + 1) if isinstance(s, int) else s for s in steps)


def _accepted(case: RuleCase, finding: Finding, **figure: str) -> bool:
    entry = {"rule": case.rule, "at": _place(finding), "because": "so", **figure}
    build: dict[str, Any] = {**case.given.get("build", {}), "accept": [entry]}
    verdict = judge(case_of({**case.given, "build": build}), [RULES[case.rule]])
    return any(a.finding.message == finding.message for a in verdict.accepted)


def _as_written(figure: Amount) -> str:
    return f"{figure.shown} {figure.shown_unit}".strip().replace("°", " deg")


@pytest.mark.parametrize("case", _FIRST.values(), ids=_FIRST)
def test_it_is_accepted_as_it_is_printed(case: RuleCase) -> None:
    first = next(iter(judge(case_of(case.given), [RULES[case.rule]]).answers[0].findings))
    amounts = amounts_of(first.message)
    if not amounts:
        assert _accepted(case, first)
        return
    figure = amounts[0]
    like = [a for a in amounts[1:] if a.unit == figure.unit]
    less = bool(like) and figure.value < like[0].value
    right, wrong = ("down_to", "up_to") if less else ("up_to", "down_to")
    assert _accepted(case, first, **{right: _as_written(figure)})
    assert not _accepted(case, first)
    if like:
        assert not _accepted(case, first, **{wrong: _as_written(figure)})
