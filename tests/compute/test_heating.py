"""Heat of joints on builds: which joint is the hardest, which tip it gets, what another solder or a
weak iron changes.
"""

import pytest

from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.compute.joints.heating import HOTTEST, PRACTICE, iron_power
from builder.compute.joints.joints import Joint
from builder.model.build import Build
from builder.pipeline.check import Checked
from tests.compute.small_workspace import one_build

SHELF = """
fc: {kind: flight-controller, name: Board, size: 30 x 30 mm, pads: {G: {role: ground, copper: COPPER, pad_size: 3 x 3 mm}}}
lamp: {kind: lights, name: Lamp, pads: {G: {role: ground}}}
solder: {kind: consumable, name: Solder, alloy: ALLOY, melts: MELTS, leaded: LEADED}
"""
TIN_LEAD = {"ALLOY": "Sn63Pb37", "MELTS": "183-183 degC", "LEADED": "yes"}
LEAD_FREE = {"ALLOY": "SAC305", "MELTS": "217-220 degC", "LEADED": "no"}


def _joint(copper: str, gauge: str, solder: dict[str, str]) -> Joint:
    shelf = SHELF.replace("COPPER", copper)
    for word, text in solder.items():
        shelf = shelf.replace(word, text)
    wire = f"{{from: lamp.G, to: fc.G, gauge: {gauge}, length: 60 mm}}"
    made = one_build(
        shelf, f"title: T\nparts: {{fc: fc, lamp: lamp, solder: solder}}\nwires: [{wire}]"
    )
    return next(j for j in compute(made).joints if j.contact.part == "fc")


def test_the_negative_battery_contact_is_the_hardest_joint(demo: Checked) -> None:
    """Common practice, no source: it sits on the ground plane, and wants the broad tip."""
    for name, board in (
        ("dipper", "esc"),
        ("redshank", "esc"),
        ("curlew", "esc"),
        ("pipit", "board"),
    ):
        joints = [j for j in demo.sheets[name].results.joints if j.contact.part == board]
        hardest = max(joints, key=lambda j: j.heat.power)
        assert hardest.contact.pad == "BAT-", name
        assert hardest.tip == "broad", name


def test_battery_and_capacitor_minus_are_one_heating(demo: Checked) -> None:
    """Common practice, no source."""
    minus = [j for j in demo.sheets["dipper"].results.joints if str(j.contact) == "esc.BAT-"]
    assert [sorted(c.part for c in j.others) for j in minus] == [["capacitor", "pigtail"]]


@pytest.mark.parametrize(
    ("copper", "gauge", "tip"),
    [("signal", "30 AWG", "fine"), ("power", "24 AWG", "medium"), ("plane", "12 AWG", "broad")],
)
def test_more_copper_gets_a_broader_tip(copper: str, gauge: str, tip: str) -> None:
    """Common practice, no source."""
    assert _joint(copper, gauge, TIN_LEAD).tip == tip


def test_heat_grows_with_copper_and_with_the_wire() -> None:
    thin, thick = (_joint("plane", g, TIN_LEAD).heat for g in ("28 AWG", "12 AWG"))
    trace = _joint("signal", "28 AWG", TIN_LEAD).heat
    assert trace.power < thin.power < thick.power
    for less, more in ((trace, thin), (thin, thick)):
        assert isinstance(less.heat, Figure)
        assert isinstance(more.heat, Figure)
        assert less.heat.value < more.heat.value


def test_lead_free_solder_wants_twenty_degrees_more() -> None:
    """Common practice, no source; SAC305 is liquid from 220 °C, Sn63Pb37 from 183 °C (makers'
    tables, secondary copies).
    """
    leaded, free = (_joint("signal", "28 AWG", s).heat for s in (TIN_LEAD, LEAD_FREE))
    assert (leaded.melts, free.melts) == pytest.approx((183.0, 220.0))
    assert [a - b for a, b in zip(free.iron, leaded.iron, strict=True)] == [20, 20]
    assert free.power > leaded.power


def test_iron_and_dwell_stay_in_the_ranges_of_practice(demo: Checked) -> None:
    """Common practice, no source: fine 320-350 °C 2-3 s, medium 350-380 3-5, broad 380-420 8-10;
    none above 430.
    """
    assert {t: (p.iron, p.dwell) for t, p in PRACTICE.items()} == {
        "fine": ((320, 350), (2, 3)),
        "medium": ((350, 380), (3, 5)),
        "broad": ((380, 420), (8, 10)),
    }
    for sheet in demo.sheets.values():
        for joint in sheet.results.joints:
            assert joint.heat.iron[0] <= joint.heat.setting <= joint.heat.iron[1] <= HOTTEST
            assert joint.heat.setting >= joint.heat.melts + 100


def _with_iron(power: str) -> Build:
    shelf = (
        f"iron: {{kind: tool, name: Iron, power: {power}, tips: {{fine: cone}}}}\nmeter: {{kind:"
        " tool, name: M, power: 5 W}"
    )
    return one_build(shelf, "title: T\nparts: {meter: meter, iron: iron}")


def test_the_iron_is_the_tool_that_has_tips() -> None:
    assert iron_power(_with_iron("60 W")) == 60.0


def test_every_joint_tells_its_dwell_or_why_not(demo: Checked) -> None:
    """The lumped dwell is a lower bound of practice; where it is unknown the formula says why."""
    for sheet in demo.sheets.values():
        for joint in sheet.results.joints:
            least = joint.heat.least_dwell
            if isinstance(least, Figure):
                assert 0 < least.value < joint.heat.dwell[1] * 1.6
            else:
                assert "never gets hot enough" in least.missing[0]


def test_a_board_is_warmed_where_the_tip_alone_is_too_little(demo: Checked) -> None:
    """Common practice, no source. The ground of the small video transmitter takes no broader tip,
    and loses more heat than
    the medium one passes."""
    heats = {str(j.contact): j.heat for j in demo.sheets["pipit"].results.joints}
    assert not isinstance(heats["video.GND"].least_dwell, Figure)
    assert heats["video.GND"].warm_first
    assert not heats["board.BAT-"].warm_first, (
        "the broad tip has it hot in about 3 s by the figures"
    )
    assert not heats["camera.5V"].warm_first
    for sheet in demo.sheets.values():
        for joint in sheet.results.joints:
            least = joint.heat.least_dwell
            assert joint.heat.warm_first == (
                not isinstance(least, Figure) or least.value > joint.heat.dwell[1]
            )
