"""Unusual but right: nothing is said of these wirings. Common practice, no source. Others:
test_unusual_power.py.

First demo builds with a change that a builder might well make, then small ones from the parts of
small_shelf.yaml.
"""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.rules.altered_demo import Tree, case_of, said, verdict_of, wire
from tests.rules.rule_files import judged

pytestmark = pytest.mark.slow  # takes long

FAMILIES = ("wiring", "power", "setup", "bench")


def _receiver_on_rx_alone(tree: Tree) -> None:
    tree["wires"].remove(wire(tree, "receiver.RX", "controller.TX1"))


def _control_board_upside_down_and_turned(tree: Tree) -> None:
    tree["parts"]["controller"].update(face="down", yaw="90 deg")
    tree["setup"]["orientation"] = {"face": "down", "yaw": "90 deg"}
    for line in tree["wires"]:  # the edges lie elsewhere now, and so the leads are cut longer
        if "controller." in line["to"]:
            line["length"] = "90 mm"
    tree.pop("weighed")


def _control_board_turned_round(tree: Tree) -> None:
    _control_board_upside_down_and_turned(tree)
    tree["parts"]["controller"].update(face="up", yaw="180 deg")
    tree["setup"]["orientation"] = {"face": "up", "yaw": "180 deg"}


def _speed_controller_turned_round(tree: Tree) -> None:
    """Each motor goes to the channel that lies at its corner now, and the setup names the outputs."""
    tree["parts"]["esc"]["yaw"] = "180 deg"
    opposite = {"1": "3", "2": "4", "3": "1", "4": "2"}
    for line in tree["wires"]:
        if line["to"].startswith("esc.M"):
            line["to"] = f"esc.M{opposite[line['to'][5]]}{line['to'][6]}"
        elif line["to"].startswith("esc.BAT") and not line["from"].startswith("capacitor"):
            line["length"] = "140 mm"
    tree["setup"]["rotation"]["outputs"] = opposite
    tree.pop("weighed")
    tree.pop("as_built")  # the pigtail as it was cut before


def _no_control_lead(tree: Tree) -> None:
    tree["wires"].remove(wire(tree, "video.CTRL", "controller.TX2"))
    tree["setup"]["serial"] = [s for s in tree["setup"]["serial"] if s["port"] != "2"]


def _camera_straight_to_the_video_transmitter(tree: Tree) -> None:
    wire(tree, "camera.VID", "controller.VID-IN").update(to="video.VID", length="110 mm")
    tree["wires"].remove(wire(tree, "video.VID", "controller.VID-OUT"))


def _compass_leads_in_other_colours(tree: Tree) -> None:
    for line in tree["wires"]:
        if line["from"].startswith("compass.") and line.get("colour") not in ("red", "black"):
            line["colour"] = "white"


@pytest.mark.parametrize(
    ("build", "change"),
    [
        pytest.param(
            "dipper", _receiver_on_rx_alone, id="a receiver that only listens, on RX alone"
        ),
        pytest.param(
            "dipper",
            _control_board_upside_down_and_turned,
            id="control board upside down, turned, set so",
        ),
        pytest.param(
            "redshank", _control_board_turned_round, id="control board turned round, set so"
        ),
        pytest.param(
            "dipper",
            _speed_controller_turned_round,
            id="speed controller turned round, outputs named",
        ),
        pytest.param(
            "dipper", _no_control_lead, id="video transmitter set by its button, no control lead"
        ),
        pytest.param(
            "redshank",
            _camera_straight_to_the_video_transmitter,
            id="camera straight to the transmitter",
        ),
        pytest.param("curlew", _compass_leads_in_other_colours, id="signal leads all white"),
    ],
)
def test_nothing_is_said_of_a_demo_build(
    tmp_path: Path, build: str, change: Callable[[Tree], None]
) -> None:
    quiet = list(said(verdict_of(case_of(tmp_path, build, change)), *FAMILIES))
    assert quiet == []


def _phases(motor: int, board: str, channel: int) -> list[str]:
    return [f"motor.{motor}.{lead} to {board}.M{channel}{lead}" for lead in "ABC"]


EIGHT_SHELF: dict[str, Any] = {
    "esc": {
        "channel_corners": {
            "1": "front left",
            "2": "front right",
            "3": "rear right",
            "4": "rear left",
        },
        "sockets": "none",
        "pads": {
            **{
                f"M{c}{lead}": {"role": "phase", "channel": str(c)}
                for c in (3, 4)
                for lead in "ABC"
            },
            **{f"S{c}": {"role": "drive-in", "channel": str(c)} for c in (3, 4)},
        },
    },
    "board": {"pads": {f"D{c}": {"role": "drive-out", "channel": str(c)} for c in range(3, 9)}},
}
CORNERS = ("front left", "front right", "rear right", "rear left")


