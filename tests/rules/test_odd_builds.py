"""Odd but sound: whole builds of another shape than the demo has. None of them has a fault; what is
not read yet is not judged, never guessed. Common practice, no source. Others: test_sound_builds.py,
test_unusual_wiring.py, test_unusual_power.py, test_six_rotors.py.
"""

from collections.abc import Callable
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
import yaml

from builder.diagnostics.finding import Severity
from tests.rules.altered_demo import ROOT, Tree, case_of, verdict_of, wire

pytestmark = pytest.mark.slow  # takes long


def _shelf(file: str, name: str) -> Tree:
    text = (ROOT / "builds" / "shelf" / file).read_text("utf-8")
    entry: Tree = deepcopy(yaml.load(text, yaml.CBaseLoader)[name])
    return entry


def _line(start: str, end: str, colour: str, **more: str) -> Tree:
    usual = {"gauge": "28 AWG", "length": "90 mm"}
    return {"from": start, "to": end, "colour": colour, **usual, **more}


def _without(tree: Tree, *keys: str) -> None:
    """Parts taken out, with their wires."""
    for key in keys:
        tree["parts"].pop(key, None)
    ends = tuple(f"{key}." for key in keys)
    tree["wires"] = [w for w in tree["wires"] if not w["from"].startswith(ends)]
    tree.pop("weighed", None)


def _no_video(tree: Tree) -> None:
    _without(tree, "camera", "wedge", "video", "video-antenna", "video-sleeve", "goggles")
    _without(tree, "camera-screw")
    tree["screws"] = [s for s in tree["screws"] if s["place"] != "camera"]
    tree["steps"] = [s for s in tree["steps"] if s["id"] != "wedge"]
    setup = tree["setup"]
    setup["serial"] = [s for s in setup["serial"] if s["serves"] != "video"]
    del setup["channel"], setup["overlay"]


def _two_cameras(tree: Tree) -> None:
    """The second one looks down, on an input of its own."""
    tree["parts"]["controller"]["use"] = "fc-two"
    tree["parts"]["second"] = {"use": "cam-weir", "at": "40 mm, 0 mm, -8 mm"}
    tree["wires"] += [
        _line("second.GND", "controller.GND4", "black"),
        _line("second.5V", "controller.5V3", "red"),
        _line("second.VID", "controller.VID-2", "yellow"),
    ]
    tree.pop("weighed")


def _two_inputs() -> Tree:
    board = _shelf("boards.yaml", "fc-hex")
    board["pads"]["VID-2"] = {"role": "video-in"}
    board["edges"]["rear"].append("VID-2")
    return {"fc-two": board}


def _two_receivers(tree: Tree) -> None:
    tree["parts"]["spare"] = {"use": "rx-moorhen", "at": "28 mm, -13 mm, 8 mm"}
    tree["parts"]["rx-antenna"]["count"] = "2"
    tree["wires"] += [
        _line("spare.GND", "controller.GND4", "black"),
        _line("spare.5V", "controller.5V3", "red"),
        _line("spare.TX", "controller.RX4", "white"),
        _line("spare.RX", "controller.TX4", "blue"),
    ]
    tree["setup"]["serial"].append({"port": "4", "serves": "spare", "speaks": "plain frames"})
    tree.pop("weighed")


def _pushes(tree: Tree) -> None:
    """Motors hang below the arms."""
    tree["parts"]["motor"]["face"] = "down"
    tree["parts"]["frame"]["use"] = "frame-below"


def _hung_motors() -> Tree:
    frame = _shelf("frames.yaml", "frame-dip")
    frame["motors"] = {n: at.replace(" 4 mm", " -8 mm") for n, at in frame["motors"].items()}
    return {"frame-below": frame}


def _pack_below(tree: Tree) -> None:
    for pack in tree["packs"].values():
        pack["at"] = "3 mm, 0 mm, -18 mm"
    tree["parts"]["strap"]["at"] = "3 mm, 0 mm, -14 mm"
    tree["parts"]["grip-pad"]["at"] = "3 mm, 0 mm, -3 mm"


def _screws_of_two_bags(tree: Tree) -> None:
    """Half of the motors' screws are of another make and a millimetre longer, with a washer."""
    tree["parts"]["motor-screw"].update(count="8", spares="0")
    tree["parts"]["longer-screw"] = {"use": "screw-m2x7", "count": "8"}
    first = tree["screws"][0]
    second = {**deepcopy(first), "place": "motors 3 and 4", "use": "longer-screw", "washer": "1 mm"}
    first.update(place="motors 1 and 2", count="8")
    tree["screws"].insert(1, {**second, "count": "8"})


