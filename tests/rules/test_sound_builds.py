"""Sound but unusual builds of our own: none of them has a fault. Common practice, no source.

Each is a demo build with a change that a builder might well make. What is not read yet may be not
judged; a fault it may not be.
"""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from builder.diagnostics.finding import Severity
from tests.rules.altered_demo import Tree, case_of, verdict_of

pytestmark = pytest.mark.slow  # takes long


def _all_black_with_sleeves(tree: Tree) -> None:
    for line in tree["wires"]:
        line.pop("colour", None)


def _steel_nuts_counted_exactly(tree: Tree) -> None:
    tree["parts"]["propeller-nut"]["spares"] = "0"


def _a_skid_under_each_arm(tree: Tree) -> None:
    through = tree["screws"][0]["through"]
    through.append({"what": "skid", "thick": "0.5 mm"})


def _scale_trimmed_by_the_charger(tree: Tree) -> None:
    tree["setup"]["current_sensitivity"] = "27 mV/A"


def _comes_home(tree: Tree) -> None:
    tree["setup"]["fail_safe"] = {"does": "comes home", "within": "1 s"}


def _fail_safe_in_words(tree: Tree) -> None:
    tree["setup"]["fail_safe"] = {"does": "other: circles, then lands", "within": "1 s"}


def _landing_of_the_battery_alone(tree: Tree) -> None:
    del tree["setup"]["landing"]


def _stored_gently(tree: Tree) -> None:
    tree["setup"]["landing"] = {"volts": "3.6 V"}


def _no_control_link_in_the_setup(tree: Tree) -> None:
    del tree["setup"]["control"]


def _no_switches(tree: Tree) -> None:
    del tree["setup"]["switches"]


def _coats_the_boards(tree: Tree) -> None:
    step = {
        "id": "coat-boards",
        "do": "cover",
        "text": "Coat both boards.",
        "coats": ["esc", "controller"],
    }
    tree["steps"].append(step)


def _plugs_without_a_word(tree: Tree) -> None:
    tree["plugs"][0].pop("cable")


def _plugs_of_an_unlisted_cable(tree: Tree) -> None:
    tree["plugs"][0].pop("use")
    tree["parts"].pop("harness")


def _more_screws_than_are_listed(tree: Tree) -> None:
    tree["parts"]["motor-screw"]["count"] = "20"


def _spares_in_use(tree: Tree) -> None:
    tree["parts"]["motor-screw"].update(count="12", spares="8")


def _one_strap_only(tree: Tree) -> None:
    strap = tree["parts"]["strap"]
    strap.pop("count", None)
    strap["at"] = strap.pop("each_at")[0]


def _revised_later(tree: Tree) -> None:
    tree["revised"] = "2026-11-01"


def _only_one_battery(tree: Tree) -> None:
    tree["packs"].pop("large")
    tree["weighed"] = [w for w in tree["weighed"] if w["what"] != "large"]
    tree["flights"] = [f for f in tree["flights"] if f["pack"] != "large"]
    tree["setup"]["alarms"] = [a for a in tree["setup"]["alarms"] if a["pack"] != "large"]


def _power_named_beside_the_part(tree: Tree) -> None:
    tree["parts"]["video"]["set"] = "15 mW"


def _a_mode_in_words_beside_the_part(tree: Tree) -> None:
    tree["parts"]["video"]["set"] = "race mode"


def _numbers_of_motors_from_the_rear(tree: Tree) -> None:
    """No plan of the frame is belied: the numbers stay, the words of the plan too."""
    tree["setup"]["rotation"]["note"] = "numbered clockwise from the front left"


def _camera_off_the_list(tree: Tree) -> None:
    tree["parts"].pop("camera-screw")
    tree["screws"] = [s for s in tree["screws"] if s["place"] != "camera"]


def _plain_said_at_the_port_too(tree: Tree) -> None:
    tree["setup"]["serial"][0]["inverted"] = "no"


def _retired(tree: Tree) -> None:
    tree["status"] = "retired"


def _on_the_bench(tree: Tree) -> None:
    tree["status"] = "on the bench"
    tree["flights"] = []
    del tree["setup"]["fail_safe"]


BUILDS: list[tuple[str, Callable[[Tree], None]]] = [
    ("dipper", _all_black_with_sleeves),
    ("redshank", _steel_nuts_counted_exactly),
    ("redshank", _a_skid_under_each_arm),
    ("dipper", _scale_trimmed_by_the_charger),
    ("curlew", _comes_home),
    ("dipper", _fail_safe_in_words),
    ("dipper", _landing_of_the_battery_alone),
    ("redshank", _stored_gently),
    ("dipper", _no_control_link_in_the_setup),
    ("redshank", _no_switches),
    ("dipper", _coats_the_boards),
    ("redshank", _plugs_without_a_word),
    ("dipper", _plugs_of_an_unlisted_cable),
    ("dipper", _more_screws_than_are_listed),
    ("redshank", _spares_in_use),
    ("redshank", _one_strap_only),
    ("pipit", _revised_later),
    ("dipper", _only_one_battery),
    ("dipper", _power_named_beside_the_part),
    ("dipper", _a_mode_in_words_beside_the_part),
    ("curlew", _numbers_of_motors_from_the_rear),
    ("dipper", _camera_off_the_list),
    ("dipper", _plain_said_at_the_port_too),
    ("redshank", _retired),
    ("dipper", _on_the_bench),
]


@pytest.mark.parametrize(("build", "change"), BUILDS, ids=lambda x: getattr(x, "__name__", x))
def test_a_sound_build_has_no_fault(tmp_path: Path, build: str, change: Any) -> None:
    verdict = verdict_of(case_of(tmp_path, build, change))
    faults = [f"{f.code}: {f.message}" for f in verdict.faults if f.severity == Severity.FAULT]
    assert faults == []


def test_the_changes_change_something() -> None:
    """A change that is none would pass for the wrong reason."""
    assert len({c.__name__ for _, c in BUILDS}) == len(BUILDS) == 25
