"""A sound build of eight rotors in pairs above each other: no fault, and the wash of the upper ones
is in hover and full throttle. Common practice, no source, where nothing else is said.
"""

from pathlib import Path

import pytest
import yaml

from builder.compute.figures.figure import Figure
from builder.diagnostics.finding import Severity
from tests.rules.altered_demo import ROOT, Tree, case_of, verdict_of

pytestmark = pytest.mark.slow  # takes long

CORNERS = ("front left", "front right", "rear right", "rear left")
UNDER = 1.0  # mm: the foot of a lower motor, which hangs head down below its arm


def _shelf(apart: float = 0.0) -> str:
    """The demo's parts with eight motors; the lower ones may be moved outwards, in mm."""
    shelf = ROOT / "builds" / "shelf"
    frame = yaml.load((shelf / "frames.yaml").read_text("utf-8"), yaml.BaseLoader)["frame-curlew"]
    boards = yaml.load((shelf / "boards.yaml").read_text("utf-8"), yaml.BaseLoader)
    seats = {}
    for i, (x, y) in enumerate(((113, 113), (113, -113), (-113, -113), (-113, 113))):
        seats[str(i + 1)] = f"{x} mm, {y} mm, 7 mm"
        out = apart if x > 0 else -apart
        seats[str(i + 5)] = f"{x + out} mm, {y} mm, {UNDER} mm"
    frame |= {"name": "Frame of eight", "motors": seats, "motors_per_arm": "1"}
    if apart:
        del frame["wheelbase"], frame["size"]
    board = boards["fc-osier"]
    for n in (5, 6, 7, 8):
        board["pads"][f"D{n}"] = {"role": "drive-out", "channel": str(n), "level": "3.3 V"}
    board["pads"]["GND6"] = {"role": "ground"}
    board["edges"]["rear"] += ["D5", "D6", "D7", "D8", "GND6"]
    return yaml.safe_dump({"frame-eight": frame, "fc-eight": board})


def _wires() -> list[Tree]:
    thick = {"gauge": "12 AWG", "length": "135 mm"}
    thin = {"gauge": "28 AWG", "length": "70 mm"}
    lead = {"lead": "fitted", "trim_to": "185 mm"}
    out: list[Tree] = [
        {"from": "pigtail.PLUS", "to": "second.BAT+", "colour": "red", **thick},
        {"from": "pigtail.MINUS", "to": "second.BAT-", "colour": "black", **thick},
        {"from": "second.JGND", "to": "controller.GND6", "colour": "black", **thin},
    ]
    for n in (1, 2, 3, 4):
        line = {"from": f"second.S{n}", "to": f"controller.D{n + 4}", "colour": "white"}
        out.append({**line, **thin})
        out += [{"from": f"motor.{n + 4}.{x}", "to": f"second.M{n}{x}", **lead} for x in "ABC"]
    return out


def _eight(tree: Tree) -> None:
    parts = tree["parts"]
    parts["frame"]["use"] = "frame-eight"
    parts["controller"]["use"] = "fc-eight"
    parts["second"] = {"use": "esc-lockgate", "at": "50 mm, 0 mm, 26 mm"}
    parts["second"] |= {"face": "up", "yaw": "0 deg"}
    for key in ("motor", "propeller", "propeller-nut"):
        parts[key]["count"] = "8"
    parts["motor-screw"]["count"] = "32"
    for pack in tree["packs"].values():
        pack["parallel"] = "2"  # twice the motors
    tree["wires"] += _wires()
    tree["screws"][0].update(place="motors 1 to 8", count="32")
    own = tree["setup"]["rotation"]["turns"]
    other = {"clockwise": "counter-clockwise", "counter-clockwise": "clockwise"}
    corners = {str(i + 1): f"{c} upper" for i, c in enumerate(CORNERS)}
    corners |= {str(i + 5): f"{c} lower" for i, c in enumerate(CORNERS)}
    turns = {**own, **{str(int(n) + 4): other[turn] for n, turn in own.items()}}
    tree["setup"]["rotation"] = {"corners": corners, "turns": turns}


def _alike(tree: Tree) -> None:
    _eight(tree)
    turns = tree["setup"]["rotation"]["turns"]
    turns["5"] = turns["1"]


def test_a_sound_build_of_pairs_has_no_fault(tmp_path: Path) -> None:
    case = case_of(tmp_path, "curlew", _eight, _shelf())
    verdict = verdict_of(case)
    faults = [f"{f.code}: {f.message}" for f in verdict.faults if f.severity == Severity.FAULT]
    assert faults == []
    judged = {a.rule.code for a in verdict.answers if a.passed}
    assert "setup/turns-do-not-balance" in judged


def test_a_pair_that_turns_alike_is_found_once(tmp_path: Path) -> None:
    verdict = verdict_of(case_of(tmp_path, "curlew", _alike, _shelf()))
    found = [f for f in verdict.findings if f.code == "setup/turns-do-not-balance"]
    assert ["above each other" in f.message for f in found] == [True]


def test_the_wash_is_in_hover_and_full_throttle(tmp_path: Path) -> None:
    """The same aircraft with its lower motors aside has clear air: theory by T^(3/2)."""
    (tmp_path / "pairs").mkdir()
    (tmp_path / "clear").mkdir()
    pairs = case_of(tmp_path / "pairs", "curlew", _eight, _shelf()).results.flight
    clear = case_of(tmp_path / "clear", "curlew", _eight, _shelf(apart=400.0)).results.flight
    for name, flight in pairs.packs.items():
        other = clear.packs[name]
        in_wash, in_clear = flight.hover.theory_power, other.hover.theory_power
        assert isinstance(in_wash, Figure)
        assert isinstance(in_clear, Figure)
        assert in_wash.value / in_clear.value == pytest.approx(1.281, rel=1e-6)
        top, most = flight.full_thrust, other.full_thrust
        assert isinstance(top, Figure)
        assert isinstance(most, Figure)
        assert top.value / most.value == pytest.approx(1.281 ** (-2 / 3), rel=1e-6)


def test_only_one_pair_is_not_known(tmp_path: Path) -> None:
    """Of eight rotors two are above each other: nobody says what that costs."""
    text = yaml.load(_shelf(apart=30.0), yaml.BaseLoader)
    text["frame-eight"]["motors"]["5"] = f"113 mm, 113 mm, {UNDER} mm"
    flight = case_of(tmp_path, "curlew", _eight, yaml.safe_dump(text)).results.flight
    for found in flight.packs.values():
        assert not isinstance(found.hover_power, Figure)
        assert not isinstance(found.full_thrust, Figure)
