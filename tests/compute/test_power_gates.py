"""First power-up: limits, currents, beeps, volts and readings against sums done by hand on small
builds.

Limit: 1.5 times the starting loads of the gate plus 0.1 A, at least 0.3 A. Beep: while the
capacitor looks like less than 20 to 50 Ω to a meter of 1 kΩ. All of these are common practice, no
source.
"""

import math
import re

import pytest

from builder.compute.compute import compute
from builder.compute.figures.figure import Figure, Unknown
from builder.compute.order.work_order import Cycle
from builder.compute.power_up.gate import Gate
from builder.compute.power_up.gate_power import bleeder
from builder.pages.work.reading_words import expected_words, reason_words
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
    assert [g.parts for g in _gates()] == [("esc",), ("fc",), ("rx",), ()]
    assert [g.letter for g in _gates()] == ["A", "B", "C", "D"]
    assert [g.closing for g in _gates()] == [False, False, False, True]


def test_limits_by_hand() -> None:
    # A: 1.5 x 0.06 + 0.1 = 0.19, so the least, 0.3. B: 1.5 x (0.06 + 0.34) + 0.1 = 0.7.
    # C and D: the receiver starts with twice 0.148 A at 5 V, which at 14.8 V and 88 % (usual,
    # step-down) is 0.296 x 5 / (0.88 x 14.8) = 0.11364 A: 1.5 x 0.51364 + 0.1 = 0.87045.
    assert _limits() == pytest.approx([0.3, 0.7, 0.87045, 0.87045], abs=1e-5)


def _beeps(farads: float, below: float, source: float = 1000.0, volts: float = 3.0) -> float:
    """Seconds for which a meter beeps, step by step: the capacitor's volts over the current through
    it.
    """
    held, time, step = 0.0, 0.0, 1e-6
    while held < below * (volts - held) / source:
        held += (volts - held) / source / farads * step
        time += step
    return time


def test_the_meter_beeps_while_the_capacitor_looks_like_a_short() -> None:
    first = _gates()[0].readings[0]
    assert first.between == ("esc.B+", "esc.B-")
    low, high = (1000 * _beeps(2 * 470e-6, ohms) for ohms in (20.0, 50.0))
    assert first.beep is not None
    assert (first.beep.low, first.beep.high) == pytest.approx((low / 1000, high / 1000), rel=1e-2)
    said = expected_words(first)
    assert f"{low:.0f} to {high:.0f} ms" in said
    assert "then rises" in said
    assert "then open" not in said
    assert "Longer than 0.2 s is a fault." in reason_words(first)


@pytest.mark.parametrize(
    "name", ["dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone"]
)
def test_no_beep_of_the_demo_lasts_long_enough_to_be_waited_for(demo: Checked, name: str) -> None:
    """470 to 1000 µF: 10 to 50 ms with thresholds of some tens of ohms. Half a second is a fault."""
    for gate in demo.sheets[name].results.gates:
        for reading in gate.readings:
            times = re.search(r"(\d+) to (\d+) ms", expected_words(reading))
            assert times is None or (int(times[1]) >= 9 and int(times[2]) <= 50)
            assert not re.search(r"\d s\b", expected_words(reading))


def test_a_capacitor_of_unknown_capacitance_says_so() -> None:
    shelf = SHELF.replace("capacitance: 470 uF, ", "")
    gate = compute(one_build(shelf, BUILD)).gates[0]
    assert "not known" in gate.readings[0].why
    assert not re.search(r"\d", gate.readings[0].expect)
    assert isinstance(gate.discharge.time, Unknown)


def test_a_build_without_a_capacitor_beeps_not_at_all(demo: Checked) -> None:
    assert demo.sheets["pipit"].results.gates[0].readings[0].expect == "no beep; rises"


def test_grounds_beep_and_rails_do_not() -> None:
    said = {r.between: r.expect for r in _gates()[1].readings}
    assert said["fc.G", "esc.B-"].startswith("beeps")
    assert said["fc.5V1", "fc.G"].startswith("no beep")


