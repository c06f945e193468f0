"""Sound layouts of rotors from three to eight, made up: nothing is found of their turns, corners and
discs, in any order of the motors and in either hand. One motor that turns the wrong way is found.

Which turns are sound is common practice, no source: neighbours turn apart, motors above each other
too; with three motors one has to tilt.
"""

import random
from dataclasses import dataclass
from math import cos, radians, sin
from typing import Any

import pytest

from builder.diagnostics.finding import Severity
from builder.rules.judge import Verdict
from tests.rules.rule_files import judged

ARM = 130.0  # mm
JUDGED = ("setup", "fit")
OTHER = {"clockwise": "counter-clockwise", "counter-clockwise": "clockwise"}
ABOUT_TURNS = {"setup/neighbours-turn-alike", "setup/turns-do-not-balance"}


@dataclass(frozen=True)
class Rotor:
    """One motor: where (mm), at which corner, and which way round."""

    x: float
    y: float
    z: float
    corner: str
    clockwise: bool


def _ring(corners: dict[str, float], *, pairs: bool = False) -> list[Rotor]:
    """Corners by their angle, clockwise from the front, seen from above; neighbours turn apart."""
    out = []
    for i, (corner, angle) in enumerate(corners.items()):
        x, y = ARM * cos(radians(angle)), -ARM * sin(radians(angle))
        if not pairs:
            out.append(Rotor(x, y, 5.0, corner, i % 2 == 0))
            continue
        out.append(Rotor(x, y, 5.0, f"{corner} upper", i % 2 == 0))
        out.append(Rotor(x, y, -40.0, f"{corner} lower", i % 2 == 1))
    return out


CROSS = {"front right": 45.0, "rear right": 135.0, "rear left": 225.0, "front left": 315.0}
PLUS = {"front": 0.0, "right": 90.0, "rear": 180.0, "left": 270.0}
SIX = {"front right": 30.0, "right": 90.0, "rear right": 150.0}
SIX |= {"rear left": 210.0, "left": 270.0, "front left": 330.0}
SIX_PLUS = {"front": 0.0, "front right": 60.0, "rear right": 120.0}
SIX_PLUS |= {"rear": 180.0, "rear left": 240.0, "front left": 300.0}
TRI = {"front right": 60.0, "rear": 180.0, "front left": 300.0}
EIGHT = {"front": 0.0, "front right": 45.0, "right": 90.0, "rear right": 135.0}
EIGHT |= {"rear": 180.0, "rear left": 225.0, "left": 270.0, "front left": 315.0}
EIGHT_X = {"front right": 22.5, "right front": 67.5, "right rear": 112.5, "rear right": 157.5}
EIGHT_X |= {"rear left": 202.5, "left rear": 247.5, "left front": 292.5, "front left": 337.5}
H = [
    Rotor(120, -80, 5, "front right", True),
    Rotor(-120, -80, 5, "rear right", False),
    Rotor(-120, 80, 5, "rear left", True),
    Rotor(120, 80, 5, "front left", False),
]
Y_SIX = [Rotor(r.x, r.y, r.z, r.corner, "upper" in r.corner) for r in _ring(TRI, pairs=True)]
LAYOUTS = {
    "X": _ring(CROSS),
    "H": H,
    "+": _ring(PLUS),
    "six": _ring(SIX),
    "six, one ahead": _ring(SIX_PLUS),
    "eight": _ring(EIGHT),
    "eight, two ahead": _ring(EIGHT_X),
    "eight in pairs": _ring(CROSS, pairs=True),
    "eight in pairs, +": _ring(PLUS, pairs=True),
    "six in pairs": Y_SIX,
}


def _given(rotors: list[Rotor], ducts: bool = False) -> dict[str, Any]:
    """A build whose motors are numbered in the order of the list."""
    many = str(len(rotors))
    numbered = {str(i + 1): r for i, r in enumerate(rotors)}
    frame: dict[str, Any] = {
        "motors": {n: f"{r.x:.2f} mm, {r.y:.2f} mm, {r.z} mm" for n, r in numbered.items()}
    }
    if ducts:
        frame["ducts"] = "yes"
    turns = {n: "clockwise" if r.clockwise else "counter-clockwise" for n, r in numbered.items()}
    rotation = {"corners": {n: r.corner for n, r in numbered.items()}, "turns": turns}
    motors = {"flying-motor": {"count": many}, "propeller": {"count": many}, "frame": {}}
    return {
        "parts": motors,
        "shelf": {"frame": frame},
        "build": {"packs": {"p": {"use": "pack"}}, "setup": {"rotation": rotation}},
    }


def _faults(verdict: Verdict) -> list[str]:
    found = (f for f in verdict.faults if f.code.split("/")[0] in JUDGED)
    about_motors = (f for f in found if f.severity == Severity.FAULT)
    bare = ("setup/fail-safe-missing", "setup/landing-missing", "setup/arming-unclear")
    return [f"{f.code}: {f.message}" for f in about_motors if not f.code.startswith(bare)]


@pytest.mark.parametrize("ducts", (False, True), ids=("open", "ducts"))
@pytest.mark.parametrize("name", LAYOUTS)
def test_a_sound_layout_is_clean_in_any_order_and_hand(name: str, ducts: bool) -> None:
    rolls = random.Random(name)
    for mirrored in (False, True):
        rotors = [Rotor(r.x, r.y, r.z, r.corner, r.clockwise != mirrored) for r in LAYOUTS[name]]
        rolls.shuffle(rotors)
        verdict = judged(_given(rotors, ducts))
        assert _faults(verdict) == []
        passed = {a.rule.code for a in verdict.answers if a.passed}
        assert passed & ABOUT_TURNS, "nobody looked at the turns"


@pytest.mark.parametrize("name", LAYOUTS)
def test_one_motor_that_turns_the_wrong_way_is_found(name: str) -> None:
    rotors = list(LAYOUTS[name])
    first = rotors[0]
    rotors[0] = Rotor(first.x, first.y, first.z, first.corner, not first.clockwise)
    found = {f.code for f in judged(_given(rotors)).findings}
    assert found & ABOUT_TURNS


@pytest.mark.parametrize("name", LAYOUTS)
def test_two_corners_that_are_swapped_are_found(name: str) -> None:
    """The first motor and the one that is farthest from it change their words, not their places."""
    rotors = list(LAYOUTS[name])
    first = rotors[0]
    far = max(
        range(len(rotors)), key=lambda i: abs(rotors[i].x - first.x) + abs(rotors[i].y - first.y)
    )
    last = rotors[far]
    rotors[0] = Rotor(first.x, first.y, first.z, last.corner, first.clockwise)
    rotors[far] = Rotor(last.x, last.y, last.z, first.corner, last.clockwise)
    found = {f.code for f in judged(_given(rotors)).findings}
    assert "setup/rotation-unlike-frame" in found


def test_three_rotors_are_not_known_and_not_found() -> None:
    """With three motors one has to tilt: what that does is not judged, never passed."""
    verdict = judged(_given(_ring(TRI)))
    assert _faults(verdict) == []
    answers = {a.rule.code: a.answer for a in verdict.answers}
    assert answers["setup/turns-do-not-balance"] == "not judged"
