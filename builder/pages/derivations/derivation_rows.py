"""Derivations as rows of a table: what a figure is, its value, and what it was made from. Figures of
one formula are together; the formula stands once above them, with what all of them take alike.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from builder.compute.figures.figure import Figure
from builder.pages.blocks import Cell, Column, Inline, Row, Span, Table
from builder.pages.derivations.beside_rows import beside_table
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
from builder.pages.derivations.terms import SIGNS, Term, inputs_of, term_pieces, terms_of

_MANY = 2  # inputs that are not listed again under a row with the same
_COLUMNS = (
    Column("What", plain=True),
    Column("Value", align="right", plain=True),
    Column("From", plain=True),
)


@dataclass(frozen=True, slots=True)
class _Said:
    """What the heading says for all rows below it: what they take alike, by its place in their
    formula, a note, and the leaf that most of their spread comes from.
    """

    terms: dict[int, Term]
    note: str
    leaf: tuple[str, str]


def _said(group: Likes, opened: Opened) -> _Said:
    figures = group.figures
    how = figures[0].formula
    listed = how is None or how.name in SIGNS or len(figures) == 1
    terms = () if listed else terms_of(figures, opened)
    shared = {at: t for at, t in enumerate(terms) if t.same or t.own is not None}
    return _Said(shared, common_note(figures), common_leaf(figures, opened))


def _row(figure: Figure, name: str, same: bool, said: _Said, opened: Opened) -> Row:
    """A figure; one that takes the `same` as the row above says so."""
    if same:
        pieces: list[Inline] = [Span("as above")]
    elif said.terms:
        own = [t for at, t in enumerate(terms_of((figure,), opened)) if at not in said.terms]
        pieces = term_pieces(own, figure, opened)
    else:
        pieces = inputs_of(figure, opened)
    if not said.leaf[0]:
        pieces += spread_from(*largest_share(figure, opened))
    anchor = opened.short.get(figure.key, "")
    head = Cell((Span(name),), note_of(figure, said.note), anchor=anchor)
    value = Cell((Span(value_of(figure, opened)),))
    return Row((head, value, Cell(tuple(pieces))), anchor=figure.anchor)


def _head(group: Likes, said: _Said, above: str, opened: Opened) -> tuple[Row, str]:
    """The formula of the rows below, what all of them take, and what their names share; with the
    anchor of the formula, which is not said again under the one `above`.
    """
    first = group.figures[0]
    how = first.formula
    assert how is not None
    anchor = opened.formulas.anchor(how)
    pieces: list[Inline] = [Span(f"{group.title}: ")] if group.title else []
    pieces.append(Span("likewise") if anchor == above and group.title else opened.formula(how))
    alike = term_pieces(tuple(said.terms.values()), first, opened)
    pieces += [Span(", "), *alike] if alike else []
    pieces += [Span(f": {said.note}")] if said.note else []
    pieces += spread_from(*said.leaf, "")
    own = opened.heads.get(group.key, "")
    return Row((Cell(tuple(pieces)),), kind="group", anchor=own), anchor


def _same_together(group: Likes) -> list[tuple[Figure, str]]:
    """The figures with their names; those of the same inputs follow each other."""
    order: dict[tuple[Figure, ...], int] = {}
    for figure in group.figures:
        order.setdefault(figure.inputs, len(order))
    named = zip(group.figures, group.names, strict=True)
    return sorted(named, key=lambda one: order[one[0].inputs])


def _rows(group: Likes, said: _Said, opened: Opened) -> list[Row]:
    rows = []
    before: tuple[Figure, ...] = ()
    for figure, name in _same_together(group):
        same = figure.inputs == before and len(before) >= _MANY
        rows.append(_row(figure, name, same, said, opened))
        before = figure.inputs
    return rows


def derivation_tables(groups: Sequence[Likes], opened: Opened) -> tuple[Table, ...]:
    """The figures of a topic: those that have rows of their own formula by formula, then likes that
    stand beside each other.
    """
    rows: list[Row] = []
    above = ""
    for group in groups:
        if group.columns:
            continue
        said = _said(group, opened)
        head, above = _head(group, said, above, opened)
        rows += [head, *_rows(group, said, opened)]
    tables = [Table("", _COLUMNS, tuple(rows), stack=True)] if rows else []
    beside = [g for g in groups if g.columns]
    return (*tables, beside_table(beside, opened)) if beside else tuple(tables)
