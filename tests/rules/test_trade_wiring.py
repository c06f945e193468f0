"""Facts of the trade about wiring. Common practice, no source, unless a check names one."""

import pytest

from builder.pipeline.check import Checked
from tests.rules.rule_files import judged

POWER = ["pigtail.PLUS to board.VIN", "pigtail.MINUS to board.GND2"]
PACK = {
    "pack": {
        "kind": "pack",
        "name": "Pack",
        "chemistry": "lithium-polymer",
        "cells": "4S",
        "capacity": "850 mAh",
    }
}
CAMERA = ["camera.GND to board.GND1", "camera.5V to board.5V1", "camera.VID to board.VID-IN"]
VIDEO = [
    "video.GND to board.GND1",
    "video.VIN to board.9V1",
    "video.CTRL to board.TX2",
    "video.VID to board.VID-OUT",
]
RECEIVER = [
    "receiver.GND to board.GND2",
    "receiver.5V to board.5V1",
    "receiver.TX to board.RX1",
    "receiver.RX to board.TX1",
]


def _codes(wires: list[str]) -> set[str]:
    return {
        f.code
        for f in judged(
            {"wires": POWER + wires, "shelf": PACK, "build": {"packs": {"p": "pack"}}}
        ).findings
    }


def _wiring(wires: list[str]) -> set[str]:
    return {c for c in _codes(wires) if c.startswith(("wiring/", "power/volts"))}


def test_camera_video_and_receiver_as_they_are_usually_wired_are_clean() -> None:
    assert _wiring(CAMERA + VIDEO + RECEIVER) == set()


@pytest.mark.parametrize(
    ("part", "wires"), [("camera", CAMERA), ("video", VIDEO), ("receiver", RECEIVER)]
)
def test_none_of_these_wires_can_be_left_out_unnoticed_but_for_signals(
    part: str, wires: list[str]
) -> None:
    """Ground and supply are missed by a rule; a signal may be absent on purpose."""
    rest = [w for w in CAMERA + VIDEO + RECEIVER if w not in wires]
    assert "wiring/ground-missing" in _wiring(rest + wires[1:])
    assert "wiring/supply-missing" in _wiring([*rest, wires[0], *wires[2:]])


def test_a_video_transmitter_for_7_to_37_volts_passes_on_9_volts_and_is_a_fault_on_5() -> None:
    assert "power/volts-outside-accepted" not in _codes(VIDEO)
    on_five = [w.replace("board.9V1", "board.5V1") for w in VIDEO]
    assert "power/volts-outside-accepted" in _codes(on_five)


def test_the_demo_builds_wire_them_by_the_book(demo: Checked) -> None:
    """A video transmitter has four wires (ground, supply, one-wire control, video), a camera three,
    a receiver four.
    """
    build = demo.sheets["dipper"].build
    roles = {
        part: sorted(build.pad(run.start).role for run in build.wires if run.start.part == part)
        for part in ("camera", "video", "receiver")
    }
    assert roles["camera"] == ["draws", "ground", "video-out"]
    assert roles["video"] == ["draws", "ground", "one-wire", "video-in"]
    assert roles["receiver"] == ["draws", "ground", "listens", "sends"]


def test_transmit_goes_to_receive_at_both_ends(demo: Checked) -> None:
    build = demo.sheets["dipper"].build
    pairs = {
        frozenset({build.pad(r.start).role, build.pad(r.end).role})
        for r in build.wires
        if r.start.part == "receiver"
    }
    assert frozenset({"sends", "listens"}) in pairs
    assert not pairs & {frozenset({"sends"}), frozenset({"listens"})}


def test_control_on_the_sending_pad_of_one_port_and_the_receiver_on_another_is_clean() -> None:
    assert (
        _wiring(["video.CTRL to board.TX2", *RECEIVER, "video.GND to board.GND1", VIDEO[1]])
        == set()
    )
