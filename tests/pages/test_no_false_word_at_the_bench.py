"""What is read with a hot iron in hand holds everywhere: no sentence of the sheet is denied by a
step or another sentence.

Common practice, no source.
"""

import re

import pytest

from builder.compute.figures.figure import Figure
from builder.compute.order.work_order import Plan
from builder.pages.blocks import Table
from builder.pages.compare.page import compare_page
from builder.pages.sections.first_power_up import first_power_up
from builder.pages.sections.radio import radio_section
from builder.pages.sections.setup_tests import setup_tests
from builder.pages.told_words import told_words
from builder.pipeline.check import Checked, judged_alone
from builder.rules.could_stay import stays
from tests.compute.small_workspace import one_build
from tests.pages.test_first_power_up import BUILDS, _gates, _texts

pytestmark = pytest.mark.slow  # takes long


def _plan(demo: Checked, name: str) -> Plan:
    plan = demo.sheets[name].results.order
    assert isinstance(plan, Plan)
    return plan


@pytest.mark.parametrize("name", BUILDS)
def test_steps_with_power_between_gates_are_not_denied(demo: Checked, name: str) -> None:
    """Steps between gates take power from USB or a battery, so the head may not say that none does."""
    assert any(s.power for s in _plan(demo, name).steps)
    text = " ".join(_texts(first_power_up(demo.sheets[name]).blocks))
    assert "All steps between gates are done without power" not in text
    assert "only where a step names it" in text


@pytest.mark.parametrize("name", BUILDS)
def test_limiter_stays_in_for_its_gate_and_the_last_gate_puts_it_in_again(
    demo: Checked, name: str
) -> None:
    """A step takes the limiter out before the last gate: no gate may promise that it stays until
    there.
    """
    assert any("Take the limiter out" in told_words(s.text) for s in _plan(demo, name).steps)
    *first, last = _gates(demo.sheets[name])
    for lines in first:
        assert not any("it comes out at gate" in x for x in lines)
        assert any(
            x.startswith("Without a bench supply.") and "Leave it in for all of this gate." in x
            for x in lines
        )
    text = " ".join(last)
    put_in = text.index("Put it in again")
    emptied = text.index("reads under 1 V, as below", put_in)
    assert text.index("Take the limiter out") > emptied
    assert text.count("Take the limiter out") == 1


@pytest.mark.parametrize("name", BUILDS)
def test_the_beep_test_has_one_name(demo: Checked, name: str) -> None:
    steps = [
        t
        for s in _plan(demo, name).steps
        if s.own is None
        for t in (told_words(s.text), *(m.expect for m in s.measures))
    ]
    assert not [t for t in steps if re.search(r"\b[Rr]ings?\b", t)]


def test_the_battery_is_off_and_the_capacitor_empty_before_a_wire_is_unsoldered(
    demo: Checked,
) -> None:
    one, other = demo.sheets["dipper"], demo.sheets["redshank"]
    page = compare_page(one, other, stays(one.build, other.build, other.verdict))
    turning = next(s for s in page.sections if s.anchor == "turning")
    line = next(x for x in _texts(turning.blocks) if "iron comes near" in x)
    assert line.index("propellers off") < line.index("gates of the first power-up")
    assert line.index("Unplug the battery") < line.index("reads under 1 V") < line.index("iron")
    assert "Wait until plus to minus at pigtail reads under 1 V" in line


@pytest.mark.parametrize("name", BUILDS)
def test_lost_link_names_its_time_before_what_happens(demo: Checked, name: str) -> None:
    """What happens may be a long sentence of the builder's own; a time behind it reads as part of
    its last words.
    """
    line = next(x for x in _gates(demo.sheets[name])[-1] if "switch the transmitter off" in x)
    plan = demo.sheets[name].build.source.setup.fail_safe
    assert plan is not None and plan.does == "motors stop"
    assert "Watch: within 1.0 s all motors must stop." in line


