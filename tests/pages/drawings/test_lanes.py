"""Lanes of one channel against what topology says: chords that interleave must cross, and planarity
by networkx.
"""

from itertools import combinations

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from builder.pages.drawings.lanes import LaneWire, chord_crossings, lanes
from builder.pages.drawings.layout import STEP, stacked
from builder.pages.drawings.routes import crossings

Chords = list[tuple[int, int]]
Points = list[tuple[float, float]]
WIDTH = 100.0


@st.composite
def chords_of_a_circle(draw: st.DrawFn) -> Chords:
    """Up to nine chords, no two with a common end."""
    count = draw(st.integers(1, 9))
    ends = draw(st.permutations(range(2 * count)))
    return [(min(p, q), max(p, q)) for p, q in zip(ends[::2], ends[1::2], strict=True)]


@st.composite
def channels(draw: st.DrawFn) -> list[LaneWire]:
    """Up to twelve wires with ends on either bank, at heights as the layout gives them."""
    count = draw(st.integers(1, 12))
    left = [(STEP * (i + 0.5), "left") for i in range(2 * count)]
    right = [(STEP * i, "right") for i in range(2 * count)]
    ends = draw(st.permutations([*left, *right]))[: 2 * count]
    return [LaneWire(a[0], a[1], b[0], b[1]) for a, b in zip(ends[::2], ends[1::2], strict=True)]  # type: ignore[arg-type]


def _points(wire: LaneWire, lane: int) -> Points:
    x = 1.0 + lane
    banks = {"left": 0.0, "right": WIDTH}
    return [(banks[wire.bank1], wire.y1), (x, wire.y1), (x, wire.y2), (banks[wire.bank2], wire.y2)]


def _rim(wires: list[LaneWire]) -> Chords:
    """The wires as chords: down the left bank, then up the right one."""
    ends = sorted(
        {e for w in wires for e in w.ends},
        key=lambda e: (0, e[0]) if e[1] == "left" else (1, -e[0]),
    )
    at = {e: i for i, e in enumerate(ends)}
    return [(min(at[a], at[b]), max(at[a], at[b])) for a, b in (w.ends for w in wires)]


@given(chords_of_a_circle())
def test_chords_that_interleave_are_counted(chords: Chords) -> None:
    assert chord_crossings(chords) == sum(
        a < c < b < d or c < a < d < b for (a, b), (c, d) in combinations(chords, 2)
    )


@given(chords_of_a_circle())
def test_none_cross_exactly_if_the_disc_is_planar(chords: Chords) -> None:
    """A rim whose every point is tied to one hub keeps the chords on one side; networkx judges that
    graph.
    """
    graph = nx.cycle_graph(2 * len(chords))
    graph.add_edges_from(("hub", i) for i in range(2 * len(chords)))
    graph.add_edges_from(chords)
    assert (chord_crossings(chords) == 0) == nx.check_planarity(graph)[0]


def test_chords_that_share_an_end_do_not_cross() -> None:
    assert chord_crossings([(0, 2), (0, 1), (1, 2)]) == 0


@given(channels())
def test_wires_of_a_lane_keep_apart(wires: list[LaneWire]) -> None:
    found = lanes(wires, STEP)
    for (a, i), (b, j) in combinations(zip(wires, found, strict=True), 2):
        assert i != j or a.high + STEP <= b.low or b.high + STEP <= a.low


@given(channels())
def test_crossings_against_topology(wires: list[LaneWire]) -> None:
    """Never fewer than the disc needs; and always as odd or even, for two curves with fixed ends
    keep their parity.
    """
    drawn = crossings([_points(w, lane) for w, lane in zip(wires, lanes(wires, STEP), strict=True)])
    least = chord_crossings(_rim(wires))
    assert drawn >= least
    assert (drawn - least) % 2 == 0


@given(st.lists(st.tuples(st.integers(-50, 50), st.integers(1, 20)), min_size=1, max_size=8))
def test_boards_of_a_column_do_not_overlap_and_cannot_be_moved_for_the_better(
    boards: list[tuple[int, int]],
) -> None:
    wanted, heights = [float(w) for w, _ in boards], [float(h) for _, h in boards]
    tops = stacked(wanted, heights)
    gaps = [b - a - h for a, b, h in zip(tops, tops[1:], heights, strict=False)]
    assert all(g >= -1e-9 for g in gaps)
    error = sum((t - w) ** 2 for t, w in zip(tops, wanted, strict=True))
    for first in range(len(tops)):
        for last in range(first, len(tops)):
            for by in (-0.01, 0.01):
                moved = [t + by if first <= i <= last else t for i, t in enumerate(tops)]
                fits = all(
                    b - a >= h - 1e-9 for a, b, h in zip(moved, moved[1:], heights, strict=False)
                )
                if fits:
                    assert (
                        sum((t - w) ** 2 for t, w in zip(moved, wanted, strict=True))
                        >= error - 1e-9
                    )
