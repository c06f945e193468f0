"""How each number was made: one anchor a figure, its formula, inputs, source, spread and which leaf
causes it.
"""

import re
from collections.abc import Iterable, Sequence

from builder.compute.figures.at_least import reading_of
from builder.compute.figures.figure import Figure, Formula, Unknown
from builder.compute.figures.formula import FormulaText, Symbol
from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    Column,
    Page,
    Paragraph,
    Row,
    Section,
    Span,
    Table,
)
from builder.pages.derivations.derivation import (
    BASIS_WORDS,
    exact,
    origin,
    share_text,
    symbols,
    with_spread,
)
from builder.pages.derivations.topics import by_topic, topic_words
from builder.pages.page_map import NUMBERS
from builder.pages.page_of_build import page_of_build
from builder.pages.sheet_input import SheetInput

MOST_SHARES = 3
_LEAF_COLUMNS = (
    Column("What"),
    Column("Value", align="right"),
    Column("Basis"),
    Column("Read from"),
)


class Values(dict[Figure, str]):
    """The value of a figure as text, each made once: most figures are inputs of several others."""

    MOST = 10**6  # inputs of one symbol that are listed one by one

    def __missing__(self, figure: Figure) -> str:
        made = self[figure] = self.made(figure)
        return made

    def made(self, figure: Figure) -> str:
        """A figure's value with its spread."""
        return with_spread(figure)

    def other(self, figure: Figure, value: float) -> str:
        """Another value of the same figure, such as the end of a band."""
        return exact(figure, value)


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


def _text(text: str, link: str = "") -> Cell:
    return Cell((Span(text, link),))


def _leaf_row(figure: Figure, values: Values) -> Row:
    cells = (
        _text(figure.label),
        _text(values[figure]),
        _text(BASIS_WORDS[figure.basis]),
        _text(origin(figure)),
    )
    return Row(cells, anchor=figure.anchor)


Named = tuple[tuple[Symbol, Figure], ...]  # each input with its symbol


def _inputs(figure: Figure, named: Named, values: Values) -> Bullets:
    """Each input with its symbol; of more alike than are listed, the first two and how many follow."""
    single = len(figure.formula.text.arguments) - 1 if figure.formula is not None else 0
    listed = named if len(named) - single <= values.MOST else named[: single + 2]
    lines = [
        (Span(f"{one.symbol} = {values[given]}: "), Span(given.label, f"#{given.anchor}"))
        for one, given in listed
    ]
    if len(listed) < len(named):
        first, (last, given) = named[len(listed)][0], named[-1]
        words = f"{first.symbol} to {last.symbol}, {len(named) - len(listed)} alike, the last "
        lines.append((Span(words), Span(given.label, f"#{given.anchor}")))
    return Bullets(tuple(lines))


def _shares(figure: Figure, named: Named) -> list[Span]:
    """Which leaves the spread comes from; an input goes by its symbol, and one that alone has a
    spread needs no words.
    """
    shares = figure.contributions()
    given = {i.key: one.symbol for one, i in named}
    if not shares or (len(shares) == 1 and shares[0][0].key in given):
        return []
    pieces: list[Span] = [Span("Spread from ")]
    for i, (leaf, share) in enumerate(shares[:MOST_SHARES]):
        comma, symbol = ", " if i else "", given.get(leaf.key, "")
        if symbol:
            pieces.append(Span(f"{comma}{symbol} {share_text(share)}"))
            continue
        pieces += [Span(comma), Span(leaf.label, f"#{leaf.anchor}"), Span(f" {share_text(share)}")]
    if len(shares) > MOST_SHARES:
        rest = sum(share for _, share in shares[MOST_SHARES:])
        pieces.append(Span(f", {len(shares) - MOST_SHARES} others {share_text(rest)}"))
    return [*pieces, Span(".")]


