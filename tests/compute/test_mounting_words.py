"""Steps say which way round a board and a propeller go: from the build, or that it is not known.
Common practice.
"""

import re
from pathlib import Path

import pytest

from builder.compute.order.work_order import Plan
from builder.model.source.setup_source import Hand
from builder.pages.told_words import told_words
from builder.pipeline.check import Checked
from tests.rules.altered_demo import Tree, case_of

pytestmark = pytest.mark.slow  # takes long

DEMO = ("dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone")


def _step(plan: object, name: str) -> str:
    assert isinstance(plan, Plan)
    return next(told_words(s.text) for s in plan.steps if s.id == name)


@pytest.mark.parametrize("name", DEMO)
def test_each_motor_is_named_with_its_hand(demo: Checked, name: str) -> None:
    """Read back from the sentence and compared with the file's own words."""
    sheet = demo.sheets[name]
    text = _step(sheet.results.order, "propellers")
    told: dict[str, str] = {}
    for hand, motors in re.findall(
        r"Fit (clockwise|counter-clockwise) propellers on motors? ([^:]+?), as seen", text
    ):
        told |= dict.fromkeys(re.findall(r"(\d+) \(", motors), hand)
    plan = demo.workspace.builds[name].source.setup.rotation
    assert plan is not None
    assert told == plan.turns
    assert "Lettering up" in text
    assert "each hand on its corner" not in text


def test_each_kind_of_propeller_is_fastened_its_own_way(demo: Checked) -> None:
    pressed = _step(demo.sheets["pipit"].results.order, "propellers")
    assert "Press each straight onto its shaft" in pressed
    assert not re.search(r"tighten|screw", pressed)
    screwed = _step(demo.sheets["dipper"].results.order, "propellers")
    assert "both screws" in screwed
    assert "Use no thread lock" in screwed
    nuts = _step(demo.sheets["redshank"].results.order, "propellers")
    assert "hand tool" in nuts
    assert "screws" not in nuts


def _of(tree: Tree, turns: dict[str, Hand]) -> None:
    tree["setup"]["rotation"]["turns"] = turns


@pytest.mark.parametrize(
    ("turns", "unsaid"), [({}, "1234"), ({"1": "clockwise", "2": "counter-clockwise"}, "34")]
)
def test_turns_that_nobody_says_are_not_known(
    tmp_path: Path, turns: dict[str, Hand], unsaid: str
) -> None:
    case = case_of(tmp_path, "dipper", lambda t: _of(t, turns))
    text = _step(case.whole.order, "propellers")
    sentence = next(s for s in re.split(r"(?<=\.) ", text) if "not known: this sheet" in s)
    assert re.findall(r"(\d) \(", sentence) == list(unsaid)
    assert "fit no propeller" in text
    assert isinstance(case.whole.order, Plan)
    rotation = next(s for s in case.whole.order.steps if s.id == "rotation")
    assert [m.label for m in rotation.measures] == [f"motor {n} turns" for n in unsaid]


def test_no_setup_at_all(tmp_path: Path) -> None:
    case = case_of(tmp_path, "pipit", lambda t: t["setup"].pop("rotation"))
    text = _step(case.whole.order, "propellers")
    assert "motors 1, 2, 3 and 4 must turn is not known" in text
    assert "clockwise propellers" not in text


# Where the arrow points after so many degrees clockwise, seen from above: plain geometry.
POINTS = {
    "0 deg": "front",
    "90 deg": "right",
    "180 deg": "rear",
    "270 deg": "left",
    "-90 deg": "left",
    "89.5 deg": "right",
}


@pytest.mark.parametrize("face", ["up", "down"])
@pytest.mark.parametrize("yaw", POINTS)
def test_a_board_is_set_in_as_the_build_says(tmp_path: Path, yaw: str, face: str) -> None:
    def change(tree: Tree) -> None:
        for part in ("controller", "esc"):
            tree["parts"][part].update(yaw=yaw, face=face)

    case = case_of(tmp_path, "dipper", change)
    for part in ("controller", "esc"):
        step = _step(case.whole.order, f"mount {part}")
        assert f"arrow to the {POINTS[yaw]}, face {face}. " in f"{step} "


def test_a_board_that_lies_askew(tmp_path: Path) -> None:
    case = case_of(tmp_path, "dipper", lambda t: t["parts"]["controller"].update(yaw="45 deg"))
    assert "arrow turned 45° clockwise from the front, seen from above, face up" in _step(
        case.whole.order, "mount controller"
    )


def test_a_direction_that_nobody_says_is_not_known(tmp_path: Path) -> None:
    case = case_of(tmp_path, "dipper", lambda t: t["parts"]["controller"].pop("yaw"))
    text = _step(case.whole.order, "mount controller")
    assert "The mounting direction is not given in this sheet: not known." in text
    assert "arrow to" not in text
    assert "as planned" not in text


def test_a_board_without_an_arrow(tmp_path: Path) -> None:
    root = Path(__file__).resolve().parents[2]
    shelf = (root / "builds/shelf/boards.yaml").read_text("utf-8")
    own = "fc-plain:" + shelf.split("fc-hex:")[1].split("\nfc-osier:")[0].replace(
        "  arrow: forward\n", ""
    )
    case = case_of(
        tmp_path, "dipper", lambda t: t["parts"]["controller"].update(use="fc-plain"), own
    )
    assert "not given in this sheet: not known" in _step(case.whole.order, "mount controller")


@pytest.mark.parametrize("name", DEMO)
def test_nothing_is_as_planned(demo: Checked, name: str) -> None:
    plan = demo.sheets[name].results.order
    assert isinstance(plan, Plan)
    assert not [told_words(s.text) for s in plan.steps if "as planned" in told_words(s.text)]


def test_no_thread_lock_on_plastic(tmp_path: Path) -> None:
    """Medium thread lock crazes many plastics: common practice, no source; the demo's duct builder
    says it as well.
    """
    case = case_of(tmp_path, "pipit", lambda t: t["screws"][0].update(lock="yes"))
    text = _step(case.whole.order, "mount motor.1")
    assert "with thread lock" not in text
    assert "Use no thread lock: the frame is moulded nylon" in text


def test_a_part_in_a_cover_is_wired_while_that_is_off(demo: Checked) -> None:
    """Pipit's camera sits in its canopy, which would hide the boards (common practice, no source)."""
    plan = demo.sheets["pipit"].results.order
    assert isinstance(plan, Plan)
    said = {s.id: told_words(s.text) for s in plan.steps}
    assert "Do this with the canopy off the frame: it is fitted later." in said["mount camera"]
    order = [s.id for s in plan.steps]
    wired = max(i for i, s in enumerate(plan.steps) if s.joint is not None)
    assert wired < order.index("mount canopy" if "mount canopy" in order else "fit canopy")
