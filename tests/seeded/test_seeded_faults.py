"""Seeded faults: one-change edits of clean demo builds, each found by the right rule and by no other fault."""

from pathlib import Path

import pytest

from builder.diagnostics.finding import Severity
from builder.pipeline.check import Checked
from tests.workspace_edits import judged_after

D, R, P, C = "dipper", "redshank", "pipit", "curlew"
# build, old text, new text, expected code, codes that cannot be told apart from it
CASES = [
    (
        D,
        "{from: receiver.TX, to: controller.RX1",
        "{from: receiver.TX, to: controller.TX1",
        "wiring/tx-to-tx",
        {"wiring/pad-overfull", "wiring/rx-to-rx"},
    ),
    (
        R,
        "{from: receiver.TX, to: controller.RX1",
        "{from: receiver.TX, to: controller.TX1",
        "wiring/tx-to-tx",
        {"wiring/pad-overfull", "wiring/rx-to-rx"},
    ),
    (
        D,
        "{from: receiver.RX, to: controller.TX1",
        "{from: receiver.RX, to: controller.RX2",
        "wiring/rx-to-rx",
        {"wiring/port-used-twice", "wiring/unlike-speech"},
    ),
    (
        D,
        "{from: video.CTRL, to: controller.TX2",
        "{from: video.CTRL, to: controller.RX2",
        "wiring/one-wire-to-plain-pad",
        set(),
    ),
    (
        D,
        "{from: camera.VID, to: controller.VID-IN",
        "{from: camera.VID, to: controller.VID-OUT",
        "wiring/video-to-video",
        {"wiring/pad-overfull"},
    ),
    (
        R,
        "{from: camera.VID, to: controller.VID-IN",
        "{from: camera.VID, to: controller.VID-OUT",
        "wiring/video-to-video",
        {"wiring/pad-overfull"},
    ),
    (
        D,
        "{from: camera.GND, to: controller.GND3",
        "{from: camera.GND, to: controller.5V2",
        "wiring/supply-to-ground",
        {"wiring/pad-overfull", "wiring/ground-missing"},
    ),
    (
        R,
        "{from: camera.GND, to: controller.GND3",
        "{from: camera.GND, to: controller.5V2",
        "wiring/supply-to-ground",
        {"wiring/pad-overfull", "wiring/ground-missing"},
    ),
    (
        D,
        "{from: video.VIN, to: controller.9V1",
        "{from: video.VIN, to: controller.5V2",
        "power/volts-outside-accepted",
        {"wiring/pad-overfull"},
    ),
    (
        R,
        "{from: video.VIN, to: controller.10V1",
        "{from: video.VIN, to: controller.5V2",
        "power/volts-outside-accepted",
        {"wiring/pad-overfull"},
    ),
    (
        D,
        "{from: motor.2.C, to: esc.M2C",
        "{from: motor.2.C, to: esc.M3C",
        "wiring/phases-wrong",
        {"wiring/pad-overfull"},
    ),
    (
        R,
        "{from: motor.2.C, to: esc.M2C",
        "{from: motor.2.C, to: esc.M3C",
        "wiring/phases-wrong",
        {"wiring/pad-overfull"},
    ),
    (D, "cable: straight", "cable: reversed", "wiring/plug-joins-unlike", {"*"}),
    (R, "cable: reversed", "cable: straight", "wiring/plug-joins-unlike", {"*"}),
]


def _faults(done: Checked, build: str) -> set[str]:
    assert not done.workspace.findings, done.workspace.findings
    return {f.code for f in done.sheets[build].verdict.faults}


@pytest.mark.parametrize(("build", "old", "new", "code", "companions"), CASES)
def test_the_right_rule_finds_it(
    tmp_path: Path, build: str, old: str, new: str, code: str, companions: set[str]
) -> None:
    found = _faults(judged_after(tmp_path, build, f"{build}/build.yaml", old, new), build)
    assert code in found
    assert "*" in companions or found - companions == {code}


def test_the_demo_builds_are_clean(demo: Checked) -> None:
    for name, sheet in demo.sheets.items():
        assert sheet.verdict.faults == (), name
        assert all(a.answer != "not judged" or a.not_judged for a in sheet.verdict.answers)
    accepted = [a.finding.code for s in demo.sheets.values() for a in s.verdict.accepted]
    assert accepted == ["pack/discharge-limit"]


def test_a_red_wire_on_ground_is_remarked(tmp_path: Path) -> None:
    old = "{from: camera.GND, to: controller.GND3, colour: black"
    done = judged_after(tmp_path, D, f"{D}/build.yaml", old, old.replace("black", "red"))
    assert "wiring/colour-belies-net" in {f.code for f in done.sheets[D].verdict.remarks}
    assert all(f.severity == Severity.REMARK for f in done.sheets[D].verdict.findings)
