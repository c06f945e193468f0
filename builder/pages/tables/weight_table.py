"""The weight table: rows by group with subtotals, dry, payload, each pack, all-up; totals agree
with rows as shown.
"""

from collections.abc import Sequence

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from builder.compute.weight.mass import MassTable
from builder.compute.weight.mass_lines import MassLine
from builder.pages.blocks import Cell, Column, Inline, Row, Span, Table
from builder.pages.derivations.derivation import BASIS_WORDS
from builder.pages.numbers import number
from builder.pages.rounding import SumOfRows, left_over, places_that_add, rounding_text
from builder.pages.rows import table_columns, table_row

_COLUMNS = table_columns(
    "Part",
    Column("Pieces", align="right", narrow=True),
    Column("Each", "g", "right"),
    Column("Together", "g", "right"),
    Column("Spread", "g", "right"),
    "Basis",
)
_GRAMS = 1000.0


def _grams(figures: Sequence[MaybeFigure]) -> tuple[float, ...]:
    return tuple(f.value * _GRAMS for f in figures if isinstance(f, Figure))


def _flying(mass: MassTable, pack: str) -> list[MaybeFigure]:
    """What the flying weight with a pack is the sum of."""
    return [mass.dry_sum, *(x.line for x in mass.payload), mass.packs[pack].line]


def sums_of(mass: MassTable) -> tuple[SumOfRows, ...]:
    """Every sum that the table shows: group by group, the groups to dry; dry, payload and pack to
    all-up.
    """
    sums = []
    for group, figure in mass.groups.items():
        own = [x.line for x in mass.lines if x.group == group]
        sums.append(SumOfRows(_grams(own), figure.value * _GRAMS))
    sums.append(SumOfRows(_grams(list(mass.groups.values())), mass.dry_sum.value * _GRAMS))
    for pack, figure in mass.all_up_sum.items():
        sums.append(SumOfRows(_grams(_flying(mass, pack)), figure.value * _GRAMS))
    return tuple(sums)


def _basis(line: MassLine) -> Cell:
    """Which basis is trusted, and the others beside it."""
    if isinstance(line.each, Unknown):
        return Cell((Span("not known"),), tone="bad")
    pieces: list[Inline] = [Span(BASIS_WORDS[line.each.basis])]
    for other in line.others:
        pieces += [Span(f"; {BASIS_WORDS[other.basis]} "), number(other)]
    return Cell(tuple(pieces))


def _spread(figure: MaybeFigure) -> Cell:
    if isinstance(figure, Unknown) or not figure.spread:
        return Cell()
    both = number(figure, spread=True)
    return Cell((Span(both.spread),))  # the number beside it leads to the derivation of both


def _row(line: MassLine, places: int, link: str) -> Row:
    several = line.count > 1
    cells = (
        Cell((Span(line.label, link),)),
        Cell((Span(str(line.count)),)),
        Cell((number(line.each, unit=False, decimals=2),)) if several else Cell(),
        Cell((number(line.line, unit=False, decimals=places),)),
        _spread(line.line),
        _basis(line),
    )
    return Row(cells)


def _sum_row(label: str, figure: Figure, places: int, kind: str) -> Row:
    shown = Cell((number(figure, unit=False, decimals=places),))
    cells = (Cell((Span(label),)), Cell(), Cell(), shown, _spread(figure), Cell())
    return Row(cells, kind="total" if kind == "total" else "subtotal")


def _rounding_row(rows: Sequence[MaybeFigure], total: Figure, places: int) -> list[Row]:
    gap = left_over(_grams(rows), total.value * _GRAMS, places)
    if not gap:
        return []
    cells = (
        Cell((Span("rounding"),)),
        Cell(),
        Cell(),
        Cell((Span(rounding_text(gap, places)),), tone="quiet"),
    )
    return [Row((*cells, Cell(), Cell()))]


def weight_rows(mass: MassTable, links: dict[str, str], places: int) -> tuple[Row, ...]:
    """All rows, with a line 'rounding' wherever rows as shown do not add up to the total as shown."""
    rows: list[Row] = []
    for group, figure in mass.groups.items():
        lines = [x for x in mass.lines if x.group == group]
        rows.append(table_row("Battery" if group == "pack" else group.capitalize(), kind="group"))
        rows += [_row(x, places, links.get(x.key, "")) for x in lines]
        rows += _rounding_row([x.line for x in lines], figure, places)
        rows.append(_sum_row(group, figure, places, "subtotal"))
    rows += _rounding_row(list(mass.groups.values()), mass.dry_sum, places)
    rows.append(_sum_row("Dry weight, sum of the parts", mass.dry_sum, places, "total"))
    rows += [_row(line, places, links.get(line.key, "")) for line in mass.payload]
    for pack, line in mass.packs.items():
        rows.append(_row(line, places, links.get(line.key, "")))
        rows += _rounding_row(_flying(mass, pack), mass.all_up_sum[pack], places)
        label = f"Flying weight with {mass.flown_with(pack)}, sum"
        rows.append(_sum_row(label, mass.all_up_sum[pack], places, "total"))
    return tuple(rows)


def weight_table(mass: MassTable, links: dict[str, str]) -> Table:
    """The table, with as many decimals as make its sums come out, if one or two do."""
    places = places_that_add(sums_of(mass), 1, 2)
    note = (
        "Every spread is one standard deviation. Rows are never adjusted; where rounding shows, it"
        " has a line."
    )
    return Table(
        "Weight by part",
        _COLUMNS,
        weight_rows(mass, links, places),
        anchor="weight-table",
        note=note,
    )
