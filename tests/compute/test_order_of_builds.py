"""Random builds: every insisted constraint holds in the order, by a checker written apart from the
planner.
"""

import pytest
from hypothesis import given, settings

from builder.compute.compute import compute
from builder.compute.order.work_order import Plan
from builder.pages.told_words import told_words
from builder.pipeline.check import Checked
from tests.compute.made_up_builds import CHOICES, Choice, build_of
from tests.compute.order_checker import broken

pytestmark = pytest.mark.slow  # takes long


@settings(max_examples=80, deadline=None)
@given(CHOICES)
def test_the_order_of_a_random_build_can_be_worked_by(choice: Choice) -> None:
    build = build_of(choice)
    plan = compute(build).order
    assert isinstance(plan, Plan)
    assert plan.unknown == ()
    assert broken(build, plan) == []
    place = {s.id: i for i, s in enumerate(plan.steps)}
    for i, (field, name) in enumerate(choice.own):
        meant = [n for n in place if n == name or (name == "solder pigtail" and _pigtail(plan, n))]
        for other in meant:
            assert (place[f"own-{i}"] < place[other]) == (field == "before"), (name, other)


def _pigtail(plan: Plan, name: str) -> bool:
    joint = next(s.joint for s in plan.steps if s.id == name)
    return joint is not None and any(c.part == "pigtail" for c in (joint.contact, *joint.others))


@pytest.mark.parametrize(
    "name", ["dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone"]
)
def test_the_order_of_a_demo_build_can_be_worked_by(demo: Checked, name: str) -> None:
    plan = demo.sheets[name].results.order
    assert isinstance(plan, Plan)
    assert plan.unknown == ()
    assert broken(demo.sheets[name].build, plan) == []


def test_the_checker_finds_a_bad_order() -> None:
    """A plain listing of the steps backwards breaks nearly everything."""
    choice = Choice(False, False, 4, True, ("receiver", "video", "camera"), ("camera",), ())
    build = build_of(choice)
    plan = compute(build).order
    assert isinstance(plan, Plan)
    turned = Plan(plan.steps[::-1], plan.constraints, plan.changes, plan.plain, plan.exact, ())
    assert len(broken(build, turned)) > 25


@pytest.mark.parametrize(
    ("name", "first", "second"),
    [
        ("redshank", "mount esc", "cap-lay"),
        ("redshank", "mount lights", "lights-tie"),
        ("redshank", "solder lights.1.DOUT", "lights-tie"),
        ("curlew", "mount esc", "leads-aft"),
        ("curlew", "mast-up", "mount satellite"),
        ("curlew", "mast-up", "mount compass"),
        ("dipper", "mount esc", "drip-loop"),
        ("dipper", "lay receiver", "antenna-tube"),
        ("dipper", "wedge", "mount camera"),
    ],
)
def test_a_part_sits_before_it_is_tied(demo: Checked, name: str, first: str, second: str) -> None:
    """Common practice, no source; a builder's own `before` (the wedge under the camera) is kept."""
    plan = demo.sheets[name].results.order
    assert isinstance(plan, Plan)
    place = {s.id: i for i, s in enumerate(plan.steps)}
    assert place[first] < place[second]


def test_a_wire_on_the_battery_contact_is_taped_over_until_its_far_end_is_joined() -> None:
    """Common practice, no source. The video transmitter takes its power from the battery's own
    contact.
    """
    build = build_of(Choice(False, False, 4, False, ("video",), (), (), from_pack=True))
    plan = compute(build).order
    assert isinstance(plan, Plan)
    place = {s.id: i for i, s in enumerate(plan.steps)}
    assert (
        place["solder esc.BAT+"]
        < place["tape esc"]
        < place["gate A"]
        < place["gate B"]
        < place["solder video.V"]
    )
    without = Plan(
        tuple(s for s in plan.steps if s.id != "tape esc"),
        (),
        plan.changes,
        plan.plain,
        plan.exact,
        (),
    )
    assert broken(build, without) == [
        "esc.BAT+ has a bare wire at gate A",
    ]


def test_what_hides_under_a_combined_board_waits_for_its_gate(demo: Checked) -> None:
    """Its rails are measured while it lies free with nothing but the pigtail on it; no wire hangs
    on it under power.
    """
    plan = demo.sheets["pipit"].results.order
    assert isinstance(plan, Plan)
    names = [s.id for s in plan.steps]
    between = names[names.index("gate A") : names.index("mount board")]
    assert {"solder board.GND2", "solder board.5V2", "solder board.BZ+", "solder board.BZ-"} <= set(
        between
    )
    assert not [n for n in names if n.startswith("tape ")]


def test_words_say_which_end_is_stripped_and_when(demo: Checked) -> None:
    plan = demo.sheets["redshank"].results.order
    assert isinstance(plan, Plan)
    said = {s.id: told_words(s.text) for s in plan.steps}
    assert (
        "Strip, twist and tin 1 mm at the ends for video. The other ends wait" in said["cut video"]
    )
    assert said["lay video"].endswith("strip and tin them: 1.5 mm.")
    assert "1.5 mm at both ends" in said["cut lights.2"]
    of_pipit = demo.sheets["pipit"].results.order
    assert isinstance(of_pipit, Plan)
    cut = next(told_words(s.text) for s in of_pipit.steps if s.id == "cut buzzer")
    assert "towards buzzer 2 mm; towards board 1.5 mm" in cut
    hidden = demo.sheets["pipit"].results.order
    assert isinstance(hidden, Plan)
    assert (
        next(told_words(s.text) for s in hidden.steps if s.id == "mount buzzer")
        == "Fit Finch buzzer in its place, 26 mm behind the frame's middle."
        " Its builder notes: double-sided tape holds it behind the board."
    )
