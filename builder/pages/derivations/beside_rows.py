"""Likes beside each other: one row a quantity, one column a battery, flight or gate, each cell with
the anchor of its figure. What they are made from is said once, by the rows that it stands in.
"""

from collections.abc import Sequence

from builder.compute.figures.figure import Figure
from builder.pages.blocks import Cell, Column, Inline, Row, Span, Table
from builder.pages.derivations.likes import Likes
from builder.pages.derivations.opened import Opened
from builder.pages.derivations.row_words import (
    common_leaf,
    common_note,
    largest_share,
    note_of,
    spread_from,
    value_of,
)
from builder.pages.derivations.terms import BESIDE, SIGNS, Term, inputs_of, term_pieces, terms_of
from builder.pages.derivations.topics import BATTERY, column_words, topic_of


def _joined(columns: Sequence[list[Inline]]) -> list[Inline]:
    """What the columns take each, in their order."""
    pieces: list[Inline] = []
    for at, own in enumerate(columns):
        pieces += [Span(BESIDE)] if at else []
        pieces += own or [Span("–")]
    return pieces


def _of_column(terms: Sequence[Term], at: int) -> tuple[Term, ...]:
    return tuple(Term(t.symbol, (t.inputs[at],), True) for t in terms if t.inputs[at] is not None)


def _inputs(group: Likes, opened: Opened) -> list[Inline]:
    """What all take alike and the rows that they take by their column; what is left, by column."""
    beside, first = group.by_column, group.figures[0]
    how = first.formula
    terms = terms_of(beside, opened)
    apart = [t for t in terms if not t.same and t.own is None]
    listed = any(f.key in opened.listed for f in group.figures)
    if not terms or listed or (apart and how is not None and how.name in SIGNS):
        return _joined([inputs_of(f, opened) if f is not None else [] for f in beside])
    loose = [t for t in apart if not t.symbol]
    pieces = term_pieces([t for t in terms if t not in loose], first, opened)
    if loose:
        columns = [_of_column(loose, at) for at in range(len(beside))]
        own = _joined([term_pieces(c, first, opened) if c else [] for c in columns])
        pieces += [Span(", "), *own] if pieces else own
    return pieces


def _share(leaf: str, share: str) -> list[Inline]:
    """The share of a leaf as a link to it; nothing where there is none to say."""
    if not share:
        return []
    return [Span(share, f"#{leaf}" if leaf else "")]


def _spread(group: Likes, opened: Opened) -> list[Inline]:
    """Where most of the spread comes from, if more than one input has a spread."""
    words, anchor = common_leaf(group.figures, opened)
    if words:
        return spread_from(words, anchor, "")
    columns = [largest_share(f, opened) if f is not None else ("", "", "") for f in group.by_column]
    names = list(dict.fromkeys(name for name, _, _ in columns if name))
    if not names:
        return []
    if len(names) > 1:
        return _joined([spread_from(*c)[1:] for c in columns])
    shares = [_share(to, share) for _, to, share in columns]
    return [Span(f"; ± most from {names[0]} "), *_joined(shares)]


def _value(figure: Figure | None, note: str, opened: Opened) -> Cell:
    if figure is None:
        return Cell()
    words = Span(value_of(figure, opened))
    return Cell((words,), note_of(figure, note), anchor=figure.anchor)


def _row(group: Likes, above: str, opened: Opened) -> tuple[Row, str]:
    """A row, with the anchor of its formula, which is not said again under the one `above`."""
    how = group.figures[0].formula
    assert how is not None
    anchor, note = opened.formulas.anchor(how), common_note(group.figures)
    pieces: list[Inline] = [Span("likewise") if anchor == above else opened.formula(how)]
    inputs = _inputs(group, opened)
    pieces += [Span(", "), *inputs] if inputs else []
    pieces += _spread(group, opened)
    values = [_value(f, note, opened) for f in group.by_column]
    cells = (Cell((Span(group.title),), note), *values, Cell(tuple(pieces)))
    return Row(cells, anchor=opened.heads[group.key]), anchor


def _column(before: str, subject: str) -> Column:
    """A column of values. A battery's name says enough on a card, where room is short."""
    words = f"{before}{subject}"
    label = subject if before == BATTERY else words
    return Column(words[:1].upper() + words[1:], align="right", label=label)


def beside_table(groups: Sequence[Likes], opened: Opened) -> Table:
    """A row for each quantity of a topic that several batteries, flights or gates have."""
    first = groups[0]
    before = column_words(topic_of(opened.build, first.figures[0].key))
    values = [_column(before, c) for c in first.columns]
    columns = (Column("What", plain=True), *values, Column("From (column | column)", plain=True))
    rows, above = [], ""
    for group in groups:
        row, above = _row(group, above, opened)
        rows.append(row)
    return Table("", columns, tuple(rows), stack=True)