def test_the_current_to_expect_by_hand() -> None:
    """A: nobody says what the controller takes once it runs, so no gate has a band. With it: sums
    at 14.8 V.
    """
    assert [g.power.low for g in _gates()] == [None] * 4
    assert _gates()[0].power.unknown == ("esc",)
    shelf = SHELF.replace("{start: 60 mA}", "{idle: 30 mA, typical: 40 mA, start: 60 mA}")
    a, b, c, d = compute(one_build(shelf, BUILD)).gates
    # less and more by 20 %; the receiver's 0.148 A at 5 V are 0.05682 A at 14.8 V and 88 %
    bands = [(0.024, 0.048), (0.104, 0.168), (0.14946, 0.23618), (0.14946, 0.23618)]
    for gate, (low, high) in zip((a, b, c, d), bands, strict=True):
        assert gate.power.low is not None
        assert gate.power.high is not None
        assert (gate.power.low.value, gate.power.high.value) == pytest.approx((low, high), abs=1e-5)
        assert gate.power.unknown == ()


def test_a_linear_regulator_passes_its_current_on() -> None:
    shelf = SHELF.replace("converter: step-down", "converter: linear")
    gate = compute(one_build(shelf, BUILD)).gates[2]
    assert gate.starting.value == pytest.approx(0.06 + 0.34 + 0.296)


def test_a_limiter_carries_the_start_and_trips_at_the_limit() -> None:
    assert [g.power.limiter for g in _gates()[:2]] == [
        pytest.approx((0.06, 0.3)),
        pytest.approx((0.4, 0.7)),
    ]
    silent = SHELF.replace("draw: {typical: 148 mA}", "")
    gates = compute(one_build(silent, BUILD)).gates
    assert gates[1].power.limiter is not None
    assert gates[2].power.limiter is None  # nobody says what the receiver takes
    assert gates[2].power.unknown == ("esc", "rx")


def test_the_resistor_empties_the_capacitors_and_stays_within_its_watts() -> None:
    """RC ln(V / 1 V) with all capacitors in parallel and full batteries; V² / R is at most 2 W."""
    found = _gates()[0].discharge
    assert isinstance(found.time, Figure)
    assert found.ohms == 1000.0
    assert found.time.value == pytest.approx(1000.0 * 2 * 470e-6 * math.log(4 * 4.2))
    held, time = 16.8, 0.0
    while held > 1.0:  # step by step
        held -= held / (1000.0 * 2 * 470e-6) * 1e-4
        time += 1e-4
    assert found.time.value == pytest.approx(time, rel=1e-3)
    for volts in (4.2, 25.2, 44.0, 50.4, 58.8):
        assert volts**2 / bleeder(volts) <= 2.0


def test_a_capacitor_on_a_rail_is_not_on_the_battery() -> None:
    build = BUILD.replace("{from: cap.2.+, to: esc.B+}", "{from: cap.2.+, to: fc.5V1}")
    found = compute(one_build(SHELF, build)).gates[0].discharge
    assert found.farads == pytest.approx(470e-6)


SOCKETS = SHELF.replace(
    "edges: {left: [G, 5V1, VIDEO, G2]},",
    "edges: {left: [G, 5V1, VIDEO, G2]}, sockets: {J: {pitch: 1 mm, contacts: [HG, IN]}},",
).replace(
    "pads: {IN: {role: draws, battery: yes}, G:",
    "pads: {IN: {role: draws, battery: yes}, HG: {role: ground}, G:",
)
SOCKETS = SOCKETS.replace(
    "supply: {pad: B+,", "sockets: {J: {pitch: 1 mm, contacts: [JG, JB]}}, supply: {pad: B+,"
)
SOCKETS = SOCKETS.replace(
    "pads: {B+: {role: draws, battery: yes, polarity: plus}, B-: {role: ground, battery: yes,"
    " polarity: minus}}}\nfc",
    "pads: {B+: {role: draws, battery: yes, polarity: plus, gap: 2 mm}, B-: {role: ground, battery:"
    " yes, polarity: minus}, JG: {role: ground, joined_to: B-}, JB: {role: supply, battery: yes,"
    " joined_to: B+}}}\nfc",
)
PLUGGED = (
    BUILD.replace("  - {from: fc.IN, to: esc.B+}\n", "")
    + "plugs:\n  - {from: esc.J, to: fc.J, cable: straight}\n"
)


