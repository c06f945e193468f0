"""Curves of flight: what is drawn lies where the figures say, and every drawing says in words what
it shows.
"""

from math import pi

import pytest

from builder.compute.figures.figure import Figure, MaybeFigure
from builder.pages.drawing import Circle, Drawing, Line, Words
from builder.pages.plots.curves import bench_curve, pack_curve
from builder.pages.plots.plot import Axis
from builder.pages.sheet_input import SheetInput
from builder.pipeline.check import judged
from tests.compute.small_workspace import one_build, workspace

SHELF = """
frame: {kind: frame, name: Frame, mass: {measured: 150 g}}
motor: {kind: motor, name: Motor, mass: {measured: 10 g}, bench: [{propeller: prop, volts: 15 V, rows: [
  {throttle: 20 %, current: 0.4 A, thrust: 0.3 N}, {throttle: 50 %, current: 2.4 A, thrust: 1.3 N},
  {throttle: 100 %, current: 12 A, thrust: 4.0 N}]}]}
prop: {kind: propeller, name: Propeller, diameter: 3.5 in, mass: {measured: 1 g}}
pack: {kind: pack, name: Pack, cells: 4S, capacity: 850 mAh, mass: {measured: 90 g}, resistance: 6 mohm,
  chemistry: lithium-polymer, discharge: 20C, connector: {type: blade, short: 60 A}}
big: {kind: pack, name: Big pack, cells: 4S, capacity: 1300 mAh, mass: {measured: 140 g}, resistance: 4 mohm,
  chemistry: lithium-polymer}
other: {kind: pack, name: Six cells, cells: 6S, capacity: 1000 mAh, mass: {measured: 170 g}, chemistry: lithium-polymer}
"""
BUILD = (
    "title: T\nparts: {frame: frame, motor: {use: motor, count: 4}, prop: {use: prop, count:"
    " 4}}\npacks: {pack: %s}\n"
)
SITE = (
    "title: T\nplace: {altitude: 0 m}\nlimits: [{name: three hundred, mass: 300 g}, {name: a ton,"
    " mass: 10 kg}]"
)


def sheet(pack: str = "pack") -> SheetInput:
    return judged(one_build(SHELF, BUILD % pack, SITE))


def value(figure: MaybeFigure) -> float:
    assert isinstance(figure, Figure), figure
    return figure.value


def texts(drawing: Drawing) -> list[str]:
    return [i.text for i in drawing.items if isinstance(i, Words)]


@pytest.mark.parametrize(("what", "unit"), [("thrust", "N"), ("current", "A")])
def test_hover_is_marked_where_the_table_is_read(what: str, unit: str) -> None:
    found = sheet().results.flight
    drawn = bench_curve("t", found, what)
    assert drawn is not None
    curve = next(i for i in drawn.items if isinstance(i, Line) and i.tone == "accent")
    ring = next(i for i in drawn.items if isinstance(i, Circle) and i.tone == "pad")
    hover = found.packs["pack"].hover
    across, up = (
        value(hover.bench_throttle),
        value(hover.thrust_each if what == "thrust" else hover.bench_current),
    )
    (x0, y0), (x1, y1) = curve.points[0], curve.points[-1]
    top = {"thrust": (0.3, 4.0), "current": (0.4, 12.0)}[what]
    assert ring.x == pytest.approx(x0 + (x1 - x0) * (across - 0.2) / 0.8)
    assert ring.y == pytest.approx(y0 + (y1 - y0) * (up - top[0]) / (top[1] - top[0]))
    assert any(t.startswith("hover, pack:") and unit in t for t in texts(drawn))
    assert "hover, pack" in drawn.alt


def test_without_throttle_current_is_drawn_over_thrust() -> None:
    rows = (
        SHELF.replace("throttle: 20 %, ", "")
        .replace("throttle: 50 %, ", "")
        .replace("throttle: 100 %, ", "")
    )
    found = judged(one_build(rows, BUILD % "pack", SITE)).results.flight
    assert bench_curve("t", found, "thrust") is None
    drawn = bench_curve("t", found, "current")
    assert drawn is not None and "Thrust of one motor, N" in texts(drawn)


