"""The room before what must be reached, against corners that are turned in space by scipy.

The room is laid out in the axes of the board as it is printed, turned over about the line from nose
to tail where it lies face down, then turned clockwise. The code under test works seen from above.
"""

from math import degrees, pi

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.spatial.transform import Rotation

from builder.compute.geometry.reach import reach_rooms
from builder.compute.geometry.solids import Solid
from tests.compute.small_workspace import one_build

Array = NDArray[np.float64]
BOARD = np.array([40.0, 30.0, 8.0])  # forward, left and up, in mm
OUT = {"left": (0, 1), "right": (0, -1), "front": (1, 0), "rear": (-1, 0)}
SIGNS = np.array([[x, y, z] for x in (-1, 1) for y in (-1, 1) for z in (-1, 1)], dtype=float)


def _corners(solid: Solid) -> Array:
    flat = [(x, y, z) for x, y in solid.corners for z in (-1.0, 1.0)]
    offset = [(x, y, solid.middle[2] + z * solid.half[2]) for x, y, z in flat]
    return 1000.0 * np.array(offset)


def _expected(edge: str, side: str, along: float, room: Array) -> tuple[Array, Array]:
    """Middle and half lengths of the room in the board's own axes, in mm."""
    far, across, high = room
    ahead = np.array([*OUT[edge], 0.0])
    # left and right edges count from the top (the front), front and rear ones from the left
    counted = np.array([1.0, 0, 0]) if edge in ("left", "right") else np.array([0, 1.0, 0])
    spot = ahead * BOARD / 2 + counted * BOARD * (0.5 - along)
    if side == "edge":
        half = np.abs(ahead) * far / 2 + counted * across / 2 + np.array([0, 0, high / 2])
        return spot + ahead * far / 2, half
    up = 1.0 if side == "top" else -1.0
    middle = spot - ahead * across / 2 + np.array([0, 0, up * (BOARD[2] + far) / 2])
    return middle, np.array([across, high, far]) / 2


@pytest.mark.parametrize("side", ["edge", "top", "under"])
@pytest.mark.parametrize("edge", sorted(OUT))
@pytest.mark.parametrize("face", ["up", "down"])
def test_rooms_as_scipy_turns_them(edge: str, side: str, face: str) -> None:
    rng = np.random.default_rng(sorted(OUT).index(edge))
    for _ in range(2):
        seat, room = rng.uniform(-60.0, 60.0, 3).round(1), rng.uniform(2.0, 30.0, 3).round(1)
        yaw, along = float(rng.uniform(-pi, pi)), float(rng.uniform(0.0, 1.0))
        place = ", ".join(f"{v} mm" for v in seat)
        size, lengths = (" x ".join(map(str, v)) + " mm" for v in (BOARD, room))
        said = f"{{edge: {edge}, side: {side}, along: {100 * along} %, room: {lengths}}}"
        shelf = f"board: {{kind: camera, name: Board, size: {size}, reach: {{card: {said}}}}}\n"
        use = f"{{use: board, at: '{place}', face: {face}, yaw: {degrees(yaw)} deg}}"
        build = one_build(shelf, f"title: Test\nparts: {{board: {use}}}\n")
        (found,) = reach_rooms(build)
        assert found.solid is not None
        middle, half = _expected(edge, side, along, room)
        own = middle + SIGNS * half
        over = Rotation.from_euler("x", pi if face == "down" else 0.0)
        turned = Rotation.from_euler("z", -yaw).apply(over.apply(own)) + seat
        corners = _corners(found.solid)
        for corner in turned:
            assert np.abs(corners - corner).max(axis=1).min() < 1e-6
