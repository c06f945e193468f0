"""Rotors that overlap in part, on made-up frames: the factor by theory where it holds, and 'not known'
where nobody says it. Discs are 76.2 mm across.
"""

from math import pi, sqrt

import pytest

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from tests.rules.rule_files import case_of

ACROSS = 76.2  # mm
Seats = list[tuple[float, float, float]]  # mm
CLEAR: Seats = [(60, 60, 5), (60, -60, 5), (-60, -60, 5), (-60, 60, 5)]


def _hover(seats: Seats, **frame: str) -> tuple[MaybeFigure, MaybeFigure]:
    """Power of the hover by theory, and full thrust."""
    motors = {str(i + 1): f"{x} mm, {y} mm, {z} mm" for i, (x, y, z) in enumerate(seats)}
    parts = {"flying-motor": {"count": str(len(seats))}, "propeller": {"count": str(len(seats))}}
    build = {"packs": {"p": {"use": "pack"}}, "setup": {"style": {"factor": "1.2"}}}
    shelf = {"frame": {"motors": motors, **frame}}
    given = {"parts": {**parts, "frame": {}, "esc": {}}, "shelf": shelf, "build": build}
    flown = case_of(given).results.flight.packs["p"]
    return flown.hover.theory_power, flown.full_thrust


def _value(figure: MaybeFigure) -> float:
    assert isinstance(figure, Figure), figure
    return figure.value


def _share(apart: float) -> float:
    """Area of the lens of two discs over one disc, summed in thin strips."""
    strips, r = 20000, ACROSS / 2
    wide = (r - apart / 2) / strips
    x = (apart / 2 + (i + 0.5) * wide for i in range(strips))
    return sum(4 * sqrt(r * r - s * s) * wide for s in x) / (pi * r * r)


def _square(apart: float, lower: float) -> Seats:
    """Four motors at the corners of a square, two of them lower."""
    half = apart / 2
    return [(half, half, 5), (half, -half, 5 - lower), (-half, -half, 5), (-half, half, 5 - lower)]


@pytest.mark.parametrize("apart", (60.0, 70.0))
def test_neighbours_that_overlap_take_more_power(apart: float) -> None:
    """Four pairs of neighbours: thrust to the power of three halves, twice of it where two discs are
    above each other (momentum theory; Leishman, ch. 2).
    """
    power, most = _hover(_square(apart, 12.0))
    clear, full = _hover(CLEAR)
    twice = 4 * _share(apart)
    factor = ((4 - 2 * twice) + twice * 2**1.5) / 4
    assert _value(power) / _value(clear) == pytest.approx(factor, rel=1e-4)
    assert _value(most) / _value(full) == pytest.approx(factor ** (-2 / 3), rel=1e-4)


@pytest.mark.parametrize("seats", [_square(ACROSS, 12.0), _square(ACROSS + 1, 40.0)])
def test_discs_that_only_touch_are_in_clear_air(seats: Seats) -> None:
    expected = [_value(f) for f in _hover(CLEAR)]
    assert [_value(f) for f in _hover(seats)] == pytest.approx(expected)


@pytest.mark.parametrize(
    ("lower", "known"), [(15.0, True), (15.3, False)], ids=("just below", "just above")
)
def test_far_above_each_other_it_is_not_known(lower: float, known: bool) -> None:
    """0.2 diameters are 15.24 mm."""
    for found in _hover(_square(70.0, lower)):
        assert isinstance(found, Figure) == known
        if isinstance(found, Unknown):
            assert "far above each other" in " ".join(found.missing)


def test_where_three_discs_meet_it_is_not_known() -> None:
    seats = [(20.0, 0.0, 5.0), (-20.0, 25.0, 14.0), (-20.0, -25.0, -4.0), (100.0, 100.0, 5.0)]
    for found in _hover(seats):
        assert isinstance(found, Unknown)
        assert "three discs" in " ".join(found.missing)


def test_pairs_above_each_other_whose_neighbours_overlap_are_not_known() -> None:
    seats = [(x, y, z) for x, y, _ in _square(60.0, 0.0) for z in (5.0, -40.0)]
    for found in _hover(seats):
        assert isinstance(found, Unknown)
        assert "three discs" in " ".join(found.missing)


def test_pairs_with_room_between_have_the_factor_of_pairs() -> None:
    """(1 + sqrt 17) / 4, Leishman, ch. 2: of eight motors as of four, each lifts half."""
    seats = [(x, y, z) for x, y, _ in CLEAR for z in (5.0, -40.0)]
    aside = [(x + (250.0 if z < 0 else 0.0), y, z) for x, y, z in seats]
    power, clear = _value(_hover(seats)[0]), _value(_hover(aside)[0])
    assert power / clear == pytest.approx((1 + sqrt(17)) / 4, rel=1e-3)
