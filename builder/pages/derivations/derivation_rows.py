"""Derivations as rows of a table: what a figure is, its value, and what it was made from. Figures of
one formula are together; the formula stands once above them, with what all of them take alike.
"""

from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from builder.compute.figures.at_least import reading_of
from builder.compute.figures.figure import Figure
from builder.compute.figures.formula import Symbol
from builder.pages.blocks import Cell, Column, Inline, Row, Span, Table
from builder.pages.derivations.derivation import digits_by_spread, share_text, symbols
from builder.pages.derivations.opened import Opened
from builder.pages.derivations.topics import likes_of, named_for, shared_words
from builder.pages.told_words import note_words

_MANY = 3  # inputs that are not listed again under a row with the same
_LIKE = 2  # rows that share an input before it is said once for all of them
_COLUMNS = (Column("What"), Column("Value", align="right"), Column("From"))


_Named = tuple[tuple[Symbol, Figure], ...]  # each input with its symbol


def _named(figure: Figure) -> _Named:
    return tuple(zip(symbols(figure), figure.inputs, strict=True))


_BETWEEN = MappingProxyType({"add": " + ", "subtract": " − "})  # signs say what symbols would


def _single(figure: Figure) -> int:
    """How many inputs have a symbol of their own: of likes that a formula takes any number of, the
    symbol says no more than their place.
    """
    how = figure.formula
    if how is None or how.name in _BETWEEN:
        return 0
    given = len(how.text.arguments)
    return given if given == len(figure.inputs) else given - 1


def _alike(figures: Sequence[Figure], opened: Opened) -> frozenset[str]:
    """Symbols under which all of some figures take one and the same input, or a plain constant of
    one value.
    """
    how = figures[0].formula
    counts = {len(f.inputs) for f in figures}
    if len(figures) < _LIKE or len(counts) > 1 or how is None or how.name in _BETWEEN:
        return frozenset()
    taken: dict[str, set[str]] = {}
    for figure in figures:
        for symbol, given in _named(figure):
            same = opened.value(given) if given.key in opened.plain else given.key
            taken.setdefault(symbol.symbol, set()).add(same)
    return frozenset(s for s, keys in taken.items() if len(keys) == 1)


def _inputs(figure: Figure, shown: Container[str], opened: Opened) -> list[Inline]:
    """Inputs with their symbols, those of some symbols only; terms of a sum with a plus between. A
    sum that takes all that a shorter one lists leads to it, and lists what is added.
    """
    pieces: list[Inline] = []
    listed = opened.listed.get(figure.key)
    if listed is not None:
        more = [i for i in figure.inputs if i.key not in {t.key for t in listed.inputs}]
        pieces = [Span("all of "), Span(listed.label, f"#{opened.anchor(listed)}")]
        for given in more:
            pieces += [Span(" + "), opened.input(given)]
        return pieces
    single, sign = (
        _single(figure),
        _BETWEEN.get(figure.formula.name if figure.formula else "", ", "),
    )
    for at, (symbol, given) in enumerate(_named(figure)):
        if symbol.symbol not in shown:
            continue
        between = sign if pieces else ""
        words = f"{between}{symbol.symbol} " if at < single else between
        pieces += [Span(words)] if words else []
        pieces.append(opened.input(given))
    return pieces


def _largest_share(figure: Figure, opened: Opened) -> tuple[str, str, str]:
    """The leaf that most of the spread comes from: its words, its anchor, its share; empty where
    its one input with a spread says it.
    """
    shares = figure.contributions()
    if len(shares) < _LIKE:
        return "", "", ""
    leaf, share = shares[0]
    own = {i.key: s.symbol for s, i in _named(figure)}
    words = own.get(leaf.key, leaf.label)
    return words, "" if leaf.key in own else opened.short[leaf.key], share_text(share)


def _spread_from(words: str, anchor: str, share: str) -> list[Inline]:
    behind = [Span(f" {share}")] if share else []
    return [Span("; spread most from "), Span(words, f"#{anchor}" if anchor else ""), *behind]


def _has_band(figure: Figure) -> bool:
    return figure.shape == "lognormal" and bool(figure.spread)


def _value(figure: Figure, opened: Opened) -> str:
    """The value, and in brackets where 8 of 10 lie if that is not even to both sides."""
    if not _has_band(figure):
        return opened.value(figure)
    low, high = (digits_by_spread(figure, v, spread=False, unit=False) for v in figure.band(0.8))
    return f"{opened.value(figure)} ({low} to {high})"


