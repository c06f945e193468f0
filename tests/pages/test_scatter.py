"""The drawing of all builds: where points stand, where they lead, and that labels keep clear of
each other.
"""

from dataclasses import replace
from itertools import combinations
from math import log

import pytest

from builder.pages.drawing import Circle, Line, Words
from builder.pages.plots.axis import round_decades, round_steps
from builder.pages.plots.scatter import _box_of, points_of, scatter
from builder.pages.summaries.summarise import summarise
from builder.pages.summaries.summary import Summary
from builder.pipeline.check import Checked

LIMITS = (("250 g class", 0.25), ("0.55 lb", 0.2494758))


@pytest.fixture(scope="module")
def summaries(demo: Checked) -> list[Summary]:
    return [summarise(s) for s in demo.sheets.values()]


def test_every_build_with_every_pack_is_a_point_that_leads_to_its_sheet(
    summaries: list[Summary],
) -> None:
    drawing = scatter(summaries, LIMITS)
    assert drawing is not None
    dots = [i for i in drawing.items if isinstance(i, Circle)]
    assert len(dots) == sum(len(s.packs) for s in summaries) == 11
    assert {d.link for d in dots} == {f"{s.name}/index.html" for s in summaries}
    for point in points_of(summaries):
        assert point.words in drawing.alt
        assert point.words in {d.title for d in dots}


def test_a_point_stands_where_its_figures_say(summaries: list[Summary]) -> None:
    drawing = scatter(summaries, ())
    assert drawing is not None
    dots = {i.title: i for i in drawing.items if isinstance(i, Circle)}
    points = points_of(summaries)
    light, heavy = min(points, key=lambda p: p.grams), max(points, key=lambda p: p.grams)
    middle = next(p for p in points if light.grams < p.grams < heavy.grams)
    reach = dots[heavy.words].x - dots[light.words].x
    share = (dots[middle.words].x - dots[light.words].x) / reach
    assert share == pytest.approx(log(middle.grams / light.grams) / log(heavy.grams / light.grams))
    up = (dots[light.words].y - dots[heavy.words].y) / (heavy.minutes - light.minutes)
    assert up * (middle.minutes - light.minutes) == pytest.approx(
        dots[light.words].y - dots[middle.words].y
    )


def test_limits_are_lines_with_their_names(summaries: list[Summary]) -> None:
    drawing = scatter(summaries, LIMITS)
    assert drawing is not None
    assert sum(1 for i in drawing.items if isinstance(i, Line) and i.tone == "bad") == 2
    assert {i.text for i in drawing.items if isinstance(i, Words) and i.tone == "bad"} == {
        "250 g class",
        "0.55 lb",
    }
    assert "limit 250 g class at 250.0 g" in drawing.alt


def test_no_label_lies_on_another_or_on_a_point(summaries: list[Summary]) -> None:
    drawing = scatter(summaries, LIMITS)
    assert drawing is not None
    labels = [
        i
        for i in drawing.items
        if isinstance(i, Words) and ", " in i.text and "scale" not in i.text
    ]
    assert len(labels) == 11
    boxes = [_box_of(w.x, w.y, w.anchor, w.text) for w in labels]
    assert not [(a, b) for a, b in combinations(boxes, 2) if a.meets(b)]
    for dot in (i for i in drawing.items if isinstance(i, Circle)):
        assert not any(b.left < dot.x < b.right and b.top < dot.y < b.foot for b in boxes)


def test_fewer_than_two_points_make_no_drawing(summaries: list[Summary]) -> None:
    assert scatter(summaries[:0], LIMITS) is None


@pytest.mark.parametrize("high", [0.07, 1.0, 7.3, 9.99, 10.0, 24.9, 61.0, 1234.0])
def test_steps_of_an_axis_are_round_and_reach_over_all(high: float) -> None:
    marks = round_steps(high, 7)
    assert marks[0] == 0.0
    assert marks[-1] >= high * (1 - 1e-9)
    assert 3 <= len(marks) <= 7
    assert f"{marks[1]:e}"[0] in "125"
    assert round_decades(high, high * 3)[0] <= high
    assert round_decades(high, high * 3)[-1] >= high * 3


def test_a_crowd_of_points_has_no_labels_but_every_dot_says_what_it_is(
    summaries: list[Summary],
) -> None:
    crowd = [
        replace(s, name=f"{s.name}-{n}", title=f"{s.title} {n}")
        for n in range(20)
        for s in summaries
    ]
    drawing = scatter(crowd, ())
    assert drawing is not None
    dots = [i for i in drawing.items if isinstance(i, Circle)]
    assert len(dots) == 220 and all(d.title and d.link for d in dots)
    titles = {s.title for s in crowd}
    assert not [
        i for i in drawing.items if isinstance(i, Words) and i.text.partition(",")[0] in titles
    ]
