"""Numbers as text against the decimal module, whose arithmetic follows the General Decimal
Arithmetic Specification.
"""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.rounding import MINUS, rounded

_TIES = st.builds(
    lambda n, d: (n + 0.5) * 10.0**-d, st.integers(-(10**6), 10**6), st.integers(0, 9)
)
_SHORT = st.builds(lambda n, d: n / 10.0**d, st.integers(-(10**9), 10**9), st.integers(0, 9))
_ANY = st.floats(-1e12, 1e12)


@given(_ANY | _TIES | _SHORT, st.integers(0, 12))
def test_every_float_rounds_half_away_from_zero(value: float, decimals: int) -> None:
    exact = Decimal(repr(value)).quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_UP)
    shown = f"{abs(exact):f}"
    assert rounded(value, decimals) == (MINUS + shown if exact < 0 and shown.strip("0.") else shown)


@pytest.mark.parametrize(
    ("value", "decimals", "shown"),
    [
        (2.5, 0, "3"),
        (-2.5, 0, "−3"),
        (0.125, 2, "0.13"),
        (1.005, 2, "1.01"),
        (-0.04, 1, "0.0"),
        (2.675, 2, "2.68"),
    ],
)
def test_what_is_half_way_as_it_is_written_goes_up(value: float, decimals: int, shown: str) -> None:
    """1.005 and 2.675 lie below the half in binary; a reader who typed them sees a half."""
    assert rounded(value, decimals) == shown
