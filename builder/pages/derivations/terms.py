"""What figures were made from, as pieces of text that lead to the rows of their inputs."""

from collections.abc import Sequence
from dataclasses import dataclass
from types import MappingProxyType

from builder.compute.figures.figure import Figure
from builder.pages.blocks import Inline, Span
from builder.pages.derivations.derivation import symbols
from builder.pages.derivations.likes import Like
from builder.pages.derivations.opened import Opened
from builder.pages.derivations.topics import named_for, subject_of

SIGNS = MappingProxyType({"add": " + ", "subtract": " − "})  # signs say what symbols would
BESIDE = " | "  # between what several columns take
_LONG = 6  # inputs that are not listed again where another row lists the same


@dataclass(frozen=True, slots=True)
class Term:
    """What figures beside each other take at one place of their formula: the symbol, '' where it
    says no more than the place; the inputs, one where all take the `same`; of likes that each take
    another quantity of their own battery or joint, which one.
    """

    symbol: str
    inputs: tuple[Figure | None, ...]
    same: bool
    own: Like | None = None


def _alone(figure: Figure) -> int:
    """How many inputs have a symbol of their own: of likes that a formula takes any number of, the
    symbol says no more than their place.
    """
    how = figure.formula
    if how is None or how.name in SIGNS:
        return 0
    given = len(how.text.arguments)
    return given if given == len(figure.inputs) else given - 1


def _is_same(given: Sequence[Figure], opened: Opened) -> bool:
    """Whether all are one input, or plain constants of one value."""
    found = {opened.value(g) if g.key in opened.plain else g.key for g in given}
    return len(found) == 1


def _own(figures: Sequence[Figure], given: Sequence[Figure], opened: Opened) -> Like | None:
    """Which likes the inputs are, where each belongs to what its figure belongs to."""
    likes = [opened.likes.get(g.key) for g in given]
    first = likes[0]
    if first is None or len(figures) == 1:
        return None
    for figure, like in zip(figures, likes, strict=True):
        if like is None or like.key != first.key:
            return None
        if like.subject != subject_of(opened.build, figure):
            return None
    return first


def terms_of(beside: Sequence[Figure | None], opened: Opened) -> tuple[Term, ...]:
    """What figures of one formula take, place by place; nothing where they differ in how many
    inputs they take.
    """
    figures = [f for f in beside if f is not None]
    first = figures[0]
    if len({len(f.inputs) for f in figures}) > 1:
        return ()
    alone, out = _alone(first), []
    for at, symbol in enumerate(symbols(first)):
        given = [f.inputs[at] for f in figures]
        same = _is_same(given, opened)
        own = None if same else _own(figures, given, opened)
        columns = tuple([f.inputs[at] if f is not None else None for f in beside])
        name = symbol.symbol if at < alone else ""
        out.append(Term(name, (given[0],) if same else columns, same, own))
    return tuple(out)


def _values(term: Term, opened: Opened) -> list[Inline]:
    pieces: list[Inline] = []
    for given in term.inputs:
        pieces += [Span(BESIDE)] if pieces else []
        pieces.append(Span("–") if given is None else opened.input(given))
    return pieces


def _one(term: Term, owner: Figure, opened: Opened) -> list[Inline]:
    if term.own is not None:
        return [Span(term.symbol or term.own.title, f"#{opened.heads[term.own.key]}")]
    if term.symbol and len(term.inputs) == 1 and term.inputs[0] is not None:
        given = opened.input(term.inputs[0])
        if given.link and given.text == opened.value(owner):  # its row says the value already
            return [Span(term.symbol, given.link)]
    named: list[Inline] = [Span(f"{term.symbol} ")] if term.symbol else []
    return named + _values(term, opened)


def _whole_groups(given: Sequence[Figure], opened: Opened) -> list[Inline]:
    """The headings of what was read, where a list takes all that stands below them."""
    groups = [opened.read.get(g.key) for g in given]
    found = {g.key: g for g in groups if g is not None}
    if None in groups or sum(len(g.figures) for g in found.values()) != len(given):
        return []
    pieces: list[Inline] = []
    for group in found.values():
        pieces += [Span(", ")] if pieces else []
        pieces.append(Span(group.title, f"#{opened.heads[group.key]}"))
    return pieces


def _known_list(terms: Sequence[Term], owner: Figure, opened: Opened) -> list[Inline]:
    """Where a long list of inputs stands already; from now on, in the row of the `owner`."""
    given = [g for t in terms for g in t.inputs if g is not None]
    if len(given) < _LONG or not all(t.same for t in terms):
        return []
    whole = _whole_groups(given, opened)
    mine = (named_for(opened.build, owner), opened.anchor(owner))
    words, anchor = opened.lists.setdefault(tuple([g.key for g in given]), mine)
    listed = [Span("the list of "), Span(words, f"#{anchor}")] if anchor != mine[1] else []
    return whole or list(listed)


def term_pieces(terms: Sequence[Term], owner: Figure, opened: Opened) -> list[Inline]:
    """Inputs with their symbols, terms of a sum with a sign between. A long list that another row
    gives already is named by it, else it is known by the row of the `owner`.
    """
    how = owner.formula
    sign = SIGNS.get(how.name, ", ") if how is not None else ", "
    loose = [t for t in terms if not t.symbol]
    known = _known_list(loose, owner, opened)
    shown = [_one(t, owner, opened) for t in terms if t.symbol or not known]
    if known:
        shown.append(known)
    pieces: list[Inline] = []
    for one in shown:
        pieces += [Span(sign), *one] if pieces else one
    return pieces


def inputs_of(figure: Figure, opened: Opened) -> list[Inline]:
    """All inputs of one figure. A sum that takes all that a shorter one lists leads to it, and lists
    what is added.
    """
    listed = opened.listed.get(figure.key)
    if listed is None:
        return term_pieces(terms_of((figure,), opened), figure, opened)
    pieces: list[Inline] = [Span("all of "), Span(listed.label, f"#{opened.anchor(listed)}")]
    terms = {t.key for t in listed.inputs}
    for given in figure.inputs:
        if given.key not in terms:
            pieces += [Span(" + "), opened.input(given)]
    return pieces
