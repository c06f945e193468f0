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


def test_a_board_of_the_demo_written_in_shared_lines_is_the_same_board() -> None:
    """Twelve lines of motor pads and four of signals become two; nothing else changes."""
    whole = yaml.load(_SHELF.read_text("utf-8"), yaml.BaseLoader)["esc-weir"]
    short = {**whole, "pads": dict(whole["pads"])}
    phase, drive = short["pads"]["M1A"], short["pads"]["S1"]
    for name in list(short["pads"]):
        if (name[0] == "M" and name[1].isdigit()) or name in ("S1", "S2", "S3", "S4"):
            del short["pads"][name]
    assert len(short["pads"]) == len(whole["pads"]) - 16
    short["pads"]["M1A-M4C"] = phase | {"channel": "as printed"}
    short["pads"]["S1-S4"] = drive | {"channel": "as printed"}
    short["edges"] = {
        "left": ["M1A-M1C", "M4A-M4C"],
        "right": ["M2A-M3C"],
        "rear": ["BAT-", "BAT+"],
    }
    contacts = ["JGND", "JBAT", "S1-S4", "CUR", "TLM"]
    short["sockets"] = {"J1": whole["sockets"]["J1"] | {"contacts": contacts}}
    (first, wrong), (second, wrong_too) = _read(whole), _read(short)
    assert not wrong and not wrong_too
    assert dict(sorted(first.pads.items())) == dict(sorted(second.pads.items()))
    assert first.edges == second.edges and first.sockets == second.sockets


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("TX1-TX3", "TX1 TX2 TX3"),
        ("M4C-M4A", "M4C M4B M4A"),
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
