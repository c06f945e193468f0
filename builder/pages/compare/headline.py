"""The ten-second answer of a comparison: which is lighter, cheaper, flies longer, by how much, and
whether that is sure. The page for any two makes the same table in the browser.
"""

from builder.compute.compare.difference import Difference, Pair
from builder.compute.figures.figure import Figure, Unknown
from builder.model.values.money_text import Money
from builder.pages.blocks import Cell, Number, Row, Table
from builder.pages.compare.rows import LEFT_OUT, TOO_SMALL
from builder.pages.numbers import cell, money, number
from builder.pages.rows import right_column, table_columns, table_row

SURE = "yes, by over two standard deviations"
UNSURE = "no, by under two standard deviations"
# Question, figure, purpose of the battery, and whether more of the figure wins.
QUESTIONS = (
    ("Lighter in the air, each on its lightest battery", "all-up", "lightest", False),
    ("Flies longer, each on its longest battery", "endurance", "longest", True),
    ("Flies longer on the battery it was flown on", "endurance", "as flown", True),
)


def _amount(change: Figure) -> Number:
    shown = number(change, spread=True, steady=True)
    return Number(shown.value.removeprefix("\u2212"), shown.unit, shown.spread)


def _row(words: str, pair: Pair, more: bool, builds: tuple[str, str], anchor: str) -> Row:
    """One question, answered by the sign of a difference where that is larger than its spread."""
    if isinstance(pair.change, Unknown):
        return table_row(words, "not known", "", "", anchor=anchor)
    if pair.alike:
        return table_row(words, "the same", "", "", anchor=anchor)
    second_wins = (pair.change.value > 0) == more
    who, by = builds[second_wins], Cell((_amount(pair.change),))
    left_out = "" if pair.whole else LEFT_OUT
    if pair.real:
        sure = cell("not known" if left_out else SURE, note=left_out)
        return table_row(words, who, by, sure, anchor=anchor)
    return table_row(words, TOO_SMALL, by, cell(UNSURE, note=left_out), anchor=anchor)


def _cheaper(found: Difference) -> Row:
    """Prices have no spread; one that leaves parts out can only be more."""
    first, second = found.price
    gap = second.minor - first.minor
    words, open_ones = "Cheaper in parts, without batteries and tools", found.unpriced
    if not any(open_ones):
        who = "the same" if not gap else (found.first, found.second)[gap < 0]
        by = money(Money(abs(gap), first.currency)) if gap else ""
        return table_row(words, who, by, "yes" if gap else "", anchor="head-cost")
    dearer_is_open = open_ones == ((True, False) if gap < 0 else (False, True))
    if gap and dearer_is_open:
        by = money(Money(abs(gap), first.currency), at_least=True)
        sure = cell("yes", note=LEFT_OUT)
        return table_row(words, (found.first, found.second)[gap < 0], by, sure, anchor="head-cost")
    return table_row(words, "not known", "", cell("", note=LEFT_OUT), anchor="head-cost")


def headline_table(found: Difference) -> Table:
    """Lighter, cheaper, longer: the answer, by how much, and whether it is sure."""
    builds = found.first, found.second
    dry = _row("Lighter without a battery", found.dry, False, builds, "head-dry")
    rows = [dry, _cheaper(found)]
    for words, figure, purpose, more in QUESTIONS:
        pair = found.of_use(figure, purpose)
        if pair is not None:
            anchor = f"head-{purpose.replace(' ', '-')}"
            rows.append(_row(words, pair[0], more, builds, anchor))
    heads = table_columns("Which is", "Answer", right_column("By"), "Is that sure?")
    return Table("In short", heads, tuple(rows), "headline", stack=True)
