"""Where a flight ends is one answer, whoever asks: the estimate, the corners, the page, the rules.

What is nearer to the flight goes first. Volts of the curve: lithium-polymer 3.73 V rested with a
fifth left, 3.80 V with two fifths (common practice, from memory); 0.15 V less under load.
"""

import pytest

from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.pages.blocks import Span
from builder.pages.sections.flight import flight_section
from builder.pipeline.check import judged_alone
from tests.compute.small_workspace import one_build
from tests.pages.test_setup_and_upkeep import _walk

SHELF = """
frame: {kind: frame, name: Frame, mass: {measured: 195.0 g}}
motor: {kind: motor, name: Motor, mass: {measured: 1.0 g}}
prop: {kind: propeller, name: Propeller, diameter: 3.5 in, mass: {measured: 0.25 g}}
pack: {kind: pack, name: Pack, chemistry: lithium-polymer, cells: 4S, capacity: 850 mAh,
  mass: {measured: 90.0 g}, resistance: 6 mohm%s}
"""
BUILD = """title: T
parts: {frame: frame, motor: {use: motor, count: 4}, prop: {use: prop, count: 4}}
packs: {pack: {use: pack%s}}
%s
"""
SHARE, VOLTS = "setup: {landing: {share: 40 %}}", "setup: {landing: {volts: 3.6 V}}"
RESTED = "setup: {landing: {volts: 3.75 V, volts_are: rested}}"
OF_PACK, OF_SHELF = ", landing: 3.4 V", ", landing: 3.3 V"


@pytest.mark.parametrize(
    ("of_pack", "of_setup", "of_shelf", "volts"),
    [
        (OF_PACK, SHARE, OF_SHELF, 3.40),
        (OF_PACK, VOLTS, OF_SHELF, 3.40),
        ("", SHARE, OF_SHELF, 3.65),
        ("", VOLTS, OF_SHELF, 3.60),
        ("", RESTED, OF_SHELF, 3.60),
        ("", "", OF_SHELF, 3.30),
        ("", SHARE, "", 3.65),
        ("", "", "", 3.58),
    ],
)
def test_all_who_ask_get_the_landing_that_is_nearest_to_the_flight(
    of_pack: str, of_setup: str, of_shelf: str, volts: float
) -> None:
    build = one_build(SHELF % of_shelf, BUILD % (of_pack, of_setup), "title: T")
    results = compute(build)
    assert results.power.packs[0].landing == pytest.approx(4 * volts, abs=1e-9)
    flown = results.flight.packs["pack"]
    share, used = flown.reserve.share, flown.energy.landing_share
    assert isinstance(share, Figure)
    assert isinstance(used, Figure)
    assert used.value == pytest.approx(share.value, abs=1e-12)
    spans = [x.text for x in _walk(flight_section(judged_alone(build))) if isinstance(x, Span)]
    assert any(f"{volts:.2f} V a cell" in text for text in spans)


@pytest.mark.parametrize(("alarm", "late"), [("14.1 V", False), ("13.9 V", True)])
def test_an_alarm_is_held_against_a_share_as_well_as_against_volts(
    alarm: str, *, late: bool
) -> None:
    """A fifth left is 14.32 V under load, known to 0.08 V a cell: 14.00 V is the least."""
    more = f"setup: {{landing: {{share: 20 %}}, alarms: [{{pack: pack, volts: {alarm}}}]}}"
    build = one_build(SHELF % "", BUILD % ("", more), "title: T")
    found = {f.code for f in judged_alone(build).verdict.findings}
    assert ("setup/alarm-too-late" in found) is late