def _bound_by_plug(tree: Tree) -> None:
    """A little plug goes on the receiver's data contacts on the first day, and stays in the box."""
    tree["parts"]["bind-plug"] = {"use": "bind-plug", "owned": "yes"}
    tree["setup"]["notes"].append("Bound with the plug on the contacts of the receiver.")


def _bind_plug() -> Tree:
    price = {"each": "1.00 EUR", "seen": "2026-09-01"}
    return {"bind-plug": {"kind": "ground-gear", "name": "Plug for binding", "price": price}}


def _black_wires_with_sleeves(tree: Tree) -> None:
    for line in tree["wires"]:
        if "colour" in line:
            line["colour"] = f"black, {line['colour']} sleeve"


def _own_pads_for_the_capacitor(tree: Tree) -> None:
    tree["parts"]["esc"]["use"] = "esc-cap"
    wire(tree, "capacitor.PLUS", "esc.BAT+")["to"] = "esc.CAP+"
    wire(tree, "capacitor.MINUS", "esc.BAT-")["to"] = "esc.CAP-"


def _esc_with_pads() -> Tree:
    esc = _shelf("boards.yaml", "esc-weir")
    esc["pads"]["CAP+"] = {"role": "supply", "battery": "yes", "joined_to": "BAT+"}
    esc["pads"]["CAP-"] = {"role": "ground", "battery": "yes", "joined_to": "BAT-"}
    esc["edges"]["rear"] += ["CAP-", "CAP+"]
    return {"esc-cap": esc}


def _turned_with_leads_crossed(tree: Tree) -> None:
    """The speed controller is turned round, and each motor keeps its channel over longer leads."""
    tree["parts"]["esc"]["yaw"] = "180 deg"
    for line in tree["wires"]:
        if line["from"].startswith("pigtail."):
            line["length"] = "140 mm"
        elif line["from"].startswith("motor."):
            line["trim_to"] = "105 mm"
    tree["parts"]["harness"]["use"] = "harness-long"
    tree.pop("weighed")


def _long_harness() -> Tree:
    cable = _shelf("cables.yaml", "harness-8-40")
    cable["length"] = "80 mm"
    return {"harness-long": cable}


def _three_rotors_and_a_servo(tree: Tree) -> None:
    parts = tree["parts"]
    parts["frame"]["use"] = "frame-three"
    parts["controller"]["use"] = "fc-servo"
    for key in ("motor", "propeller"):
        parts[key]["count"] = "3"
    parts["motor"].pop("each_weighed")
    parts["motor-screw"]["count"] = "12"
    parts["propeller-screw"]["count"] = "6"
    tree["screws"][0].update(place="motors 1 to 3", count="12")
    tree["screws"][1].update(place="propellers 1 to 3", count="6")
    tree["wires"] = [w for w in tree["wires"] if not w["from"].startswith("motor.4.")]
    parts["servo"] = {"use": "servo", "at": "-60 mm, 0 mm, 6 mm"}
    tree["wires"] += [
        _line("servo.GND", "controller.GND4", "black"),
        _line("servo.5V", "controller.5V3", "red"),
        _line("servo.SIG", "controller.D5", "white"),
    ]
    corners = {"1": "front left", "2": "front right", "3": "rear"}
    turns = {"1": "clockwise", "2": "counter-clockwise", "3": "clockwise"}
    tree["setup"]["rotation"] = {"corners": corners, "turns": turns}
    parts["video-antenna"]["at"] = "-46 mm, 0 mm, 34 mm"  # clear of the rear disc
    for pack in tree["packs"].values():
        pack["at"] = "5 mm, 0 mm, 46 mm"
    for gone in ("weighed", "flights"):
        tree.pop(gone)


def _frame_of_three() -> Tree:
    frame = _shelf("frames.yaml", "frame-dip")
    frame["motors"] = {
        "1": "53 mm, 53 mm, 4 mm",
        "2": "53 mm, -53 mm, 4 mm",
        "3": "-95 mm, 0 mm, 4 mm",
    }
    frame.pop("wheelbase")
    board = _shelf("boards.yaml", "fc-hex")
    board["pads"]["D5"] = {"role": "drive-out", "channel": "5", "level": "3.3 V"}
    board["edges"]["rear"].append("D5")
    servo = {
        "kind": "other",
        "name": "Servo of the tail",
        "mass": "5 g",
        "price": {"each": "6.00 EUR", "seen": "2026-09-01"},
        "supply": {"pad": "5V", "accepts": "4.5-6 V", "draw": {"typical": "100 mA"}},
        "pads": {
            "GND": {"role": "ground"},
            "5V": {"role": "draws"},
            "SIG": {"role": "drive-in"},
        },
    }
    return {"frame-three": frame, "fc-servo": board, "servo": servo}


