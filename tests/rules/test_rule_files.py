"""Every case of every rule's file (see rule_files.py), and that no rule of the bench lacks its
file.
"""

import pytest

from builder.rules.find_rules import all_rules
from tests.rules.rule_files import HERE, RuleCase, answer, rule_cases

pytestmark = pytest.mark.slow  # takes long


@pytest.mark.parametrize("case", rule_cases(), ids=lambda c: c.name)
def test_the_rule_says(case: RuleCase) -> None:
    said = answer(case)
    messages = [f.message for f in said.findings] + [n.missing for n in said.not_judged]
    assert said.answer == case.expect, messages
    assert any(case.says in m for m in messages) or not case.says, messages
    hints = [f.hint for f in said.findings]
    assert any(case.hints in h for h in hints) or not case.hints, hints


def test_every_rule_has_its_file_with_both_answers() -> None:
    answers: dict[str, set[str]] = {}
    for case in rule_cases():
        answers.setdefault(case.rule, set()).add(case.expect)
    for rule in all_rules():
        if rule.family in ("wiring", "power", "fit", "pack", "bench"):
            assert {"found", "passed"} <= answers.get(rule.code, set()), rule.code


def test_every_file_belongs_to_a_rule() -> None:
    codes = {r.code for r in all_rules()}
    assert {f"{p.parent.name}/{p.stem}" for p in HERE.glob("*/*.yaml")} <= codes
