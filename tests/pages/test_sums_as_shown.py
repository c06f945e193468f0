"""The sum of the rows shown is the total shown, after rounding, in every table; or a line
'rounding' says why not.
"""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.pages.blocks import Cell, Number, Row, Section, Span, Table
from builder.pages.money.budget_section import budget_section
from builder.pages.rounding import SumOfRows, left_over, places_that_add, shown
from builder.pages.tables.weight_table import weight_table
from builder.pipeline.check import Checked
from builder.rounding import MINUS

NAMES = ("curlew", "dipper", "dipper-light", "pipit", "redshank", "turnstone")


def _decimal(cell: Cell) -> Decimal | None:
    if not cell.pieces:
        return None
    piece = cell.pieces[0]
    text = (
        piece.value if isinstance(piece, Number) else piece.text if isinstance(piece, Span) else ""
    )
    try:
        return Decimal(text.replace(MINUS, "-").replace("+", ""))
    except ArithmeticError:
        return None


def _label(row: Row) -> str:
    piece = row.cells[0].pieces[0]
    return piece.text if isinstance(piece, Span) else ""


@pytest.mark.parametrize("name", NAMES)
def test_weights(demo: Checked, name: str) -> None:
    table = weight_table(demo.sheets[name].results.mass, {})
    rows, groups, since_groups = Decimal(0), Decimal(0), Decimal(0)
    payload = {x.label for x in demo.sheets[name].results.mass.payload}
    sums, carried = 0, Decimal(0)
    for row in table.rows:
        value = _decimal(row.cells[3]) if len(row.cells) > 3 else None
        if row.kind == "subtotal":
            assert value == rows
            groups += value
            rows, sums = Decimal(0), sums + 1
        elif row.kind == "total":
            is_dry = _label(row).startswith("Dry")
            assert value == (groups + rows if is_dry else since_groups + carried + rows)
            since_groups = value if is_dry and value is not None else since_groups
            rows, sums = Decimal(0), sums + 1
        elif value is not None and _label(row) in payload:
            carried += value  # it stands once and flies with each pack
        elif value is not None:
            rows += value
    assert sums > 5


@pytest.mark.parametrize("name", NAMES)
def test_money(demo: Checked, name: str) -> None:
    section = budget_section(demo.sheets[name])
    assert isinstance(section, Section)
    checked = 0
    for table in (b for b in section.blocks if isinstance(b, Table) and len(b.columns) == 7):
        for column in (3, 5):
            lines = [_decimal(r.cells[column]) for r in table.rows if not r.kind]
            total = next((_decimal(r.cells[column]) for r in table.rows if r.kind == "total"), None)
            if total is not None:
                assert sum(x for x in lines if x is not None) == total
                checked += 1
    assert checked >= 3


@given(st.lists(st.floats(0, 500), min_size=1, max_size=12))
def test_a_line_of_rounding_makes_any_sum_come_out(rows: list[float]) -> None:
    total = sum(rows)
    places = places_that_add((SumOfRows(tuple(rows), total),), 1, 2)
    gap = left_over(rows, total, places)
    assert sum((shown(r, places) for r in rows), Decimal(0)) + gap == shown(total, places)
    assert places in (1, 2)


def test_one_more_digit_before_a_line_of_rounding() -> None:
    assert places_that_add((SumOfRows((0.14, 0.14), 0.28),), 1, 2) == 2
    assert places_that_add((SumOfRows((0.1, 0.2), 0.3),), 1, 2) == 1
    assert left_over((0.144, 0.144, 0.144), 0.432, 1) == Decimal("0.1")
