"""First power-up: limits, ring times, volts and readings against sums done by hand on small builds.

Limit: 1.5 times the starting loads of the gate plus 0.1 A, at least 0.3 A. Ring: R·C with a meter of 1 kΩ. Both are
common practice, no source.
"""

import pytest

from builder.compute.compute import compute
from builder.compute.figure import Figure
from builder.compute.power_gates import Gate
from builder.compute.work_order import Cycle
from builder.pipeline.check import Checked
from tests.compute.small_workspace import one_build

SHELF = """
esc: {kind: speed-controller, name: Speed controller, cells: 3-6S, supply: {pad: B+, accepts: 9-27 V, draw: {start: 60 mA}},
      pads: {B+: {role: draws, battery: yes, polarity: plus}, B-: {role: ground, battery: yes, polarity: minus}}}
fc: {kind: flight-controller, name: Board, supply: {pad: IN, accepts: 7-27 V, draw: {typical: 100 mA, start: 340 mA}},
     rails: {5V: {volts: 5 V, tolerance: 4 %, limit: 2 A, converter: step-down, min_in: 6 V}},
     edges: {left: [G, 5V1, VIDEO, G2]},
     pads: {IN: {role: draws, battery: yes}, G: {role: ground}, 5V1: {role: supply, rail: 5V},
            VIDEO: {role: video-in, resistance: 75 ohm}, G2: {role: ground}}}
rx: {kind: receiver, name: Receiver, supply: {pad: P, accepts: 4.5-6 V, draw: {typical: 148 mA}},
     pads: {P: {role: draws}, G: {role: ground}}}
cap: {kind: capacitor, name: Capacitor, capacitance: 470 uF, volts: 35 V,
      pads: {+: {role: draws, battery: yes, polarity: plus}, -: {role: ground, battery: yes, polarity: minus}}}
tail: {kind: connector, name: Pigtail,
       pads: {PLUS: {role: supply, battery: yes, polarity: plus}, MINUS: {role: ground, battery: yes, polarity: minus}}}
pack: {kind: pack, name: Pack, chemistry: lithium-polymer, cells: 4S, capacity: 850 mAh}
"""
BUILD = """title: T
parts: {esc: esc, fc: fc, rx: rx, cap: {use: cap, count: 2}, tail: tail}
packs: {p: pack}
wires:
  - {from: tail.PLUS, to: esc.B+}
  - {from: tail.MINUS, to: esc.B-}
  - {from: fc.IN, to: esc.B+}
  - {from: fc.G, to: esc.B-}
  - {from: rx.P, to: fc.5V1}
  - {from: rx.G, to: fc.G}
  - {from: cap.1.+, to: esc.B+}
  - {from: cap.1.-, to: esc.B-}
  - {from: cap.2.+, to: esc.B+}
  - {from: cap.2.-, to: esc.B-}
"""


def _gates() -> tuple[Gate, ...]:
    return compute(one_build(SHELF, BUILD)).gates


def _limits() -> list[float]:
    return [g.limit.value for g in _gates() if isinstance(g.limit, Figure)]


def test_one_gate_for_the_speed_controller_one_for_the_board_one_a_load() -> None:
    assert [g.parts for g in _gates()] == [("esc",), ("fc",), ("rx",)]
    assert [g.letter for g in _gates()] == ["A", "B", "C"]


def test_limits_by_hand() -> None:
    # A: 1.5 x 0.06 + 0.1 = 0.19, so the least, 0.3. B: 1.5 x (0.06 + 0.34) + 0.1 = 0.7.
    # C: the receiver starts with twice 0.148 A at 5 V, 0.1 A at 14.8 V: 1.5 x 0.5 + 0.1 = 0.85.
    assert _limits() == pytest.approx([0.3, 0.7, 0.85])


def test_the_meter_rings_for_r_times_c() -> None:
    first = _gates()[0].readings[0]
    assert first.between == ("esc.B+", "esc.B-")
    assert "about 0.9 s" in first.expect  # 1 kΩ x 2 x 470 µF = 0.94 s


def test_grounds_ring_and_rails_do_not() -> None:
    said = {r.between: r.expect for r in _gates()[1].readings}
    assert said["fc.G", "esc.B-"].startswith("rings")
    assert said["fc.5V1", "fc.G"].startswith("no ring")


def test_neighbours_that_read_low_by_nature_are_named() -> None:
    edge = next(r for r in _gates()[1].readings if "left edge" in r.between[0])
    assert edge.between[1] == "G 5V1 VIDEO G2"
    assert "VIDEO to G2 about 75 Ω" in edge.why


def test_volts_with_their_range() -> None:
    board = next(v for v in _gates()[1].volts if v.contact == "fc.5V1")
    assert (board.low, board.nominal, board.high) == pytest.approx((4.8, 5.0, 5.2))
    assert _gates()[1].supply_low == pytest.approx(14.8)  # four cells of 3.7 V


def test_phases_of_one_channel_are_said_to_read_low(demo: Checked) -> None:
    gate = demo.sheets["dipper"].results.gates[0]
    assert any("one channel, under an ohm" in r.why for r in gate.readings)


def test_a_video_transmitter_shortens_the_time_without_air(demo: Checked) -> None:
    gates = demo.sheets["curlew"].results.gates
    assert gates[0].dwell == 60.0  # site.yaml
    assert "video" in gates[-1].parts
    assert gates[-1].dwell == 30.0  # air_after of the digital unit


def test_every_gate_has_its_place_in_the_order_of_work(demo: Checked) -> None:
    """A gate without one would come when the loads of later gates are on too, and trip for no fault."""
    for sheet in demo.sheets.values():
        plan = sheet.results.order
        assert not isinstance(plan, Cycle)
        assert [s.gate for s in plan.steps if s.gate] == [g.letter for g in sheet.results.gates]
