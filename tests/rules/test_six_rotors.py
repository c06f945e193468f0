"""A sound build with six rotors: no fault, and what is not read yet is not judged, never guessed.

The planned demo build with six arms: two speed controllers of four channels, each with its own
harness to a board of six outputs. Common practice, no source.
"""

from math import cos, radians, sin
from pathlib import Path
from typing import Any

import pytest
import yaml

from builder.diagnostics.finding import Severity
from tests.rules.altered_demo import ROOT, Tree, case_of, verdict_of

pytestmark = pytest.mark.slow  # takes long

ARM = 190.0  # mm from the middle to a motor: neighbours stand as far apart, over 178 mm of a disc
# Clockwise from the front right, as seen from above; neighbours turn against each other.
CORNERS = (30.0, 90.0, 150.0, 210.0, 270.0, 330.0)
NAMED = ("front right", "right", "rear right", "rear left", "left", "front left")


def _shelf() -> str:
    shelf = ROOT / "builds" / "shelf"
    frame = yaml.load((shelf / "frames.yaml").read_text("utf-8"), yaml.BaseLoader)["frame-curlew"]
    boards = yaml.load((shelf / "boards.yaml").read_text("utf-8"), yaml.BaseLoader)
    frame |= {
        "name": "Frame with six arms",
        "wheelbase": "380 mm",
        "size": "420 x 380 x 45 mm",
        "motors": {
            str(i + 1): f"{ARM * cos(radians(a)):.1f} mm, {-ARM * sin(radians(a)):.1f} mm, 7 mm"
            for i, a in enumerate(CORNERS)
        },
    }
    board = boards["fc-osier"]
    for n in (5, 6):
        board["pads"][f"D{n}"] = {"role": "drive-out", "channel": str(n), "level": "3.3 V"}
    board["pads"]["GND6"] = {"role": "ground"}
    board["edges"]["rear"] += ["D5", "D6", "GND6"]
    esc = boards["esc-lockgate"]
    del esc["channel_corners"]  # made for four corners; with six arms the channels lie elsewhere
    return yaml.safe_dump({"frame-six": frame, "fc-six": board, "esc-six": esc})


def _fed_and_driven() -> list[Tree]:
    """The second speed controller: battery, ground, two lines, six phases."""
    thick = {"gauge": "12 AWG", "length": "135 mm"}
    thin = {"gauge": "28 AWG", "length": "70 mm"}
    ends: list[tuple[str, str, dict[str, str]]] = [
        ("pigtail.PLUS", "second.BAT+", {"colour": "red", **thick}),
        ("pigtail.MINUS", "second.BAT-", {"colour": "black", **thick}),
        ("second.JGND", "controller.GND6", {"colour": "black", **thin}),
        ("second.S1", "controller.D5", {"colour": "white", **thin}),
        ("second.S2", "controller.D6", {"colour": "yellow", **thin}),
    ]
    lead = {"lead": "fitted", "trim_to": "185 mm"}
    phases = [(5, 1), (6, 2)]
    ends += [(f"motor.{m}.{x}", f"second.M{c}{x}", lead) for m, c in phases for x in "ABC"]
    return [{"from": a, "to": b, **more} for a, b, more in ends]


def _six(tree: Tree) -> None:
    parts = tree["parts"]
    parts["frame"]["use"] = "frame-six"
    parts["video-antenna"]["at"] = "-120 mm, 0 mm, 50 mm"  # clear of the rear discs
    parts["controller"]["use"] = "fc-six"
    parts["esc"]["use"] = "esc-six"
    parts["second"] = {"use": "esc-six", "at": "0 mm, 0 mm, 15 mm", "face": "up", "yaw": "0 deg"}
    for key in ("motor", "propeller", "propeller-nut"):
        parts[key]["count"] = "6"
    parts["motor-screw"]["count"] = "24"
    for pack in tree["packs"].values():
        pack["parallel"] = (
            "2"  # half as many motors again, and a punch that one of them cannot give
        )
    tree["wires"] += _fed_and_driven()
    tree["screws"][0].update(place="motors 1 to 6", count="24")
    corners = {str(i + 1): word for i, word in enumerate(NAMED)}
    turns = {str(i): "clockwise" if i % 2 else "counter-clockwise" for i in range(1, 7)}
    tree["setup"]["rotation"] = {"corners": corners, "turns": turns}


def test_a_sound_build_with_six_rotors_has_no_fault(tmp_path: Path) -> None:
    case = case_of(tmp_path, "curlew", _six, _shelf())
    assert case.results.flight.drive.rotors == 6
    verdict = verdict_of(case)
    faults = [f"{f.code}: {f.message}" for f in verdict.faults if f.severity == Severity.FAULT]
    assert faults == []


def _crossed(tree: Tree) -> None:
    _six(tree)
    for line in tree["wires"]:
        if line["from"] == "motor.6.C":
            line["to"] = "second.M1C"


def _sides_alike(tree: Tree) -> None:
    _six(tree)
    turns = {str(i): "clockwise" if i <= 3 else "counter-clockwise" for i in range(1, 7)}
    tree["setup"]["rotation"]["turns"] = turns


@pytest.mark.parametrize(
    ("change", "code"),
    [(_crossed, "wiring/phases-wrong"), (_sides_alike, "setup/turns-do-not-balance")],
)
def test_a_fault_of_six_rotors_is_found_all_the_same(
    tmp_path: Path, change: Any, code: str
) -> None:
    verdict = verdict_of(case_of(tmp_path, "curlew", change, _shelf()))
    assert code in {f.code for f in verdict.findings}
