"""Sound builds with readings, repairs, notes and places that are unusual and right: no rule that
holds statements against each other says anything of them. Common practice, no source.
"""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from builder.rules.find_rules import all_rules
from builder.rules.judge import judge
from tests.rules.altered_demo import Tree, case_of, wire

pytestmark = pytest.mark.slow  # takes long

ASKED = (
    "data/reading-out-of-bounds",
    "data/note-disagrees",
    "fit/camera-looks-aft",
    "fit/one-place-for-two",
    "fit/strap-unlike-slot",
    "fit/thread-unlike",
)


def _read_with_the_battery(tree: Tree) -> None:
    line = {"date": "2026-09-20", "step": "gate A", "at": "esc.BAT+", "measured": "24.9 V"}
    tree["as_built"] = [line, {"date": "2026-09-20", "text": "Strap moved back a little."}]


def _ohms_and_a_wire(tree: Tree) -> None:
    day = {"date": "2026-09-20"}
    tree["as_built"] = [
        {**day, "step": "gate A", "measured": "0.3 ohm"},
        {**day, "step": "camera.VID to controller.VID-IN", "measured": "84 mm"},
        {**day, "step": "gate B", "at": "controller.10V1", "measured": "9.98 V"},
    ]


def _piece_and_shelf_part_replaced(tree: Tree) -> None:
    tree["incidents"][0]["replaced"] = ["frame", "motor.3", "screw-m2x4"]
    tree["maintenance"][0]["replaced"] = ["old"]


def _notes_that_tell_of_something_else(tree: Tree) -> None:
    tree["parts"]["camera"]["note"] = "flown upright; 19 mm between the cheeks"
    wire(tree, "camera.VID", "controller.VID-IN")["note"] = "cut 5 mm too long"
    tree["packs"]["old"]["note"] = "not for 4S chargers"
    tree["plugs"][0]["note"] = "cable reversed, see above"


def _receiver_on_the_board(tree: Tree) -> None:
    tree["parts"]["receiver"]["at"] = "0 mm, 0 mm, 26 mm"


def _camera_looks_down_in_the_middle(tree: Tree) -> None:
    tree["parts"]["camera"].update(at="-5 mm, 0 mm, -10 mm", yaw="20 deg")


def _a_second_camera_looks_back(tree: Tree) -> None:
    tree["parts"]["rear"] = {"use": "cam-weir", "at": "-90 mm, 0 mm, 20 mm", "yaw": "180 deg"}


def _nuts_of_the_frame(tree: Tree) -> None:
    del tree["parts"]["stack-nut"]


BUILDS: list[tuple[str, Callable[[Tree], None]]] = [
    ("curlew", _read_with_the_battery),
    ("redshank", _ohms_and_a_wire),
    ("redshank", _piece_and_shelf_part_replaced),
    ("redshank", _notes_that_tell_of_something_else),
    ("redshank", _receiver_on_the_board),
    ("redshank", _camera_looks_down_in_the_middle),
    ("dipper", _a_second_camera_looks_back),
    ("dipper", _nuts_of_the_frame),
]


@pytest.mark.parametrize(("build", "change"), BUILDS, ids=lambda x: getattr(x, "__name__", x))
def test_nothing_is_said_of_it(tmp_path: Path, build: str, change: Any) -> None:
    rules = [r for r in all_rules() if r.code in ASKED]
    assert {r.code for r in rules} == set(ASKED)
    verdict = judge(case_of(tmp_path, build, change), rules)
    found = (f for a in verdict.answers for f in a.findings)
    assert [f"{f.code}: {f.message}" for f in found] == []
