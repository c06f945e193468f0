"""Derivations as rows of a table: what a figure is, its value, and what it was made from. Figures of
one formula are together; the formula stands once above them, with what all of them take alike.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from builder.compute.figures.at_least import reading_of
from builder.compute.figures.figure import Figure, Formula
from builder.compute.figures.formula import FormulaText, Symbol
from builder.pages.blocks import Cell, Column, Inline, Row, Span, Table
from builder.pages.derivations.derivation import digits_by_spread, share_text, symbols
from builder.pages.derivations.topics import named_for

MOST_SHARES = 2
_LIKE = 3  # rows that share an input before it is said once for all of them
_COLUMNS = (Column("What"), Column("Value", align="right"), Column("From"))


class Formulas(dict[str, FormulaText]):
    """Each formula that a page uses, by its anchor: what it says, its source and limits stand there
    once.
    """

    def anchor(self, how: Formula) -> str:
        """The id under which the page opens a formula: short, for a page names it a thousand times."""
        name = f"f-{how.name.replace('_', '-')}"
        anchor, at = name, 1
        while (held := self.setdefault(anchor, how.text)) is not how.text and held != how.text:
            at += 1
            anchor = f"{name}-{at}"
        return anchor


@dataclass
class Opened:
    """What a page has opened so far. Local to a page.

    A plain count or constant that one figure uses needs no row: its value carries its anchor where
    it is used first.
    """

    build: str
    inline: Mapping[str, Figure]
    formulas: Formulas = field(default_factory=Formulas)
    values: dict[str, str] = field(default_factory=dict)
    shown: set[str] = field(default_factory=set)

    def value(self, figure: Figure) -> str:
        """A value to the digits that its spread leaves, made once."""
        made = self.values.get(figure.key)
        if made is None:
            made = self.values[figure.key] = digits_by_spread(figure)
        return made

    def input(self, figure: Figure) -> Span:
        """An input as a link to its row; a plain constant as itself, with its anchor."""
        bare = digits_by_spread(figure, spread=False)
        if figure.key in self.inline and figure.key not in self.shown:
            self.shown.add(figure.key)
            return Span(bare, anchor=figure.anchor)
        return Span(bare, f"#{figure.anchor}")


Named = tuple[tuple[Symbol, Figure], ...]  # each input with its symbol


def _named(figure: Figure) -> Named:
    return tuple(zip(symbols(figure), figure.inputs, strict=True))


def _alike(figures: Sequence[Figure]) -> frozenset[str]:
    """Symbols under which all of some figures take one and the same input."""
    if len(figures) < _LIKE:
        return frozenset()
    taken: dict[str, set[str]] = {}
    for figure in figures:
        for symbol, given in _named(figure):
            taken.setdefault(symbol.symbol, set()).add(given.key)
    counts = {len(f.inputs) for f in figures}
    return (
        frozenset(s for s, keys in taken.items() if len(keys) == 1)
        if len(counts) == 1
        else (frozenset())
    )


def _is_sum(figure: Figure) -> bool:
    """A sum of likes: no symbol tells its terms apart."""
    return figure.formula is not None and figure.formula.name == "add"


def _from(figure: Figure, left_out: frozenset[str], opened: Opened) -> list[Inline]:
    pieces: list[Inline] = []
    between = " + " if _is_sum(figure) else ", "
    for symbol, given in _named(figure):
        if symbol.symbol in left_out:
            continue
        before = between if pieces else ""
        name = "" if _is_sum(figure) else f"{symbol.symbol} "
        pieces += [Span(f"{before}{name}")] if before or name else []
        pieces.append(opened.input(given))
    return pieces


def _shares(figure: Figure) -> list[Inline]:
    """Which leaves most of the spread comes from."""
    own = {i.key: s.symbol for s, i in _named(figure)}
    shares = figure.contributions()
    if len(shares) < 2:
        return []
    pieces: list[Inline] = []
    for leaf, share in shares[:MOST_SHARES]:
        pieces.append(Span(", " if pieces else "; spread from "))
        symbol = own.get(leaf.key, "")
        name = Span(symbol) if symbol else Span(leaf.label, f"#{leaf.anchor}")
        pieces += [name, Span(f" {share_text(share)}")]
    return pieces


def _note(figure: Figure) -> str:
    said = []
    if figure.lacks:
        said.append(f"{reading_of(figure)} this: it leaves out {', '.join(figure.lacks)}")
    if figure.shape == "lognormal":
        low, high = (digits_by_spread(figure, v, spread=False) for v in figure.band(0.8))
        said.append(f"8 in 10 lie between {low} and {high}")
    if figure.note:
        said.append(figure.note.removesuffix("."))
    return "; ".join(said)


def _row(figure: Figure, left_out: frozenset[str], opened: Opened) -> Row:
    note = _note(figure)
    pieces = _from(figure, left_out, opened)
    if note:
        pieces += _shares(figure)
    cells = (
        Cell((Span(named_for(opened.build, figure)),), note),
        Cell((Span(opened.value(figure)),)),
        Cell(tuple(pieces)),
    )
    return Row(cells, anchor=figure.anchor)


def _head(figures: Sequence[Figure], alike: frozenset[str], opened: Opened) -> Row:
    """The formula of the rows below, and what all of them take."""
    how = figures[0].formula
    assert how is not None
    pieces: list[Inline] = [Span(how.text.formula, f"#{opened.formulas.anchor(how)}", code=True)]
    for symbol, given in _named(figures[0]):
        if symbol.symbol in alike:
            pieces += [Span(f", {symbol.symbol} "), opened.input(given)]
    return Row((Cell(tuple(pieces)),), kind="group")


def derivation_table(figures: Sequence[Figure], opened: Opened) -> Table:
    """The figures of a topic, those of one formula together in the order in which they come."""
    by_formula: dict[str, list[Figure]] = {}
    for figure in figures:
        assert figure.formula is not None
        by_formula.setdefault(opened.formulas.anchor(figure.formula), []).append(figure)
    rows: list[Row] = []
    for alike_made in by_formula.values():
        alike = _alike(alike_made)
        rows.append(_head(alike_made, alike, opened))
        rows += [_row(f, alike, opened) for f in alike_made]
    return Table("", _COLUMNS, tuple(rows), stack=True)
