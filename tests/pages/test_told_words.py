"""Values that steps and readings carry are rounded by the pages, as every other number."""

from math import radians
from pathlib import Path

import pytest

from builder.compute.figures.told import PlainSpan, PlainValue, Told, told
from builder.compute.order.work_order import Plan
from builder.pages.told_words import told_words
from builder.pipeline.check import Checked
from tests.rules.altered_demo import Tree, case_of


def test_words_alone_stay_words_whatever_is_in_them() -> None:
    assert told("Set ", "a {} board", " on.") == "Set a {} board on."


def test_values_are_rounded_half_away_from_zero_with_their_unit() -> None:
    said = told("at ", PlainValue(0.0125, "A"), ", ", PlainSpan(0.535, 0.905, "A"), ".")
    assert isinstance(said, Told)
    assert told_words(said) == "at 0.01 A, 0.54 to 0.91 A."
    assert told_words(told("turned ", PlainValue(radians(36.5), "rad"), " more")) == (
        "turned 37° more"
    )


def test_the_step_carries_the_limiter_unrounded(demo: Checked) -> None:
    results = demo.sheets["dipper"].results
    rating = results.gates[-1].power.limiter
    assert rating is not None and isinstance(results.order, Plan)
    step = next(s for s in results.order.steps if s.id == "first pack")
    assert isinstance(step.text, Told)
    assert PlainSpan(*rating, "A") in step.text.pieces
    assert f"({rating[0]:.2f} to {rating[1]:.2f} A): red to plus" in told_words(step.text)


def _askew(tree: Tree) -> None:
    tree["parts"]["controller"]["yaw"] = "37 deg"


def test_a_board_that_is_askew_says_its_turn(tmp_path: Path) -> None:
    plan = case_of(tmp_path, "dipper", _askew).whole.order
    assert isinstance(plan, Plan)
    text = next(s.text for s in plan.steps if s.id == "mount controller")
    assert isinstance(text, Told)
    assert any(
        isinstance(p, PlainValue) and p.value == pytest.approx(radians(37)) for p in text.pieces
    )
    assert "arrow turned 37° clockwise from the front, seen from above, face up." in told_words(
        text
    )