def derivation_section(figure: Figure, values: Values, formulas: Formulas | None = None) -> Section:
    """One figure opened: value, formula, inputs, and which leaf causes its spread.

    What a formula says, its source and limits stand here, or under its own anchor where `formulas`
    gathers them.
    """
    how = figure.formula
    named = tuple(zip(symbols(figure), figure.inputs, strict=True))
    value = Span(values[figure], strong=True)
    blocks: list[Block] = []
    if how is None:
        blocks.append(Paragraph((value,)))
    else:
        link = f"#{formulas.anchor(how)}" if formulas is not None else ""
        blocks.append(Paragraph((value, Span(" from "), Span(how.text.formula, link, code=True))))
        blocks.append(_inputs(figure, named, values))
    said = []
    if figure.lacks:
        said.append(
            f"{reading_of(figure).capitalize()} this: it leaves out {', '.join(figure.lacks)}."
        )
    if figure.shape == "lognormal":
        low, high = figure.band(0.8)
        said.append(
            f"8 in 10 lie between {values.other(figure, low)} and {values.other(figure, high)}."
        )
    if figure.note:
        said.append(f"{figure.note[0].upper()}{figure.note[1:].removesuffix('.')}.")
    if how is not None and formulas is None:
        said.append(" ".join(formula_words(how.text)))
    shares = _shares(figure, named)
    if said or shares:
        rest = [Span(" " + " ".join(said))] if said else []
        blocks.append(Paragraph((*shares, *rest), quiet=True))
    return Section(figure.anchor, figure.label, tuple(blocks), level=3)


def formula_words(how: FormulaText) -> tuple[str, ...]:
    """What a formula gives, its source, and its limits where it has some."""
    said = (how.title, f"Source: {how.source}", f"Limits: {_limits(how)}" if how.limits else "")
    return tuple(words if words.endswith(".") else f"{words}." for words in said if words)


def _limits(how: FormulaText) -> str:
    """Limits as a reader wants them: without what the function does beyond them."""
    return re.sub(r"[,;]? else ValueError", "", how.limits)


def _formula_row(how: FormulaText, anchor: str) -> Row:
    words = (_text(how.title), _text(how.source), _text(_limits(how)))
    return Row((Cell((Span(how.formula, code=True),)), *words), anchor=anchor)


def _topics(
    build: str, made: Sequence[Figure], values: Values, formulas: Formulas
) -> list[Section]:
    """One section a topic."""
    return [
        Section(
            f"topic-{t}",
            topic_words(t),
            tuple(derivation_section(f, values, formulas) for f in figures),
        )
        for t, figures in by_topic(build, made).items()
    ]


def _unknown_row(unknown: Unknown) -> Row:
    return Row((_text(unknown.label), _text(", ".join(unknown.missing))), anchor=unknown.anchor)


def numbers_page(
    sheet: SheetInput,
    figures: Sequence[Figure] | Iterable[Figure],
    first: tuple[Section, ...] = (),
) -> Page:
    """The page of derivations of one build: what was computed, what was read, what is not known.

    `first` are the sections that the map of pages puts before them.
    """
    build, given, values, formulas = sheet.build, tuple(figures), Values(), Formulas()
    known = {f.key for f in given}
    leaves = tuple(_leaf_row(f, values) for f in given if f.formula is None)
    unknown = tuple(_unknown_row(u) for u in sheet.unknown if u.key not in known)
    sections = _topics(
        build.name, [f for f in reversed(given) if f.formula is not None], values, formulas
    )
    if formulas:
        heads = (Column("Formula"), Column("Gives"), Column("Source"), Column("Limits"))
        table = Table(
            "",
            heads,
            tuple(_formula_row(how, anchor) for anchor, how in formulas.items()),
            stack=True,
        )
        sections.append(Section("formulas", "Formulas", (table,)))
    if leaves:
        note = "Every spread is one standard deviation."
        sections.append(
            Section("read", "Read, not computed", (Table("", _LEAF_COLUMNS, leaves, note=note),))
        )
    if unknown:
        columns = (Column("What"), Column("Missing"))
        sections.append(Section("unknown", "Not known", (Table("", columns, unknown),)))
    summary = "Every computed number of this build, opened down to what was weighed or claimed."
    title = f"{build.title}: how each number was made"
    links = (Span("Data as JSON", f"{build.name}/sheet.json"),)
    return page_of_build(
        sheet, "numbers", NUMBERS, title, summary, (*first, *sections), links=links
    )
