"""Unusual but right: nothing is said of these builds by the rules of wiring, power, fit and packs.

Each is a demo build with the change that a builder might well make. Common practice, no source.
"""

from pathlib import Path

import pytest

from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.rules.rule import Case
from tests.compute.small_workspace import one_build
from tests.rules.altered_demo import Tree, case_of, said, verdict_of, wire

pytestmark = pytest.mark.slow  # takes long

FAMILIES = ("wiring", "power", "fit", "pack", "bench")
REGULATOR = """
regulator:
  kind: other
  name: Small regulator
  mass: {measured: 1.0 g}
  price: {each: 3.00 EUR, seen: 2026-09-01}
  supply: {pad: IN, accepts: 6-26 V, draw: {typical: 5 mA}}
  rails: {5V: {volts: 5 V, tolerance: 2 %, limit: 1 A, converter: step-down, efficiency: 85 %, min_in: 6 V, on_usb: no}}
  pads: {IN: {role: draws}, GND: {role: ground, takes: 3}, OUT: {role: supply, rail: 5V}}
balance-lead:
  kind: connector
  name: Balance lead, aircraft half
  mass: {measured: 0.5 g}
  price: {each: 1.00 EUR, seen: 2026-09-01}
  type: balance 5 way
  gender: plug
  continuous: 3 A
  pads:
    B4: {role: supply, battery: yes, polarity: plus}
    B0: {role: ground, battery: yes, polarity: minus}
"""


def _video_from_the_pack(tree: Tree) -> None:
    wire(tree, "video.VIN", "controller.9V1")["to"] = "esc.BAT+"
    second = {
        "from": "video.GND",
        "to": "esc.BAT-",
        "colour": "black",
        "gauge": "26 AWG",
        "length": "60 mm",
    }
    tree["wires"].append(second)


def _two_capacitors(tree: Tree) -> None:
    tree["parts"]["capacitor"]["count"] = "2"
    legs = [w for w in tree["wires"] if w["from"].startswith("capacitor.")]
    for leg in legs:
        tree["wires"].remove(leg)
        pad = leg["from"].split(".")[1]
        tree["wires"] += [{**leg, "from": f"capacitor.{n}.{pad}"} for n in (1, 2)]
    del tree["weighed"]


def _camera_on_its_own_regulator(tree: Tree) -> None:
    tree["parts"]["regulator"] = {"use": "regulator"}
    tree["parts"]["balance"] = {"use": "balance-lead"}
    wire(tree, "camera.5V", "controller.5V2")["to"] = "regulator.OUT"
    for start, end, colour in (
        ("regulator.IN", "balance.B4", "red"),
        ("regulator.GND", "balance.B0", "black"),
        ("camera.GND", "regulator.GND", "black"),
    ):
        tree["wires"].append(
            {"from": start, "to": end, "colour": colour, "gauge": "28 AWG", "length": "60 mm"}
        )
    del tree["weighed"]


def _two_packs_side_by_side(tree: Tree) -> None:
    tree["packs"]["bank"]["parallel"] = "2"
    del tree["packs"]["old"], tree["weighed"], tree["flights"], tree["accept"]


def _as_it_is(tree: Tree) -> None:
    tree["setup"]["style"] = {"factor": "0.83"}


@pytest.mark.parametrize(
    ("build", "change"),
    [
        pytest.param(
            "dipper",
            _video_from_the_pack,
            id="video unit straight from the pack, a second ground at the board",
        ),
        pytest.param("dipper", _two_capacitors, id="two capacitors in parallel"),
        pytest.param(
            "dipper",
            _camera_on_its_own_regulator,
            id="a camera on its own regulator from the balance lead",
        ),
        pytest.param("redshank", _two_packs_side_by_side, id="two equal packs in parallel"),
        pytest.param("curlew", _as_it_is, id="six lithium-ion cells that cruise at 6 A"),
    ],
)
def test_nothing_is_said(tmp_path: Path, build: str, change: object) -> None:
    assert callable(change)
    assert said(verdict_of(case_of(tmp_path, build, change, REGULATOR)), *FAMILIES) == []


def test_the_lithium_ion_build_does_cruise_at_six_amperes(tmp_path: Path) -> None:
    flown = case_of(tmp_path, "curlew", _as_it_is).results.flight.packs["long"].styled_current
    assert isinstance(flown, Figure)
    assert flown.value == pytest.approx(6.0, abs=0.3)


def test_one_cell_step_up_rail_plugged_motors_and_no_capacitor(tmp_path: Path) -> None:
    def change(tree: Tree) -> None:
        del tree["weighed"], tree["flights"]
        tree["packs"] = {"one": {"use": "pack-1s", "at": "0 mm, 0 mm, -4 mm"}}
        tree["parts"]["board"]["use"] = "board-1s"
        tree["setup"]["overlay"] = []

    boards = (Path(__file__).resolve().parents[2] / "builds" / "shelf" / "boards.yaml").read_text(
        "utf-8"
    )
    one = (
        boards[boards.index("aio-reedling:") : boards.index("\nesc-quay:")]
        .replace("aio-reedling:", "board-1s:")
        .replace("cells: 1-2S", "cells: 1S")
    )
    one = one.replace("converter: step-down", "converter: step-up").replace(
        "min_in: 5.6 V", "min_in: 2.5 V"
    )
    pack = """
pack-1s:
  kind: pack
  name: One cell, 450
  mass: {measured: 12 g}
  price: {each: 6.00 EUR, seen: 2026-09-01}
  chemistry: lithium-polymer
  cells: 1S
  capacity: 450 mAh
  resistance: {measured: 12 mohm}
  discharge: 60C
  charge: 2C
  size: 60 x 18 x 7 mm
  connector: {type: two-pin 15 A, gender: socket, continuous: 15 A}
"""
    case = case_of(tmp_path, "pipit", change, one + pack)
    assert case.results.power.packs[0].full == pytest.approx(4.2)
    found = said(verdict_of(case), *FAMILIES)
    # Motors for two cells lift little on one, which is true and no matter of the rail.
    assert [line for line in found if not line.startswith("power/thrust-scant")] == []


def test_a_coaxial_eight_fits() -> None:
    """Two rotors on one axis do not overlap, and eight propellers out of sets of 2+2 are four of
    each hand.
    """
    corners = ["0.1, 0.1", "0.1, -0.1", "-0.1, -0.1", "-0.1, 0.1"]
    places = [", ".join(f"{1000 * float(c):g} mm" for c in corner.split(",")) for corner in corners]
    motors = {
        i + 1: f"{place}, {z} mm"
        for i, (z, place) in enumerate((z, p) for z in (30, -10) for p in places)
    }
    listed = ", ".join(f"{n}: '{at}'" for n, at in motors.items())
    shelf = f"""
frame: {{kind: frame, name: Frame, disc_max: 150 mm, motors_per_arm: 2, motor_pattern: 16 mm M3, motors: {{{listed}}}}}
motor: {{kind: motor, name: Motor, mount: shaft nut, shaft: 5 mm, pattern: 16 mm M3}}
prop: {{kind: propeller, name: Propeller, diameter: 140 mm, mount: shaft nut, bore: 5 mm, hands: 2+2, nut: M5}}
"""
    build = one_build(
        shelf,
        "title: Eight\nparts: {frame: frame, motor: {use: motor, count: 8}, prop: {use: prop,"
        " count: 8}}",
    )
    assert said(verdict_of(Case(build, compute(build))), "fit") == []