def _coaxial_eight() -> dict[str, Any]:
    """Two speed controllers of four channels, the lower four motors on the second."""
    wires = [
        w for m in range(1, 9) for w in _phases(m, f"esc.{1 if m < 5 else 2}", (m - 1) % 4 + 1)
    ]
    wires += [f"board.D{m} to esc.{1 if m < 5 else 2}.S{(m - 1) % 4 + 1}" for m in range(1, 9)]
    for n in (1, 2):
        wires += [f"pigtail.PLUS to esc.{n}.BAT+", f"pigtail.MINUS to esc.{n}.BAT-"]
    wires += ["board.VIN to esc.1.JBAT", "board.GND1 to esc.1.JGND"]
    corners = {str(i + 1): f"{CORNERS[i % 4]} {'upper' if i < 4 else 'lower'}" for i in range(8)}
    return {
        "shelf": EIGHT_SHELF,
        "wires": wires,
        "build": {"setup": {"rotation": {"corners": corners}}},
    }


POWER = ["pigtail.PLUS to board.VIN", "pigtail.MINUS to board.GND2"]
SINGLE = {
    "esc": {
        "channel_corners": "none",
        "sockets": "none",
        "edges": "none",
        "pads": (
            {f"M1{x}": {"channel": "none"} for x in "ABC"}
            | {f"M2{x}": "none" for x in "ABC"}
            | {"S2": "none", "S1": {"channel": "none"}, "CUR": "none"}
        ),
    }
}
SMALL: dict[str, dict[str, Any]] = {
    "a coaxial eight": _coaxial_eight(),
    "two speed controllers of one channel, fed from the board's battery pads": {
        "shelf": {
            **SINGLE,
            "board": {"pads": {"VBAT": {"role": "supply", "battery": "yes", "joined_to": "VIN"}}},
        },
        "wires": (
            POWER
            + [w for m in (1, 2) for w in _phases(m, f"esc.{m}", 1)]
            + [f"board.D{m} to esc.{m}.S1" for m in (1, 2)]
            + [
                w
                for m in (1, 2)
                for w in (f"esc.{m}.BAT+ to board.VBAT", f"esc.{m}.BAT- to board.GND1")
            ]
        ),
        "build": {"setup": {"rotation": {"corners": {"1": "front left", "2": "front right"}}}},
    },
    "four speed controllers of one channel, each with its leads to a board that shares out": {
        "shelf": {
            **SINGLE,
            "board": {
                "pads": {
                    "VBAT": {"role": "supply", "battery": "yes", "joined_to": "VIN", "takes": "4"},
                    "GBAT": {"role": "ground", "battery": "yes", "joined_to": "GND1", "takes": "4"},
                    **{f"D{m}": {"role": "drive-out", "channel": str(m)} for m in (3, 4)},
                }
            },
        },
        "wires": (
            POWER
            + [w for m in range(1, 5) for w in _phases(m, f"esc.{m}", 1)]
            + [f"board.D{m} to esc.{m}.S1" for m in range(1, 5)]
            + [f"esc.{m}.BAT+ to board.VBAT" for m in range(1, 5)]
            + [f"esc.{m}.BAT- to board.GBAT" for m in range(1, 5)]
        ),
        "build": {
            "setup": {
                "rotation": {
                    "corners": {
                        "1": "front left",
                        "2": "front right",
                        "3": "rear right",
                        "4": "rear left",
                    }
                }
            }
        },
    },
    "a capacitor on pads of its own": {
        "shelf": {
            "esc": {
                "pads": {
                    "CAP+": {"role": "supply", "battery": "yes", "joined_to": "BAT+"},
                    "CAP-": {"role": "ground", "battery": "yes", "joined_to": "BAT-"},
                }
            }
        },
        "wires": [
            "pigtail.PLUS to esc.BAT+",
            "pigtail.MINUS to esc.BAT-",
            "capacitor.PLUS to esc.CAP+",
            "capacitor.MINUS to esc.CAP-",
        ],
    },
    "a camera fed by the video transmitter": {
        "shelf": {
            "video": {
                "rails": {"5V": {"volts": "5 V", "limit": "0.5 A", "converter": "step-down"}},
                "pads": {"CAM5V": {"role": "supply", "rail": "5V"}},
            }
        },
        "wires": [
            *POWER,
            "video.VIN to board.9V1",
            "video.GND to board.GND1",
            "camera.5V to video.CAM5V",
            "camera.GND to video.GND-VID",
            "camera.VID to video.VID",
        ],
    },
    "a board without a converter, fed 5 V by the speed controller": {
        "shelf": {
            "esc": {
                "rails": {"5V": {"volts": "5 V", "limit": "2 A", "converter": "step-down"}},
                "pads": {"OUT5": {"role": "supply", "rail": "5V"}},
            },
            "board": {
                "supply": {"pad": "IN5", "accepts": "4.5-5.5 V"},
                "rails": {
                    "5V": {"volts": "5 V", "converter": "direct", "fed_from": "IN5"},
                    "9V": "none",
                },
                "sockets": "none",
                "edges": "none",
                "pads": {
                    "IN5": {"role": "draws", "joined_to": "5V1"},
                    "VIN": "none",
                    "9V1": "none",
                },
            },
        },
        "wires": [
            "pigtail.PLUS to esc.BAT+",
            "pigtail.MINUS to esc.BAT-",
            "esc.OUT5 to board.IN5",
            "esc.JGND to board.GND1",
            "receiver.5V to board.5V1",
            "receiver.GND to board.GND1",
            "receiver.TX to board.RX1",
        ],
    },
    "two receivers, each on a port of its own": {
        "shelf": {
            "second": {
                "kind": "receiver",
                "name": "Second",
                "speaks": "plain frames",
                "supply": {"pad": "5V", "accepts": "4.5-8.4 V"},
                "pads": {
                    "GND": {"role": "ground"},
                    "5V": {"role": "draws"},
                    "TX": {"role": "sends", "level": "3.3 V"},
                },
            }
        },
        "wires": [
            *POWER,
            "receiver.5V to board.5V1",
            "receiver.GND to board.GND1",
            "receiver.TX to board.RX1",
            "receiver.RX to board.TX1",
            "second.5V to board.5V1",
            "second.GND to board.GND1",
            "second.TX to board.RX3",
        ],
    },
    "lights whose minus the board switches": {
        "wires": [
            *POWER,
            "lights.5V-IN to board.5V1",
            "lights.GND-IN to board.BZ-",
            "board.LED to lights.DIN",
        ],
    },
    "a buzzer with a cell of its own on the switched pad": {
        "shelf": {"buzzer": {"own_cell": "yes", "supply": {"own_cell": "yes"}}},
        "wires": [*POWER, "buzzer.PLUS to board.BZ+", "buzzer.MINUS to board.BZ-"],
    },
    "a second pack for the video unit alone, minus joined": {
        "wires": [
            "pigtail.1.PLUS to board.VIN",
            "pigtail.1.MINUS to board.GND2",
            "pigtail.2.PLUS to video.VIN",
            "pigtail.2.MINUS to video.GND",
            "video.GND-VID to board.GND1",
            "video.VID to board.VID-OUT",
        ],
    },
    "a receiver on one wire both ways": {
        "shelf": {"receiver": {"pads": {"TX": {"role": "one-wire"}, "RX": "none"}}},
        "wires": [
            *POWER,
            "receiver.5V to board.5V1",
            "receiver.GND to board.GND1",
            "receiver.TX to board.TX2",
        ],
    },
    "a satellite receiver heard by the board and by the video unit": {
        "shelf": {
            "video": {
                "pads": {"HEAR": {"role": "listens", "level": "3.3 V", "tolerates": "3.6 V"}}
            },
            "satellite": {"pads": {"TX": {"takes": "2"}}},
        },
        "wires": [
            *POWER,
            "video.VIN to board.9V1",
            "video.GND to board.GND1",
            "satellite.5V to board.5V1",
            "satellite.GND to board.GND1",
            "satellite.TX to board.RX1",
            "satellite.TX to video.HEAR",
        ],
    },
}


@pytest.mark.parametrize("what", list(SMALL))
def test_no_wiring_rule_finds_anything(what: str) -> None:
    verdict = judged(SMALL[what])
    assert [
        f"{f.code}: {f.message}" for f in verdict.findings if f.code.startswith("wiring/")
    ] == []


def test_a_build_without_wires_is_not_judged_and_not_faulted() -> None:
    parts = {
        k: {"use": k} for k in ("board", "esc", "motor", "camera", "receiver", "buzzer", "pigtail")
    }
    verdict = judged({"parts": parts})
    assert [f.code for f in verdict.findings if f.code.startswith("wiring/")] == []
    assert {a.rule.code for a in verdict.not_judged} >= {
        "wiring/phases-wrong",
        "wiring/supply-missing",
    }
