"""Room between bodies against scipy, on generated boxes and cylinders.

Outside: the least distance of two boxes is a bounded least-squares problem in the six shares of
their edges. Inside: the least way that clears them is that from the origin to the hull of all
differences of their corners. Neither knows of separating axes. A cylinder is a prism of many sides.
"""

from math import cos, pi, sin

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import lsq_linear
from scipy.spatial import ConvexHull

from builder.compute.geometry.solids import Solid, least_room, room_between

Array = NDArray[np.float64]
SIDES = 180


def _turned(solid: Solid) -> Array:
    """Columns: the ways of the solid's own axes. Clockwise from above: the front goes to the right,
    which is -y.
    """
    c, s = cos(-solid.yaw), sin(-solid.yaw)
    return np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])


def _corners(solid: Solid) -> Array:
    if solid.is_round:
        angles = np.arange(SIDES) * 2 * pi / SIDES
        rim = np.stack([np.cos(angles), np.sin(angles)], axis=1) * solid.half[0]
        flat = [np.column_stack([rim, np.full(SIDES, z)]) for z in (-solid.half[2], solid.half[2])]
        own = np.vstack(flat)
    else:
        signs = np.array([[x, y, z] for x in (-1, 1) for y in (-1, 1) for z in (-1, 1)])
        own = signs * np.array(solid.half)
    corners: Array = own @ _turned(solid).T + np.array(solid.middle)
    return corners


def _apart(one: Solid, other: Solid) -> float:
    """Distance of two boxes, 0 where they meet."""
    edges = [_turned(s) * np.array(s.half) for s in (one, other)]
    offset = np.array(one.middle) - np.array(other.middle)
    found = lsq_linear(np.hstack([edges[0], -edges[1]]), -offset, bounds=(-1.0, 1.0), method="bvls")
    return float(np.sqrt(2.0 * found.cost))


def _deep(one: Solid, other: Solid) -> float:
    """How deep two bodies stand in each other; negative where they do not meet."""
    a, b = _corners(one), _corners(other)
    differences = (a[:, None, :] - b[None, :, :]).reshape(-1, 3)
    return float(np.min(-ConvexHull(differences).equations[:, 3]))


def _box(rng: np.random.Generator, spread: float) -> Solid:
    x, y, z = (float(v) for v in rng.uniform(-spread, spread, 3))
    long, wide, tall = (float(v) for v in rng.uniform(0.5, 20.0, 3))
    return Solid((x, y, z), (long, wide, tall), float(rng.uniform(-pi, pi)))


def _cylinder(rng: np.random.Generator, spread: float) -> Solid:
    x, y, z = (float(v) for v in rng.uniform(-spread, spread, 3))
    radius, tall = (float(v) for v in rng.uniform(2.0, 20.0, 2))
    return Solid((x, y, z), (radius, radius, tall), is_round=True)


def test_boxes_as_scipy_finds_them() -> None:
    rng = np.random.default_rng(29)
    inside = outside = 0
    for number in range(400):
        spread = 12.0 if number % 2 else 45.0
        one, other = _box(rng, spread), _box(rng, spread)
        room = room_between(one, other)
        assert least_room(one, other) <= room
        deep = _deep(one, other)
        if deep > 0.0:
            inside += 1
            assert room == pytest.approx(-deep, abs=1e-7)
        else:
            outside += 1
            assert room == pytest.approx(_apart(one, other), abs=1e-6)
    assert min(inside, outside) > 100


def test_cylinders_as_scipy_finds_them() -> None:
    rng = np.random.default_rng(30)
    seen = 0
    for _ in range(25):
        disc, box = _cylinder(rng, 12.0), _box(rng, 12.0)
        deep = _deep(disc, box)
        if deep > 0.0:
            seen += 1
            assert room_between(disc, box) == pytest.approx(-deep, abs=4e-3)
            assert room_between(box, disc) == room_between(disc, box)
    assert seen > 10


def test_a_cylinder_beside_a_box_is_a_point_less_its_radius() -> None:
    """Seen from above the rim is everywhere its radius from the axis; the box knows nothing of it."""
    rng = np.random.default_rng(31)
    seen = 0
    for _ in range(200):
        disc, box = _cylinder(rng, 60.0), _box(rng, 20.0)
        # the axis as a box without width, as tall as the box so that only the level way counts
        level = Solid((*box.middle[:2], 0.0), (*box.half[:2], 1.0), box.yaw)
        axis = Solid((*disc.middle[:2], 0.0), (0.0, 0.0, 1.0))
        away = _apart(axis, level) - disc.half[0]
        if away > 0.01:
            seen += 1
            flat = Solid((*disc.middle[:2], 0.0), (*disc.half[:2], 1.0), is_round=True)
            assert room_between(flat, level) == pytest.approx(away, abs=1e-6)
    assert seen > 50


def test_two_cylinders() -> None:
    one = Solid((0.0, 0.0, 0.0), (3.0, 3.0, 1.0), is_round=True)
    other = Solid((6.0, 8.0, 0.0), (5.0, 5.0, 1.0), is_round=True)
    assert room_between(one, other) == pytest.approx(2.0)
    above = Solid((6.0, 8.0, 4.0), (5.0, 5.0, 1.0), is_round=True)
    assert room_between(one, above) == pytest.approx(np.hypot(2.0, 2.0))