def test_what_is_inside_a_plugged_socket_is_read_at_an_open_pad() -> None:
    gate = compute(one_build(SOCKETS, PLUGGED)).gates[1]
    assert gate.readings[0].between == ("esc.B+", "esc.B-")
    assert "fc.IN is inside a plugged socket" in gate.readings[0].why
    battery = gate.volts[0]
    assert (battery.contact, battery.instead_of, battery.reach) == ("esc.B+", ("fc.IN",), "open")


def test_where_no_pad_is_open_none_is_made_up() -> None:
    shelf = SOCKETS.replace(
        "5V1: {role: supply, rail: 5V}", "5V1: {role: supply, rail: 5V, pitch: 0.8 mm}"
    )
    rail = next(v for v in compute(one_build(shelf, PLUGGED)).gates[1].volts if v.nominal == 5.0)
    assert (rail.contact, rail.reach) == ("fc.5V1", "none")


@pytest.mark.parametrize(
    "name", ["dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone"]
)
def test_no_probe_of_the_demo_goes_into_a_socket_or_by_hand_into_a_narrow_row(
    demo: Checked, name: str
) -> None:
    sheet = demo.sheets[name]
    for gate in sheet.results.gates:
        for v in gate.volts:
            part = sheet.build.parts[v.contact.split(".")[0]].part
            pad = v.contact.split(".")[-1]
            assert not any(pad in s.contacts for s in part.sockets.values())
            gap = part.pads[pad].gap
            assert v.reach == "clamp" or (gap is not None and gap.value >= 1e-3), v.contact


def test_neighbours_that_read_low_by_nature_are_named() -> None:
    edge = next(r for r in _gates()[1].readings if "left edge" in r.between[0])
    assert edge.between[1] == "G 5V1 VIDEO G2"
    assert ("VIDEO to G2", 75.0) in edge.normal
    assert "normal: VIDEO to G2 about 75 Ω" in reason_words(edge)


def test_volts_with_their_range() -> None:
    board = next(v for v in _gates()[1].volts if v.contact == "fc.5V1")
    assert (board.low, board.nominal, board.high) == pytest.approx((4.8, 5.0, 5.2))
    assert _gates()[1].supply_low == pytest.approx(14.8)  # four cells of 3.7 V


def test_phases_of_one_channel_are_said_to_read_low(demo: Checked) -> None:
    gate = demo.sheets["dipper"].results.gates[0]
    low = "under 1 Ω between the three contacts of a channel"
    assert any(low in reason_words(r) for r in gate.readings)


def test_a_video_transmitter_shortens_the_time_without_air(demo: Checked) -> None:
    gates = demo.sheets["curlew"].results.gates
    assert gates[0].dwell == 60.0  # site.yaml
    assert "video" in gates[2].parts
    assert [g.dwell for g in gates[2:]] == [30.0, 30.0]  # air_after of the digital unit


def test_every_gate_has_its_place_in_the_order_of_work(demo: Checked) -> None:
    """A gate without one would come when the loads of later gates are on too, and trip for no
    fault.
    """
    for sheet in demo.sheets.values():
        plan = sheet.results.order
        assert not isinstance(plan, Cycle)
        assert [s.gate for s in plan.steps if s.gate] == [g.letter for g in sheet.results.gates]


def test_a_camera_on_its_ribbon_is_told_where_it_gets_power_first(demo: Checked) -> None:
    """It has no wire, so no pad of it is a load; its video unit feeds it."""
    gates = demo.sheets["curlew"].results.gates
    assert [g.letter for g in gates if "camera by its ribbon" in g.connected] == ["C"]
    wired = (g.connected for g in demo.sheets["redshank"].results.gates)
    assert not any("ribbon" in words for words in wired)
