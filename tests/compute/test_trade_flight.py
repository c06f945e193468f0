"""A flight that people have made: the band of a gentle style holds it."""

from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.compute.flight.flight import BAND
from tests.compute.small_workspace import one_build

SHELF = """
frame: {kind: frame, name: Frame, mass: {measured: 195 g}}
motor: {kind: motor, name: Motor, mass: {measured: 1 g}}
prop: {kind: propeller, name: Propeller, diameter: 3.5 in, mass: {measured: 0.25 g}}
pack: {kind: pack, name: Pack, chemistry: lithium-polymer, cells: 4S, capacity: 850 mAh, mass: {measured: 90 g},
  resistance: 6 mohm}
"""
BUILD = """title: T
parts: {frame: frame, motor: {use: motor, count: 4}, prop: {use: prop, count: 4}}
packs: {pack: pack}
%s
"""
COLD = "title: T\nplace: {altitude: 0 m, temperature: 4 degC}"


def test_band_of_the_gentle_style_holds_six_minutes() -> None:
    """290 g, 3.5 inch, four cells of 850 mAh, 4 degC: 6 minutes. Common practice, no source."""
    found = compute(one_build(SHELF, BUILD % "", COLD)).flight.packs["pack"]
    assert isinstance(found.mass, Figure)
    assert abs(found.mass.value - 0.290) < 1e-9
    time = found.endurance_styled
    assert isinstance(time, Figure), time
    low, high = time.band(BAND)
    assert low <= 360 <= high, (low, high)


def test_implied_style_lies_between_gentle_and_brisk() -> None:
    """The same flight logged with 80 % of the pack used: mean power over hover power is 1.2 to 3."""
    log = "flights: [{date: 2026-01-10, pack: pack, airborne: 6 min, air: 4 degC, used: 680 mAh}]"
    style = compute(one_build(SHELF, BUILD % log, COLD)).flight.style
    assert style.used == 1
    assert isinstance(style.factor, Figure)
    assert 1.2 <= style.factor.value <= 3, style.factor.value
    assert isinstance(style.following, Figure)
    assert style.following.spread > style.factor.spread
