"""Currents and drops of supply wires on small builds, against sums done by hand and handbook
figures of copper.
"""

import pytest

from builder.compute.compute import compute
from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.power.power_path import PowerPath
from builder.pipeline.check import Checked
from tests.compute.small_workspace import one_build

SHELF = """
tail: {kind: connector, name: Pigtail,
       pads: {PLUS: {role: supply, battery: yes, polarity: plus}, MINUS: {role: ground, battery: yes, polarity: minus}}}
fc: {kind: flight-controller, name: Board, supply: {pad: IN, accepts: 7-27 V, draw: {typical: 100 mA}},
     rails: {5V: {volts: 5 V, limit: 9 A, converter: step-down, efficiency: 80 %, min_in: 6 V}},
     pads: {IN: {role: draws, battery: yes}, G: {role: ground}, 5V1: {role: supply, rail: 5V}, 5V2: {role: supply, rail: 5V}}}
load: {kind: other, name: Load, supply: {pad: P, accepts: 4-6 V, draw: {typical: 2 A, peak: 5 A for 0.5 s}},
       pads: {P: {role: draws}, Q: {role: draws, joined_to: P}, G: {role: ground}}}
pack: {kind: pack, name: Pack, chemistry: lithium-polymer, cells: 4S, capacity: 850 mAh, resistance: 5 mohm}
"""
BUILD = """title: T
parts: {tail: tail, fc: fc, load: {use: load, count: 2}}
packs: {p: pack}
wires:
  - {from: tail.PLUS, to: fc.IN, gauge: 18 AWG, length: 100 mm}
  - {from: tail.MINUS, to: fc.G, gauge: 18 AWG, length: 100 mm}
  - {from: load.1.P, to: fc.5V1, gauge: 24 AWG, length: 1 m}
  - {from: load.2.P, to: load.1.Q, gauge: 24 AWG, length: 500 mm}
"""


def _path(build: str = BUILD) -> PowerPath:
    return compute(one_build(SHELF, build)).path


def _value(figure: MaybeFigure) -> float:
    assert isinstance(figure, Figure), figure
    return figure.value


def _of(path: PowerPath, start: str) -> dict[str, float]:
    wire = next(w for w in path.wires if str(w.run.start) == start)
    return {
        "steady": _value(wire.steady),
        "short": _value(wire.short),
        "resistance": _value(wire.resistance),
        "lost": _value(wire.lost),
    }


def test_a_wire_carries_what_hangs_behind_it() -> None:
    path = _path()
    assert _of(path, "load.2.P")["steady"] == pytest.approx(2.0)
    assert _of(path, "load.1.P")["steady"] == pytest.approx(4.0)  # the second hangs on the first
    # The board takes 0.1 A, and its converter 5 V x 4 A / (0.8 x 14.8 V) = 1.689 A: power balance.
    assert _of(path, "tail.PLUS")["steady"] == pytest.approx(0.1 + 5 * 4 / (0.8 * 14.8))


def test_one_metre_of_24_awg_out_and_back() -> None:
    """84.22 Ω/km at 20 °C (ASTM B258 with IACS copper), 1.1572 times that at 60 °C, and 5 % for the
    strands.
    """
    path = _path()
    ohms = 2 * 0.08422 * 1.1572 * 1.05
    assert _of(path, "load.1.P")["resistance"] == pytest.approx(ohms, rel=2e-4)
    assert _of(path, "load.1.P")["lost"] == pytest.approx(10.0 * ohms, rel=2e-4)  # two peaks of 5 A


def test_wires_side_by_side_share_the_current() -> None:
    both = BUILD.replace(
        "  - {from: load.2.P, to: load.1.Q",
        "  - {from: load.1.Q, to: fc.5V2, gauge: 24 AWG, length: 1 m}\n  - {from: load.2.P, to:"
        " load.1.Q",
    )
    path = _path(both)
    assert _of(path, "load.1.P")["steady"] == pytest.approx(2.0)
    assert _of(path, "load.1.Q")["steady"] == pytest.approx(2.0)


def test_a_wire_that_feeds_nothing_is_left_out() -> None:
    assert [str(w.run.start) for w in _path().wires] == ["tail.PLUS", "load.1.P", "load.2.P"]


