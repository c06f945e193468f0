"""The reference of rules and mistakes: every code that can come up is explained, and nothing else
is.
"""

import re
from pathlib import Path

import pytest

from builder.rules.find_rules import all_rules, rule_text
from builder.rules.mistakes import MISTAKES
from builder.rules.reference import codes, explanation

BUILDER = Path(__file__).resolve().parents[2] / "builder"
LABELS = ("Checks:", "Why:", "Example:", "Fix:", "Source:")


def _raised() -> set[str]:
    """Codes in the source outside the rules' folders, where a finding is made with its code in
    full.
    """
    files = [f for f in BUILDER.rglob("*.py") if f.name not in ("mistakes.py", "reference.py")]
    return {code for f in files for code in re.findall(r'"(data/[a-z-]+)"', f.read_text("utf-8"))}


def test_every_mistake_that_is_raised_has_its_entry_and_no_other() -> None:
    rules = {r.code for r in all_rules()}
    assert _raised() - rules == {m.code for m in MISTAKES}


def test_codes_are_unique_and_two_words_by_family() -> None:
    listed = [code for code, _ in codes()]
    assert len(set(listed)) == len(listed)
    assert all(re.fullmatch(r"[a-z]+/[a-z0-9]+(-[a-z0-9]+)*", c) for c in listed)


@pytest.mark.parametrize("code", [code for code, _ in codes()])
def test_every_code_is_explained(code: str) -> None:
    text = explanation(code)
    assert text is not None
    assert text.startswith(f"{code}: ")
    assert all(f"  {label}" in text for label in LABELS)
    assert not re.search(r":\s*$", text, re.M), "an empty line"


def test_an_unknown_code_is_not_explained() -> None:
    assert explanation("wiring/no-such-rule") is None


def test_a_rule_without_its_documentation_is_refused() -> None:
    with pytest.raises(ValueError, match="does not say 'Mend:'"):
        rule_text("Title.\n\nChecks: a.\nWhy: b.\nExample: c.\nSource: d\n", "wiring/x")


def test_the_family_may_be_left_out_where_one_code_fits() -> None:
    assert explanation("tx-to-tx") == explanation("wiring/tx-to-tx") is not None
