"""What is fitted draws, wired or not: a first sheet without wires promises no longer a flight.

Draws of single parts: from memory, parts of this size; no source.
"""

import pytest

from builder.compute.compute import compute
from builder.compute.figures.at_least import reading_of
from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.flight.flight import PackFlight
from tests.compute.small_workspace import one_build

SHELF = """
frame: {kind: frame, name: Frame, mass: {measured: 150 g}}
motor: {kind: motor, name: Motor, mass: {measured: 10 g}}
prop: {kind: propeller, name: Propeller, diameter: 3.5 in, mass: {measured: 1 g}}
pack: {kind: pack, name: Pack, cells: 4S, capacity: 850 mAh, mass: {measured: 90 g}, resistance: 6 mohm}
board:
  kind: flight-controller
  name: Board
  mass: {measured: 8 g}
  supply: {pad: VIN, accepts: 7-26 V, draw: 40 mA}
  rails: {5V: {volts: 5 V, limit: 2 A, converter: step-down, efficiency: 85 %%}}
  pads: {VIN: {role: draws, battery: yes}, GND: {role: ground}, 5V: {role: supply, rail: 5V}}
tail:
  kind: connector
  name: Tail
  mass: {measured: 2 g}
  pads: {P: {role: supply, polarity: plus}, M: {role: ground, polarity: minus}}
camera: {kind: camera, name: Camera, mass: {measured: 5 g}, pads: {G: {role: ground}, V: {role: draws}}%s}
video: {kind: video-transmitter, name: Video, mass: {measured: 5 g}}
receiver: {kind: receiver, name: Receiver, mass: {measured: 1 g}}
buzzer: {kind: buzzer, name: Buzzer, mass: {measured: 1 g}, supply: {accepts: 5 V, draw: 900 mA}}
weight: {kind: other, name: Weight of a buzzer, mass: {measured: 1 g}}
"""
PARTS = """title: T
parts: {frame: frame, motor: {use: motor, count: 4}, prop: {use: prop, count: 4}, tail: tail, board: board%s}
packs: {pack: pack}
wires:
  - {from: tail.P, to: board.VIN, gauge: 18 AWG, length: 50 mm}
  - {from: tail.M, to: board.GND, gauge: 18 AWG, length: 50 mm}
%s"""
WIRED = """  - {from: board.5V, to: camera.V, gauge: 28 AWG, length: 50 mm}
  - {from: board.GND, to: camera.G, gauge: 28 AWG, length: 50 mm}
"""
TAKES = ", supply: {pad: V, accepts: 5 V, draw: 400 mA}"


def flown(part: str = "", wires: str = "", camera: str = TAKES) -> tuple[PackFlight, MaybeFigure]:
    fitted = f", {part}: {part}" if part else ""
    found = compute(one_build(SHELF % camera, PARTS % (fitted, wires)))
    return found.flight.packs["pack"], found.power.standing


def figure(made: MaybeFigure) -> Figure:
    assert isinstance(made, Figure), made
    return made


def test_a_camera_draws_the_same_wired_or_not() -> None:
    """400 mA at 5 V are 2 W, 2 / 0.85 W from the battery; its wires weigh under half a gram."""
    bare = figure(flown()[1]).value
    (unwired, before), (wired, after) = flown("camera"), flown("camera", WIRED)
    for standing in (before, after):
        assert figure(standing).value - bare == pytest.approx(2 / 0.85, abs=0.02)
    times = [figure(f.endurance_styled).value for f in (unwired, wired)]
    assert times[0] == pytest.approx(times[1], rel=0.01)


@pytest.mark.parametrize("wires", ["", WIRED])
def test_a_draw_that_nobody_says_is_taken_as_usual_with_a_wide_band(wires: str) -> None:
    """Under half a watt to two of a camera: inside the band of the time, so no word 'at most'."""
    bare = figure(flown()[1])
    found, standing = flown("camera", wires, camera="")
    more = figure(standing).value - bare.value
    assert 0.4 < more < 2.0
    assert figure(standing).spread > 0.4 * more
    time = figure(found.endurance_styled)
    assert reading_of(time) == "" and time.lacks == ()
    low, high = time.band(0.8)
    share = more / figure(found.styled_power).value
    assert share * time.value < (high - low) / 2, "what is not known is less than the band"


@pytest.mark.parametrize("part", ["camera", "video", "receiver"])
def test_what_is_fitted_without_wires_shortens_the_flight_beyond_its_weight(part: str) -> None:
    found, standing = flown(part)
    bare, before = flown()
    assert figure(standing).value > figure(before).value + 0.3
    heavier = figure(found.mass).value / figure(bare.mass).value
    by_weight = figure(bare.endurance_styled).value / heavier**1.5
    assert figure(found.endurance_styled).value < by_weight


def test_a_buzzer_does_not_sound_all_flight() -> None:
    """It weighs what anything of its weight does, and draws nothing in flight."""
    sounding, weighing = flown("buzzer"), flown("weight")
    assert figure(sounding[1]).value == pytest.approx(figure(weighing[1]).value, rel=1e-9)
    times = [figure(f.endurance_styled).value for f, _ in (sounding, weighing)]
    assert times[0] == pytest.approx(times[1], rel=1e-9)