def test_packs_of_the_shelf_are_as_if_the_build_flew_on_them() -> None:
    """What the shelf's pack would give is what a build that flies on it gets."""
    sizes = sheet().sizes
    assert sizes is not None and sizes.series == 4
    assert [(s.shelf, s.own) for s in sizes.sizes] == [("pack", True), ("big", False)]
    with_it = sheet("big").results.flight.packs["pack"]
    assert value(sizes.sizes[1].mass) == pytest.approx(value(with_it.mass))
    assert value(sizes.sizes[1].time) == pytest.approx(value(with_it.endurance_styled), rel=1e-9)


def test_the_curve_goes_through_the_packs_and_the_limit_is_where_the_weight_is() -> None:
    sizes = sheet().sizes
    assert sizes is not None
    (name, capacity), *more = sizes.limits
    assert name == "three hundred" and not more  # a ton lies beyond the curve
    # 194 g without pack; 90 g at 850 mAh and 140 g at 1300 mAh: a straight line reaches 106 g at
    # 994 mAh.
    assert capacity / 3.6 == pytest.approx(850 + (106 - 90) / (140 - 90) * 450)
    for size in sizes.sizes:
        near = min(sizes.curve, key=lambda p: abs(p[0] - size.capacity))
        assert near[2] == pytest.approx(value(size.time), rel=0.06)
    drawn = pack_curve("t", sizes)
    assert drawn is not None
    line = next(i for i in drawn.items if isinstance(i, Line) and i.tone == "bad")
    rings = [i for i in drawn.items if isinstance(i, Circle)]
    assert [r.tone for r in rings] == ["accent", "pad"]
    share = (line.points[0][0] - rings[0].x) / (rings[1].x - rings[0].x)
    assert share == pytest.approx((capacity / 3.6 - 850) / 450)
    assert "three hundred" in texts(drawn) and "three hundred is reached at 994 mAh" in drawn.alt


def test_nothing_is_drawn_where_too_little_is_known() -> None:
    bare = "frame: {kind: frame, name: F}\npack: {kind: pack, name: P}"
    assert (
        judged(one_build(bare, "title: T\nparts: {frame: frame}\npacks: {pack: pack}")).sizes
        is None
    )


def test_full_throttle_against_what_carries_it() -> None:
    found = sheet().results.flight
    by = {row.what: row for row in found.limits}
    assert value(by["Battery"].limit) == pytest.approx(17.0) and by["Battery"].over is True
    assert value(by["Connector"].limit) == pytest.approx(60.0) and by["Connector"].over is False
    assert by["Motor"].over is None
    assert value(by["Motor"].current) == pytest.approx(value(found.packs["pack"].peak_current) / 4)


@pytest.mark.parametrize(
    ("high", "step"), [(3.2, 1.0), (0.9, 0.2), (47.0, 10.0), (1300.0, 500.0), (pi * 1e-3, 1e-3)]
)
def test_ticks_are_round_and_few(high: float, step: float) -> None:
    axis = Axis("", 0.0, high)
    ticks = axis.ticks
    assert 3 <= len(ticks) <= 6
    assert ticks[1] - ticks[0] == pytest.approx(step)
    assert [float(axis.said(t)) for t in ticks] == pytest.approx(
        list(ticks)
    )  # enough decimals for each


def test_ticks_of_an_axis_that_begins_elsewhere_lie_within_it() -> None:
    """1, 2 and 5 times powers of ten, as on every axis of the site: 250 would read as a value of
    its own.
    """
    assert Axis("", 400.0, 1500.0).ticks == (500.0, 1000.0, 1500.0)
    assert Axis("", 60.0, 180.0).ticks == (100.0, 150.0)


def test_a_pack_of_a_parallel_pair_counts_both() -> None:
    made = workspace(
        SHELF,
        {"pair": (BUILD % "pack").replace("pack: pack}", "pack: {use: pack, parallel: 2}}")},
        SITE,
    )
    sizes = judged(made.builds["pair"]).sizes
    assert sizes is not None
    assert next(s for s in sizes.sizes if s.own).capacity == pytest.approx(2 * 850 * 3.6)
