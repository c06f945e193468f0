"""Contacts that share a line are the same as contacts that have a line each."""

from pathlib import Path
from typing import Any

import pytest
import yaml

from builder.diagnostics.finding import Collector
from builder.diagnostics.where import Where
from builder.model.read.shared_lines import contacts_between
from builder.model.read.shelf import read_part

_AT = Where("shelf/boards.yaml", ("esc",))
_SHELF = Path(__file__).resolve().parents[2] / "builds/shelf/boards.yaml"


def _read(tree: dict[str, Any]) -> tuple[Any, list[Any]]:
    found = Collector()
    return read_part("esc", tree, _AT, found), found.findings


def test_a_board_of_the_demo_is_the_board_that_has_a_line_for_each_contact() -> None:
    """Twelve lines of motor pads and four of signals are two in the demo; nothing else changes."""
    short = yaml.load(_SHELF.read_text("utf-8"), yaml.BaseLoader)["esc-weir"]
    whole = {**short, "pads": {k: v for k, v in short["pads"].items() if "-" not in k[:-1]}}
    phase, drive = short["pads"]["M1A-M4C"], short["pads"]["S1-S4"]
    for channel in "1234":
        for letter in "ABC":
            whole["pads"][f"M{channel}{letter}"] = phase | {"channel": channel}
        whole["pads"][f"S{channel}"] = drive | {"channel": channel}
    whole["edges"] = {
        "left": ["M1A", "M1B", "M1C", "M4A", "M4B", "M4C"],
        "right": ["M2A", "M2B", "M2C", "M3A", "M3B", "M3C"],
        "rear": ["BAT-", "BAT+"],
    }
    contacts = ["JGND", "JBAT", "S1", "S2", "S3", "S4", "CUR", "TLM"]
    whole["sockets"] = {"J1": short["sockets"]["J1"] | {"contacts": contacts}}
    (first, wrong), (second, wrong_too) = _read(whole), _read(short)
    assert not wrong and not wrong_too
    assert len(short["pads"]) == len(whole["pads"]) - 14 == 8
    assert dict(sorted(first.pads.items())) == dict(sorted(second.pads.items()))
    assert first.edges == second.edges and first.sockets == second.sockets


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("TX1-TX3", "TX1 TX2 TX3"),
        ("M4C-M4A", "M4C M4B M4A"),
        ("5V1-5V3", "5V1 5V2 5V3"),
        ("VID-IN", "VID-IN"),
        ("BAT-", "BAT-"),
        ("TX1-RX1", "TX1-RX1"),
        ("M1A-M4", "M1A-M4"),
        ("A1-A99", "A1-A99"),
        ("5V-9V", "5V-9V"),
    ],
)
def test_what_is_no_shared_line_is_a_name(text: str, names: str) -> None:
    assert " ".join(contacts_between(text)) == names


def test_a_line_of_its_own_goes_before_a_shared_one() -> None:
    pads = {
        "S1-S3": {"role": "drive-in", "channel": "as printed"},
        "S2": {"role": "unconnected"},
    }
    part, wrong = _read({"kind": "speed-controller", "name": "x", "pads": pads})
    assert not wrong
    assert [part.pads[n].role for n in ("S1", "S2", "S3")] == [
        "drive-in",
        "unconnected",
        "drive-in",
    ]
    assert (part.pads["S1"].channel, part.pads["S3"].channel) == (1, 3)


def test_a_mistake_in_a_shared_line_is_said_once_at_that_line() -> None:
    pads = {"S1-S4": {"role": "drives", "channel": "as printed"}}
    part, wrong = _read({"kind": "speed-controller", "name": "x", "pads": pads})
    assert part is None
    places = {finding.where.path for finding in wrong}
    assert places == {("esc", "pads", "S1-S4", "role")} and len(wrong) == 1


def test_a_line_of_its_own_without_a_role_adds_to_the_shared_one() -> None:
    pads = {
        "TX1-TX2, TX4": {"role": "sends", "serial": "as printed", "level": "3.3 V"},
        "TX2": {"level": "5 V", "speaks": "plain frames"},
    }
    part, wrong = _read({"kind": "flight-controller", "name": "x", "pads": pads})
    assert not wrong and list(part.pads) == ["TX1", "TX2", "TX4"]
    second = part.pads["TX2"]
    assert (second.role, second.serial, second.level.value) == ("sends", 2, 5.0)
    assert (part.pads["TX4"].serial, part.pads["TX1"].speaks) == (4, None)


def test_what_a_shared_line_says_wrong_is_said_at_that_line() -> None:
    pads = {"TX1, TX2": {"role": "sends", "level": "3.3 furlong"}, "TX2": {"speaks": "x"}}
    _, wrong = _read({"kind": "flight-controller", "name": "x", "pads": pads})
    assert {f.where.path for f in wrong} == {("esc", "pads", "TX1, TX2", "level")}