def _note(figure: Figure, above: str) -> str:
    """What has to be said of it, but for what stands above all rows of its formula."""
    said = []
    if figure.lacks:
        said.append(f"{reading_of(figure)} this: it leaves out {', '.join(figure.lacks)}")
    words = note_words(figure)
    if words and words != above:
        said.append(words.removesuffix("."))
    return "; ".join(said)


def _row(figure: Figure, name: str, same: bool, group: "_Group", opened: Opened) -> Row:
    """A figure; one that takes the `same` as the row above says so."""
    note = _note(figure, group.note)
    own = {s.symbol for s, _ in _named(figure)} - group.alike
    pieces = [Span("as above")] if same else _inputs(figure, own, opened)
    if not group.leaf[0] and (figure.note or _has_band(figure)):
        largest = _largest_share(figure, opened)
        pieces += _spread_from(*largest) if largest[0] else []
    head = Cell((Span(name),), note, anchor=opened.short.get(figure.key, ""))
    value = Cell((Span(_value(figure, opened)),))
    return Row((head, value, Cell(tuple(pieces))), anchor=figure.anchor)


def _common_note(figures: Sequence[Figure]) -> str:
    """A note that all of several figures have."""
    notes = {note_words(f) for f in figures}
    return notes.pop() if len(figures) >= _LIKE and len(notes) == 1 else ""


@dataclass(frozen=True, slots=True)
class _Group:
    """Figures of one formula: what all of them take and say, and the words that their names share."""

    figures: tuple[Figure, ...]
    names: tuple[str, ...]
    title: str
    alike: frozenset[str]
    note: str
    leaf: tuple[str, str] = ("", "")


def _group(figures: Sequence[Figure], likes: bool, opened: Opened) -> _Group:
    names = tuple(named_for(opened.build, f) for f in figures)
    title, short = shared_words(names) if likes else ("", names)
    largest = {_largest_share(f, opened)[:2] for f in figures if f.note or _has_band(f)}
    leaf = largest.pop() if len(largest) == 1 and len(figures) >= _LIKE else ("", "")
    note = _common_note(figures)
    return _Group(tuple(figures), short, title, _alike(figures, opened), note, leaf)


def _head(group: _Group, above: str, opened: Opened) -> tuple[Row, str]:
    """The formula of the rows below, what all of them take, and what their names share; with the
    anchor of the formula, which is not said again under the one `above`.
    """
    first = group.figures[0]
    how = first.formula
    assert how is not None
    anchor = opened.formulas.anchor(how)
    formula = Span(how.text.formula, f"#{anchor}", code=True)
    pieces: list[Inline] = [Span(f"{group.title}: ")] if group.title else []
    pieces.append(Span("likewise") if anchor == above and group.title else formula)
    alike = _inputs(first, group.alike, opened)
    pieces += [Span(", "), *alike] if alike else []
    pieces += [Span(f": {group.note}")] if group.note else []
    pieces += _spread_from(*group.leaf, "") if group.leaf[0] else []
    return Row((Cell(tuple(pieces)),), kind="group"), anchor


def _groups(figures: Sequence[Figure], opened: Opened) -> Iterator[_Group]:
    """Figures of one formula together in the order in which they come; of these, likes of several
    batteries, flights or joints apart from what is there once.
    """
    by_formula: dict[str, dict[str, list[Figure]]] = {}
    for figure in figures:
        assert figure.formula is not None
        kinds = by_formula.setdefault(opened.formulas.anchor(figure.formula), {})
        kinds.setdefault(likes_of(opened.build, figure), []).append(figure)
    for kinds in by_formula.values():
        once = [f for likes in kinds.values() if len(likes) == 1 for f in likes]
        if once:
            yield _group(once, False, opened)
        yield from (_group(likes, True, opened) for likes in kinds.values() if len(likes) > 1)


def derivation_table(figures: Sequence[Figure], opened: Opened) -> Table:
    """The figures of a topic as rows, formula by formula."""
    rows: list[Row] = []
    above = ""
    for group in _groups(figures, opened):
        head, above = _head(group, above, opened)
        rows.append(head)
        before: tuple[Figure, ...] = ()
        for figure, name in zip(group.figures, group.names, strict=True):
            same = figure.inputs == before and len(before) >= _MANY
            rows.append(_row(figure, name, same, group, opened))
            before = figure.inputs
    return Table("", _COLUMNS, tuple(rows), stack=True)
