"""A load that names its power is judged as one that names its current: P = U * I."""

import pytest

from tests.rules.rule_files import judged


def _said(draw: dict[str, str] | str, limit: str) -> set[str]:
    given = {
        "wires": ["camera.5V to board.5V2", "camera.GND to board.GND1"],
        "shelf": {
            "camera": {"supply": {"accepts": "4.5-16 V", "draw": draw}},
            "board": {"rails": {"5V": {"limit": limit}}},
        },
    }
    return {f.code for f in judged(given, "power/rail-overloaded").findings}


BOTH = [{"power": "6 W"}, {"typical": "1.2 A"}, {"typical": "6 W"}, "6 W", "6000 mW", "1200 mA"]


@pytest.mark.parametrize("draw", BOTH)
def test_a_rail_that_gives_less_is_overloaded_by_either(draw: dict[str, str] | str) -> None:
    # 6 W at 5 V are 1.2 A
    assert _said(draw, "1.1 A") == {"power/rail-overloaded"}


@pytest.mark.parametrize("draw", BOTH)
def test_a_rail_that_gives_more_is_not(draw: dict[str, str] | str) -> None:
    assert _said(draw, "2 A") == set()


@pytest.mark.parametrize(("power", "wrong"), [("6 W", False), ("9 W", True)])
def test_power_and_current_of_one_load_are_held_against_each_other(power: str, wrong: bool) -> None:
    draw = {"power": power, "typical": "1.2 A"}
    supply = {"accepts": "4.5-16 V", "draw": draw, "at": "5 V"}
    given = {"parts": {"camera": {}}, "shelf": {"camera": {"supply": supply}}}
    found = judged(given, "data/supply-figures-disagree").findings
    assert bool(found) is wrong
    assert all(len(f.see) == 1 for f in found)


def test_the_power_that_the_build_sets_decides_what_a_transmitter_draws() -> None:
    powers = [
        {"power": "25 mW", "draw": "200 mA", "volts": "9 V"},
        {"power": "400 mW", "draw": "900 mA", "volts": "9 V"},
    ]
    given = {
        "wires": ["video.VIN to board.9V1", "video.GND to board.GND1"],
        "shelf": {
            "video": {"powers": powers, "set": "25 mW"},
            "board": {"rails": {"9V": {"limit": "0.5 A"}}},
        },
        "build": {"setup": {"channel": {"band": "x", "power": "400 mW"}}},
    }
    found = judged(given, "power/rail-overloaded").findings
    assert [f.code for f in found] == ["power/rail-overloaded"]


@pytest.mark.parametrize(("limit", "over"), [("5.5 W", True), ("10 W", False), ("10000 mW", False)])
def test_a_rail_may_say_in_watts_what_it_gives(limit: str, over: bool) -> None:
    # 5.5 W at 5 V are 1.1 A, 10 W are 2 A; the camera takes 1.2 A
    wanted = {"power/rail-overloaded"} if over else set()
    assert _said("1.2 A", limit) == wanted


@pytest.mark.parametrize(("peak", "over"), [("7 W for 2 s", True), ("10 W for 2 s", False)])
def test_and_what_it_gives_for_a_while(peak: str, over: bool) -> None:
    draw = {"typical": "0.5 A", "peak": "1.8 A for 2 s"}
    given = {
        "wires": ["camera.5V to board.5V2", "camera.GND to board.GND1"],
        "shelf": {
            "camera": {"supply": {"accepts": "4.5-16 V", "draw": draw}},
            "board": {"rails": {"5V": {"limit": "1 A", "peak": peak}}},
        },
    }
    found = judged(given, "power/rail-overloaded").findings
    assert bool(found) is over


def test_watts_of_a_rail_without_volts_of_its_own_are_a_mistake() -> None:
    rails = {"raw": {"volts": "battery", "limit": "10 W"}}
    with pytest.raises(AssertionError, match="current"):
        judged({"parts": {"board": {}}, "shelf": {"board": {"rails": rails}}})