def test_corners_of_a_demo_pack(demo: Checked) -> None:
    """Landing at full throttle is the lowest, and each corner's own sum holds: rest less R times I,
    less the leads.
    """
    results = demo.sheets["dipper"].results
    corners = [c for c in results.path.corners if c.pack == "large"]
    left = {c.name: _value(c.left) for c in corners}
    assert min(left, key=lambda n: left[n]) == "at landing, full throttle"
    energy = results.flight.packs["large"].energy
    for c in corners:
        heavy = c.name.endswith("full throttle")  # where a charger's reading is too low
        ohms = _value(energy.heavy_resistance if heavy else energy.resistance)
        assert _value(c.loaded) == pytest.approx(_value(c.resting) - ohms * _value(c.current))
        assert _value(c.left) == pytest.approx(_value(c.loaded) - _value(c.lost))


RETURNS = """title: T
parts: {tail: tail, fc: fc, load: {use: load, count: 2}}
packs: {p: pack}
wires:
  - {from: tail.PLUS, to: fc.IN, gauge: 18 AWG, length: 100 mm}
  - {from: tail.MINUS, to: fc.G, gauge: 18 AWG, length: 100 mm}
  - {from: load.1.P, to: fc.5V1, gauge: 24 AWG, length: 1 m}
  - {from: load.2.P, to: fc.5V2, gauge: 24 AWG, length: 1 m}
  - {from: load.1.G, to: fc.G, gauge: 24 AWG, length: 800 mm}
  - {from: load.2.G, to: load.1.G, gauge: 26 AWG, length: 200 mm}
"""


def _back(path: PowerPath, start: str) -> tuple[float, float]:
    wire = next(w for w in path.returns if str(w.run.start) == start)
    return _value(wire.steady), _value(wire.short)


def test_a_shared_way_back_carries_the_sum() -> None:
    """Kirchhoff: what flows out by two wires flows back through the one ground that both have."""
    path = _path(RETURNS)
    assert _back(path, "load.2.G") == pytest.approx((2.0, 5.0))
    assert _back(path, "load.1.G") == pytest.approx((4.0, 10.0))
    # What the loads take from the rail returns to the board; the pack's minus carries what the
    # pack's plus does.
    assert _back(path, "tail.MINUS")[0] == pytest.approx(_of(path, "tail.PLUS")["steady"])


def test_out_and_back_are_counted_by_the_wires_that_are_there() -> None:
    """84.22 Ω/km at 20 °C (ASTM B258): 5 A through 1 m out, 10 A through 0.8 m back."""
    per_metre = 0.08422 * 1.1572 * 1.05
    path = _path(RETURNS)
    assert _of(path, "load.1.P")["resistance"] == pytest.approx(1.8 * per_metre, rel=2e-4)
    assert _of(path, "load.1.P")["lost"] == pytest.approx(
        (5.0 * 1.0 + 10.0 * 0.8) * per_metre, rel=2e-4
    )
    # The ground of the second goes another way: its own wire counts twice.
    assert _of(path, "load.2.P")["resistance"] == pytest.approx(2 * per_metre, rel=2e-4)


def test_a_ring_of_grounds_shares_the_current() -> None:
    """By hand with 84.22 and 133.9 Ω/km (ASTM B258): each load's current divides between its two
    ways round the ring. Of the two that go against each other in one wire the larger counts.
    """
    ring = RETURNS + "  - {from: load.2.G, to: fc.G, gauge: 26 AWG, length: 200 mm}\n"
    own, link = 0.8 * 84.22, 0.2 * 133.9  # load 1 to fc; load 2 to fc and to load 1 (mΩ)
    round_ = own + 2 * link
    first, second = link * 2 / round_, link / round_  # shares of both loads in the wire of load 1
    path = _path(ring)
    near = 1e-3
    assert _back(path, "load.1.G")[1] == pytest.approx(5 * (first + second), rel=near)
    assert _back(path, "load.2.G")[1] == pytest.approx(5 * (1 - first), rel=near)
    direct = path.returns[-1]
    assert (str(direct.run.start), str(direct.run.end)) == ("load.2.G", "fc.G")
    assert _value(direct.short) == pytest.approx(10 - 5 * (first + second), rel=near)
    assert _back(path, "tail.MINUS")[0] == pytest.approx(_of(path, "tail.PLUS")["steady"])