@pytest.mark.parametrize("name", BUILDS)
def test_air_moves_over_the_boards_whenever_the_list_gives_them_power(
    demo: Checked, name: str
) -> None:
    """Set-up takes longer than the 30 or 60 s that the gates allow without moving air."""
    lines = _texts(setup_tests(demo.sheets[name]).blocks)
    feeding = [x for x in lines if x.startswith("[ ] Power: ")]
    assert len(feeding) == 2
    assert all("fan" in x for x in feeding)


@pytest.mark.parametrize("name", BUILDS)
def test_channels_are_judged_by_their_middle_and_say_so(demo: Checked, name: str) -> None:
    """How wide a channel is, no field says: its edges may lie outside what is allowed while its
    middle is inside.
    """
    section = radio_section(demo.sheets[name])
    assert section is not None
    table = next(b for b in section.blocks if isinstance(b, Table))
    assert [c.heading for c in table.columns if "llowed" in c.heading] == ["Middle allowed here"]
    assert "its edges" in table.note and "not known" in table.note


@pytest.mark.parametrize("name", BUILDS)
def test_no_answer_says_more_than_rated_of_packs_that_are_within(demo: Checked, name: str) -> None:
    """A builder's answer about full throttle agrees with the sheet's own table of what carries it."""
    sheet = demo.sheets[name]
    answers = [
        q.answer for q in sheet.build.source.questions if "more than they are rated for" in q.answer
    ]
    over = []
    for key, pack in sheet.build.packs.items():
        peak = sheet.results.flight.packs[key].peak_current
        assert (
            isinstance(peak, Figure)
            and pack.part.discharge is not None
            and pack.part.capacity is not None
        )
        over.append(
            peak.value > pack.part.discharge.current(pack.part.capacity.value) * pack.use.parallel
        )
    assert not answers or any(over)


@pytest.mark.parametrize("name", BUILDS)
def test_a_limit_of_the_throttle_that_the_sheet_asks_for_has_a_box(
    demo: Checked, name: str
) -> None:
    """Redshank's old battery is marked for less than full throttle takes: flying it asks for the
    limit to be set.
    """
    sheet = demo.sheets[name]
    asked = [
        x
        for x in _texts(setup_tests(sheet).blocks)
        if "Check that the settings limit full throttle." in x
    ]
    assert bool(asked) == any(r.over or r.close for r in sheet.results.flight.limits)
    assert all(x.startswith("[ ] ") for x in asked)


@pytest.mark.parametrize(
    ("does", "seen"),
    [
        ("comes home", "the motors go on, and may speed up"),
        ("lands", "the motors go on, slower"),
        ("other: the lamps blink", "the lamps blink"),
    ],
)
def test_a_lost_link_that_does_not_stop_the_motors_is_not_said_to(does: str, seen: str) -> None:
    """A hand near motors that are said to stop is cut where they are set to bring the aircraft
    home.
    """
    build = one_build(
        "frame: {kind: frame, name: F}",
        f"title: T\nsetup: {{fail_safe: {{does: '{does}', within: 2 s}}}}",
    )
    lines = _texts(setup_tests(judged_alone(build)).blocks)
    lost = lines[lines.index("Lost link") + 1 : lines.index("Arming")]
    assert any(f"Watch: within 2.0 s {seen}." in x for x in lost)
    assert not any("motors stop" in x or "stay still" in x for x in lost)
    assert any("keep clear" in x for x in lost)


@pytest.mark.parametrize("name", BUILDS)
def test_arming_that_waits_for_satellites_is_tried_where_they_are_seen(
    demo: Checked, name: str
) -> None:
    """Indoors it is refused, and a builder who then takes the condition out flies without it."""
    setup = demo.sheets[name].build.source.setup
    last = _gates(demo.sheets[name])[-1]
    outdoors = [i for i, x in enumerate(last) if x.startswith("[ ] Now go outdoors, unplugged")]
    assert len(outdoors) == any("satellites" in a for a in setup.arming)
    plugged = next(j for j, x in enumerate(last) if "clear of the motors. Plug in" in x)
    assert all(i < plugged for i in outdoors), "nobody carries it out with power on"
