"""Faults of joined batteries on small builds, one each: the rule that has to find it does, once, and no
other danger is told of the same mistake. And the sound builds that they are made from have none.
"""

from typing import Any

import pytest

from builder.diagnostics.finding import Signal
from tests.rules.rule_files import judged

FLIES = {"flying-motor": {"count": "4"}, "propeller": {"count": "4"}, "frame": {}}
STYLE = {"style": {"factor": "1.2"}}
THICK = {"pigtail": {"continuous": "80 A", "short": "160 A"}}
Line = dict[str, str]


def _wire(start: str, end: str, gauge: str = "10 AWG", length: str = "80 mm") -> Line:
    return {"from": start, "to": end, "gauge": gauge, "length": length}


FED = [_wire("esc.JBAT", "board.VIN"), _wire("esc.JGND", "board.GND3")]
ALONE = [_wire("pigtail.PLUS", "esc.BAT+"), _wire("pigtail.MINUS", "esc.BAT-")]
SERIES = [
    _wire("pigtail.1.PLUS", "esc.BAT+"),
    _wire("pigtail.1.MINUS", "pigtail.2.PLUS"),
    _wire("pigtail.2.MINUS", "esc.BAT-"),
]
BESIDE = [
    _wire(f"pigtail.{n}.{pole}", f"esc.BAT{sign}")
    for n in (1, 2)
    for pole, sign in (("PLUS", "+"), ("MINUS", "-"))
]
LEADS = {"balance": {"count": "2", "same_battery": ["pigtail.1", "pigtail.2"]}}
OWN = [_wire("balance.1.B0", "pigtail.1.MINUS"), _wire("balance.2.B0", "pigtail.2.MINUS")]


def _given(wires: list[Line], use: dict[str, Any], cells: str, **parts: Any) -> dict[str, Any]:
    pack = {"cells": cells}
    return {
        "shelf": {**THICK, "pack": pack, "lights": {"supply": {"accepts": "4.5-17 V"}}},
        "wires": wires,
        "parts": {**FLIES, "esc": {}, **parts},
        "build": {"packs": {"p": {"use": "pack", **use}}, "setup": STYLE},
    }


def _series(*wires: Line, **parts: Any) -> dict[str, Any]:
    return _given([*SERIES, *FED, *wires], {"series": "2"}, "2S", **parts)


def _dangers(given: dict[str, Any]) -> list[str]:
    """Dangers that are told, without those of motors, which have no wires here."""
    found = judged(given).findings
    dangers = (f for f in found if f.signal == Signal.DANGER and f.code != "wiring/phases-wrong")
    return [f.code for f in dangers]


SOUND = {
    "alone": _given([*ALONE, *FED], {}, "4S"),
    "series": _series(),
    "beside": _given([*BESIDE, *FED], {"parallel": "2"}, "4S"),
    "balance leads": _series(*OWN, **LEADS),
    "lights on all": _series(
        _wire("lights.5V-IN", "esc.BAT+"), _wire("lights.GND-IN", "board.GND1")
    ),
}
ACROSS = "power/load-across-part"
FAULTY = {
    "a capacitor across one of two": (
        ACROSS,
        _series(
            _wire("capacitor.PLUS", "pigtail.1.PLUS"), _wire("capacitor.MINUS", "pigtail.1.MINUS")
        ),
    ),
    "a ground on the link": (
        ACROSS,
        _series(_wire("receiver.5V", "board.5V1"), _wire("receiver.GND", "pigtail.1.MINUS")),
    ),
    "a board whose ground is the link": (
        ACROSS,
        _given([*SERIES, FED[0], _wire("board.GND3", "pigtail.1.MINUS")], {"series": "2"}, "2S"),
    ),
    "lights from the link": (
        ACROSS,
        _series(_wire("lights.5V-IN", "pigtail.2.PLUS"), _wire("lights.GND-IN", "board.GND1")),
    ),
    "the upper balance lead on the ground": (
        ACROSS,
        _series(_wire("balance.1.B0", "board.GND1"), **LEADS),
    ),
    "both balance leads, contact by contact": (
        ACROSS,
        _series(*OWN, _wire("balance.1.B1", "balance.2.B1"), **LEADS),
    ),
    "a middle contact on the ground": (
        "wiring/supply-to-ground",
        _given([*ALONE, *FED, _wire("balance.B1", "board.GND1")], {}, "4S"),
    ),
    "a third in series": (
        "pack/joined-otherwise",
        _given(
            [
                *SERIES[:2],
                _wire("pigtail.2.MINUS", "pigtail.3.PLUS"),
                _wire("pigtail.3.MINUS", "esc.BAT-"),
                *FED,
            ],
            {"series": "2"},
            "2S",
        ),
    ),
    "joined full and empty": (
        "pack/joined-at-unlike-charge",
        _given([*BESIDE, *FED], {"parallel": "2", "each_volts": ["16.8 V", "15.0 V"]}, "4S"),
    ),
}


@pytest.mark.parametrize("name", SOUND)
def test_no_danger_is_told_of_a_sound_build(name: str) -> None:
    assert _dangers(SOUND[name]) == []


@pytest.mark.parametrize("name", FAULTY)
def test_a_danger_is_told_once(name: str) -> None:
    code, given = FAULTY[name]
    assert _dangers(given) == [code]


@pytest.mark.parametrize("name", ["pigtail.7", "esc", "nothing"])
def test_a_balance_lead_names_a_connector(name: str) -> None:
    leads = {"balance": {"same_battery": [name]}}
    with pytest.raises(AssertionError, match=f"'{name}' is no connector of this build"):
        judged(_series(_wire("balance.B0", "pigtail.2.MINUS"), **leads))


@pytest.mark.parametrize(
    ("charging", "says"),
    [
        ({"board": "bord", "together": "2"}, "has no part 'bord'"),
        ({"beside": ["q"]}, "has no other battery 'q'"),
        ({"beside": ["p"]}, "has no other battery 'p'"),
    ],
)
def test_what_is_charged_together_is_of_this_build(charging: dict[str, Any], says: str) -> None:
    with pytest.raises(AssertionError, match=says):
        judged(_given([*ALONE, *FED], {"charging": charging}, "4S"))
