"""Figures as pictures: bars, bands, dots and limits stand where their numbers are, as a browser draws
them, and say the same in their alternative text.
"""

import re
from typing import Any

import pytest

from builder.compute.figures.figure import Figure
from builder.compute.flight.flight import BAND
from builder.pages.blocks import Illustration
from builder.pages.brief.picked import blocks_in
from builder.pages.page_map import DRAWINGS, FLIGHT, PARTS, WIRING
from builder.pages.plots.air_time import air_time
from builder.pages.plots.joint_heat import heat_picture, heat_rows
from builder.pages.sections.weight import weight
from builder.pages.site.build_page import topic_page
from builder.pipeline.check import Checked
from tests.pages.views.conftest import canvas  # noqa: F401
from tests.pages.views.drawn import DEMO, boxes, outside, overlapping_words, show


def _sound(page: Any) -> None:
    """No words leave the drawing or cover others."""
    words = boxes(page, "text")
    assert outside(words, boxes(page, "svg")[0]) == []
    assert overlapping_words(words) == []


@pytest.mark.parametrize("name", DEMO)
def test_flights_and_bands_stand_at_their_minutes(canvas: Any, demo: Checked, name: str) -> None:  # noqa: F811
    found = demo.sheets[name].results.flight
    drawn = air_time(name, found)
    assert drawn is not None
    page = show(canvas, drawn)
    _sound(page)
    ticks = {
        float(b["text"]): (b["left"] + b["right"]) / 2
        for b in boxes(page, "text")
        if re.fullmatch(r"[0-9.]+", b["text"])
    }
    low, high = min(ticks), max(ticks)
    px = (ticks[high] - ticks[low]) / (high - low)
    zero = ticks[low] - px * low
    bars = sorted(b["right"] for b in boxes(page, "rect"))
    wanted = [p.endurance_styled for p in found.packs.values()]
    values = sorted(zero + px * f.value / 60 for f in wanted if isinstance(f, Figure))
    assert bars == pytest.approx(values, abs=1.5)
    dots = sorted((b["left"] + b["right"]) / 2 for b in boxes(page, "circle"))
    assert dots == pytest.approx(
        sorted(zero + px * f.minutes for f in found.style.flights), abs=1.5
    )
    for figure in wanted:
        assert isinstance(figure, Figure)
        ends = [zero + px * e / 60 for e in figure.band(BAND)]
        lines = boxes(page, "path.line, .line path")
        whole = [b for b in lines if abs(b["left"] - ends[0]) < 2.0]
        assert any(b["right"] >= ends[1] - 2.0 for b in whole) or len(wanted) > 1
    assert all(p in drawn.alt for p in found.packs)


@pytest.mark.parametrize("name", DEMO)
def test_late_joints_reach_beyond_the_frame_of_the_usual_time(
    canvas: Any,  # noqa: F811
    demo: Checked,
    name: str,
) -> None:
    found = demo.sheets[name].results.joints
    drawn = heat_picture(name, found)
    assert drawn is not None
    page = show(canvas, drawn)
    _sound(page)
    rows = {r.name: r for r in heat_rows(found)}
    words = {b["text"]: b for b in boxes(page, "text")}
    bars = boxes(page, "rect")
    drawn_rows = [r for r in rows if r in words]
    assert len(drawn_rows) == len(bars) >= 3
    hardest = max(rows.values(), key=lambda r: r.share)
    assert hardest.name in drawn_rows
    seconds = []
    for row in drawn_rows:
        y = (words[row]["top"] + words[row]["bottom"]) / 2
        bar = next(b for b in bars if b["top"] < y < b["bottom"])
        late = "solid" in bar["class"]
        assert late == (rows[row].share > 1)
        warm = [j for j in found if f"{j.contact}" == row.split(" ")[0]]
        assert warm[0].heat.warm_first == late  # as the step says it
        needs = rows[row].needs
        if needs is not None:
            seconds.append((bar["right"] - bar["left"]) / needs)
    assert max(seconds) == pytest.approx(min(seconds), rel=0.05)


@pytest.mark.parametrize("name", ["dipper", "dipper-light"])
def test_limits_stand_beyond_the_weight_that_keeps_them(
    canvas: Any,  # noqa: F811
    demo: Checked,
    name: str,
) -> None:
    sheet = demo.sheets[name]
    drawn = next(
        b.drawing
        for b in weight(sheet).blocks
        if isinstance(b, Illustration) and b.drawing.name == f"{name}-weight"
    )
    page = show(canvas, drawn)
    _sound(page)
    bars = boxes(page, "rect")
    lines = boxes(page, "path.bad, .bad path")
    first = next(iter(sheet.results.mass.packs))
    near = [m for m in sheet.results.margins if m.pack == first]
    assert near and len(lines) >= 1
    left, end = min(b["left"] for b in bars), max(b["right"] for b in bars)
    px = (end - left) / (1000 * near[0].mass.value)
    limit = left + px * 1000 * max(m.bound.value for m in near)
    assert max(b["right"] for b in lines) == pytest.approx(limit, abs=2.5)
    for margin in near:
        assert margin.limit.name in drawn.alt
    assert {m.within for m in near} == {True} and limit > end


@pytest.mark.parametrize("name", DEMO)
def test_no_words_below_a_picture_name_a_tone_that_a_dark_page_turns_round(
    demo: Checked, name: str
) -> None:
    shown = 0
    for topic in (PARTS, DRAWINGS, WIRING, FLIGHT):
        page = topic_page(demo.sheets[name], topic)
        blocks = (b for s in page.sections for b in blocks_in(s))
        for caption in (b.caption for b in blocks if isinstance(b, Illustration)):
            shown += 1
            assert not re.search(r"\b(black|white|dark|light)\b", caption), caption
    assert shown > 4