def _no_buzzer(tree: Tree) -> None:
    _without(tree, "buzzer")
    tree["setup"]["switches"] = [s for s in tree["setup"]["switches"] if s["does"] != "buzzer"]


def _fuller_cells(tree: Tree) -> None:
    """High-voltage cells of four, below the limit of all parts."""
    tree["packs"] = {"hv": {"use": "pack-hv", "at": "3 mm, 0 mm, 44 mm"}}
    tree["setup"]["alarms"] = []
    for gone in ("weighed", "flights"):
        tree.pop(gone)


def _high_voltage_pack() -> Tree:
    pack = _shelf("power.yaml", "pack-4s-650")
    pack |= {"chemistry": "high-voltage lithium-polymer", "full": "4.35 V", "nominal": "3.80 V"}
    return {"pack-hv": pack}


def _lead_free_that_melts_low(tree: Tree) -> None:
    tree["parts"]["solder"]["use"] = "solder-bismuth"


def _bismuth() -> Tree:
    solder = _shelf("bench.yaml", "solder-free")
    solder |= {"alloy": "Sn42Bi58", "melts": "138-139 degC", "leaded": "no"}
    return {"solder-bismuth": solder}


def _goggles_for_both(tree: Tree) -> None:
    tree["parts"]["screen"] = {"use": "goggles-digital", "owned": "yes"}


def _two_addresses(tree: Tree) -> None:
    tree["parts"]["barometer"] = {"use": "barometer", "at": "-20 mm, 10 mm, 30 mm"}
    for pad, end, colour in (
        ("GND", "GND4", "black"),
        ("5V", "5V3", "red"),
        ("SCL", "SCL", "green"),
        ("SDA", "SDA", "yellow"),
    ):
        tree["wires"].append(_line(f"barometer.{pad}", f"controller.{end}", colour))
    tree["parts"]["controller"]["use"] = "fc-bus"
    tree["parts"]["compass"]["use"] = "compass-low"


def _bus_parts() -> Tree:
    board, compass = _shelf("boards.yaml", "fc-osier"), _shelf("radio.yaml", "compass-plover")
    for pad in ("SCL", "SDA"):
        board["pads"][pad]["takes"] = "2"
    other = deepcopy(compass) | {"kind": "other", "name": "Barometer"}
    for key in ("turn", "keepout"):
        other.pop(key)
    compass["pads"]["SDA"]["address"] = "0x1E"
    other["pads"]["SDA"]["address"] = "0x76"
    return {"fc-bus": board, "compass-low": compass, "barometer": other}


def _nothing() -> Tree:
    return {}


Odd = tuple[str, Callable[[Tree], None], Callable[[], Tree]]
BUILDS: list[Odd] = [
    ("dipper", _no_video, _nothing),
    ("dipper", _two_cameras, _two_inputs),
    ("dipper", _two_receivers, _nothing),
    ("dipper", _pushes, _hung_motors),
    ("dipper", _pack_below, _nothing),
    ("dipper", _screws_of_two_bags, _nothing),
    ("dipper", _bound_by_plug, _bind_plug),
    ("dipper", _black_wires_with_sleeves, _nothing),
    ("dipper", _own_pads_for_the_capacitor, _esc_with_pads),
    ("dipper", _turned_with_leads_crossed, _long_harness),
    ("dipper", _three_rotors_and_a_servo, _frame_of_three),
    ("redshank", _no_buzzer, _nothing),
    ("dipper", _fuller_cells, _high_voltage_pack),
    ("dipper", _lead_free_that_melts_low, _bismuth),
    ("redshank", _goggles_for_both, _nothing),
    ("curlew", _two_addresses, _bus_parts),
]


@pytest.mark.parametrize(
    ("build", "change", "shelf"), BUILDS, ids=lambda x: getattr(x, "__name__", x)
)
def test_an_odd_build_has_no_fault(tmp_path: Path, build: str, change: Any, shelf: Any) -> None:
    case = case_of(tmp_path, build, change, yaml.safe_dump(shelf()))
    verdict = verdict_of(case)
    faults = [f"{f.code}: {f.message}" for f in verdict.faults if f.severity == Severity.FAULT]
    assert faults == []


def test_they_are_as_many_kinds() -> None:
    """One that is there twice would pass for the wrong reason."""
    assert len({change.__name__ for _, change, _ in BUILDS}) == len(BUILDS)
