"""Parts by group with their weight, and what it costs in all: tables of the short sheet."""

from collections.abc import Iterable

from builder.compute.figures.figure import MaybeFigure
from builder.compute.flight.flight import PackFlight
from builder.compute.weight.mass import MassTable
from builder.model.values.money_text import Money
from builder.pages.blocks import Column, Row, Table
from builder.pages.brief.picked import MOST_ROWS, rows_left
from builder.pages.numbers import number
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sheet_input import SheetInput

_NAMED = 4  # parts of a group that are named


def _named(names: Iterable[str]) -> str:
    """The first names, and how many more there are."""
    listed = list(dict.fromkeys(names))
    more = f" and {len(listed) - _NAMED} more" if len(listed) > _NAMED else ""
    return f"{', '.join(listed[:_NAMED])}{more}"


def _group_row(mass: MassTable, group: str) -> Row:
    names = _named(
        f"{line.count} × {line.label}" if line.count > 1 else line.label
        for line in mass.lines
        if line.group == group
    )
    return _row(group.capitalize(), names, mass.groups[group])


def _row(what: str, names: str, weight: MaybeFigure) -> Row:
    return table_row(what, names, number(weight))


def parts_by_group(sheet: SheetInput) -> Table | None:
    """A row a group of what flies, the lightest left out where there are too many, then payload and
    batteries; None for a build without parts.
    """
    mass = sheet.results.mass
    carried = [_row("Payload", x.label, x.line) for x in mass.payload]
    carried += [_row(f"Battery {key}", x.label, x.line) for key, x in mass.packs.items()]
    room = max(1, MOST_ROWS - len(carried))
    heaviest = sorted(mass.groups, key=lambda g: -mass.groups[g].value)[:room]
    rows = [_group_row(mass, g) for g in mass.groups if g in heaviest] + carried
    if not rows:
        return None
    left = len(mass.groups) + len(carried) - min(len(rows), MOST_ROWS)
    heads = (Column("Group"), Column("Parts"), Column("Weight", align="right"))
    return Table("", heads, tuple(rows[:MOST_ROWS]), stack=True, note=rows_left(left))


def costs_in_all(sheet: SheetInput) -> Table | None:
    """The totals of the budget; None for a build without parts."""
    budget = sheet.results.budget
    if not budget.lines:
        return None
    digits = Money(0, budget.currency).digits
    named = (
        ("This build", "this-build"),
        ("Batteries", "packs"),
        ("Tools and ground gear, all", "once"),
        ("Tools still to buy", "once-to-buy"),
        ("You pay for parts, spares and batteries", "till"),
        ("You pay in all, with tools still to buy", "to-pay"),
    )
    shown = [(words, budget.figures[key]) for words, key in named if key in budget.figures]
    rows = tuple(table_row(words, number(figure, decimals=digits)) for words, figure in shown)
    note = "What you pay has spares, whole bags and postage in it. Tools are extra."
    if budget.lacks:
        note += f" Without a price, and left out: {_named(budget.lacks)}."
    heads = (Column("What"), Column("Cost", align="right"))
    return Table("", heads, rows, stack=True, note=note)


def _flown_row(words: str, p: PackFlight) -> Row:
    return table_row(
        words,
        number(p.mass),
        number(p.reserve.timer),
        number(p.reserve.time, spread=True),
        number(p.thrust_to_weight),
    )


def flights_by_battery(sheet: SheetInput) -> Table | None:
    """How long and how hard it flies with each battery; None for a build without one."""
    packs = list(sheet.results.flight.packs.values())
    if not packs:
        return None
    mass = sheet.results.mass
    heads = table_columns(
        "Flown with",
        right_column("Weight"),
        right_column("Timer"),
        right_column("Mean to the reserve"),
        right_column("Thrust over weight"),
    )
    rows = tuple(_flown_row(mass.flown_with(p.pack), p) for p in packs[:MOST_ROWS])
    return Table("With each battery", heads, rows, note=rows_left(len(packs) - MOST_ROWS))
