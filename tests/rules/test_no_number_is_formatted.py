"""No rule formats a number: each goes through builder/rules/say.py, so that it is rounded as on the
page and opens there.

Read off the source with ast, so that it does not hang on what any build happens to bring up.
"""

import ast
import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest

import builder

RULES = Path(builder.__file__).parent / "rules"
ROUNDS = {"format", "rounded", "significant"}
# A unit right behind a value; an s without a blank makes several of a word.
UNIT = re.compile(r" ?(?:A|V|W|Wh|mAh|mm|m|g|°C|°|deg|rpm|dB|MHz|mW|K|%)(?![a-z-])| s(?![a-z-])")
OWN = {"say.py"}  # the one that rounds


def formats(source: str) -> Iterator[int]:
    """Lines that turn a number into text: a number's format, '%', format(), round() inside of a
    text.
    """
    return (
        node.lineno
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.expr) and _formats(node)
    )


def _formats(node: ast.expr) -> bool:
    if isinstance(node, ast.FormattedValue):
        return _is_of_numbers(node.format_spec) or _rounds(node.value)
    if isinstance(node, ast.JoinedStr):
        return any(_is_value_with_unit(*pair) for pair in pairwise(node.values))
    if isinstance(node, ast.BinOp):
        return isinstance(node.op, ast.Mod) and _is_text(node.left)
    if not isinstance(node, ast.Call):
        return False
    called = _name(node.func)
    return called in ROUNDS or (called == "str" and any(_rounds(a) for a in node.args))


def _is_value_with_unit(first: ast.expr, second: ast.expr) -> bool:
    behind = second.value if isinstance(second, ast.Constant) else ""
    return isinstance(first, ast.FormattedValue) and UNIT.match(str(behind)) is not None


def _is_of_numbers(spec: ast.expr | None) -> bool:
    """Whether a format is for numbers; one that only sets words below each other (`<9`) is not."""
    given = spec.values if isinstance(spec, ast.JoinedStr) else []
    text = "".join(str(v.value) for v in given if isinstance(v, ast.Constant))
    return "." in text or text[-1:] in tuple("bdeEfFgGnoxX%")


def _rounds(node: ast.expr) -> bool:
    return any(isinstance(n, ast.Call) and _name(n.func) == "round" for n in ast.walk(node))


def _name(called: ast.expr) -> str:
    return called.id if isinstance(called, ast.Name) else getattr(called, "attr", "")


def _is_text(node: ast.expr) -> bool:
    return isinstance(node, ast.JoinedStr) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str)
    )


@pytest.mark.parametrize(
    "line",
    [
        "f'{amps:.1f} A'",
        "f'{amps:g}'",
        "'%.1f A' % amps",
        "'{:.1f} A'.format(amps)",
        "str(round(amps, 1))",
        "format(a, 'g')",
        "f'{amps:.{n}f}'",
        "f'{round(amps)} A'",
        "rounded(amps, 1)",
        "f'above {hottest} °C it burns'",
        "f'after {seconds} s'",
    ],
)
def test_a_formatted_number_is_seen(line: str) -> None:
    assert set(formats(line)) == {1}


@pytest.mark.parametrize(
    "line",
    [
        "f'{name:<9}{words}'",
        "f'{part.key} of {count}'",
        "round(yaw / 90)",
        "a % 360",
        "f'the {word}s in'",
    ],
)
def test_words_and_sums_are_let_be(line: str) -> None:
    assert list(formats(line)) == []


def test_no_rule_formats_a_number() -> None:
    files = [f for f in sorted(RULES.rglob("*.py")) if f.name not in OWN]
    assert len(files) > 70
    found = [
        f"{f.relative_to(RULES)}:{line}" for f in files for line in formats(f.read_text("utf-8"))
    ]
    assert not found, f"numbers formatted in rules: {found}; use builder/rules/say.py"


# Names of things by their size, and ids: no value that somebody reads off. Notes carry values, and
# pages round them. The list may only get shorter.
STILL_IN_COMPUTE = {
    "figures/figure.py",  # a character's number in an id
    "joints/bench_pieces.py",  # a length in the words of a step
    "joints/heat_flows.py",  # a pad's size in a figure's key
    "joints/heating.py",  # an iron's setting in its label
    "power_up/gate_power.py",  # the volts under which a rail is empty, in the words of a step
    "weight/one_aircraft.py",  # a length in a figure's key
    "weight/wire_mass.py",  # a pad's size in its label
}


def test_what_still_formats_numbers_in_compute_is_listed() -> None:
    folder = RULES.parent / "compute"
    found = {
        str(f.relative_to(folder))
        for f in folder.rglob("*.py")
        if list(formats(f.read_text("utf-8")))
    }
    assert not found - STILL_IN_COMPUTE, "return the value, and let rules or pages word it"
    assert not STILL_IN_COMPUTE - found, "take these out of the list"
