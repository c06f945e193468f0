"""The caret stands on what has to be changed, and what the hint says mends it: each hint is followed
here, and the finding is gone.
"""

from collections.abc import Mapping
from typing import Any

import pytest

from builder.diagnostics.finding import Finding
from tests.rules.rule_files import judged

IRON = {"kind": "tool", "name": "Iron", "tips": {"broad": "chisel"}}
JOINT = [{"from": "pigtail.MINUS", "to": "esc.BAT-", "gauge": "12 AWG"}]
BOARDS = {
    "esc": {"height": "7 mm", "soft_mount": "3 mm"},
    "board": {"height": "8 mm", "soft_mount": "3 mm"},
}
CLASS = {"limits": [{"name": "class", "mass": "250 g"}]}


def _iron(**more: str) -> dict[str, Any]:
    return {"wires": JOINT, "parts": {"iron": {}}, "shelf": {"iron": {**IRON, **more}}}


def _stack(posts: str) -> dict[str, Any]:
    shelf = {"frame": {"posts": posts}, **BOARDS}
    return {"parts": {"frame": {}, "esc": {}, "board": {}}, "shelf": shelf}


def _heavy(pack: str) -> dict[str, Any]:
    shelf = {"frame": {"mass": {"measured": "170 g"}}, "pack": {"mass": {"measured": pack}}}
    flown = {"packs": {"only": {"use": "pack"}}}
    return {"parts": {"frame": {}}, "shelf": shelf, "build": flown, "site": CLASS}


def _found(given: Mapping[str, Any], code: str) -> tuple[Finding, ...]:
    return tuple(f for f in judged(given, code).findings if f.code == code)


@pytest.mark.parametrize(
    ("code", "wrong", "path", "mended"),
    [
        # a stronger iron; one that gets hotter; longer posts; a lighter battery
        ("bench/iron-too-weak", _iron(power="15 W"), ("iron", "power"), _iron(power="60 W")),
        (
            "bench/iron-out-of-range",
            _iron(power="60 W", hottest="250 degC"),
            ("iron", "hottest"),
            _iron(power="60 W", hottest="480 degC"),
        ),
        ("fit/stack-too-high", _stack("20 mm"), ("frame", "posts"), _stack("26 mm")),
        ("law/over-mass-limit", _heavy("90 g"), ("packs", "only"), _heavy("60 g")),
    ],
)
def test_the_caret_stands_on_what_the_hint_says_to_change(
    code: str, wrong: dict[str, Any], path: tuple[str, ...], mended: dict[str, Any]
) -> None:
    (finding,) = _found(wrong, code)
    assert finding.where is not None and finding.where.path == path
    assert finding.hint
    assert _found(mended, code) == ()
