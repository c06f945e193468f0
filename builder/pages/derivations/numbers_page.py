"""How each number was made: one anchor a figure, its formula, inputs, source, spread and which leaf
causes it.
"""

import re
from collections import Counter
from collections.abc import Iterable, Sequence

from builder.compute.figures.at_least import reading_of
from builder.compute.figures.figure import Figure, Unknown
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
    digits_by_spread,
    exact,
    origin,
    share_text,
    symbols,
    with_spread,
)
from builder.pages.derivations.derivation_rows import Opened, derivation_table
from builder.pages.derivations.topics import by_topic, topic_words
from builder.pages.page_map import NUMBERS
from builder.pages.page_of_build import page_of_build
from builder.pages.sheet_input import SheetInput

MOST_SHARES = 3
_LEAF_COLUMNS = (
    Column("What"),
    Column("Value", align="right"),
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


def derivation_section(figure: Figure, values: Values) -> Section:
    """One figure opened: value, formula, inputs, and which leaf causes its spread.

    For paper: what a formula says, its source and limits stand here too.
    """
    how = figure.formula
    named = tuple(zip(symbols(figure), figure.inputs, strict=True))
    value = Span(values[figure], strong=True)
    blocks: list[Block] = []
    if how is None:
        blocks.append(Paragraph((value,)))
    else:
        blocks.append(Paragraph((value, Span(" from "), Span(how.text.formula, code=True))))
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
    if how is not None:
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


def _topics(made: Sequence[Figure], opened: Opened) -> list[Section]:
    """One section a topic."""
    return [
        Section(f"topic-{t}", topic_words(t), (derivation_table(figures, opened),))
        for t, figures in by_topic(opened.build, made).items()
    ]


def _constants(figures: Sequence[Figure]) -> dict[str, Figure]:
    """Plain counts and constants that one figure uses: the row of that says them."""
    uses = Counter(i.key for f in figures for i in f.inputs)
    return {
        f.key: f
        for f in figures
        if f.formula is None and f.basis == "defined" and f.where is None and uses[f.key] == 1
    }


def _leaf_table(figures: Sequence[Figure]) -> Table:
    """What was read, file by file and part by part."""
    rows: list[Row] = []
    said = ""
    ordered = sorted(figures, key=lambda f: _place(f)[0])
    for figure in ordered:
        group, rest = _place(figure)
        if group != said:
            rows.append(Row((_text(group),), kind="group"))
            said = group
        cells = (
            _text(figure.label),
            _text(digits_by_spread(figure)),
            _text(f"{BASIS_WORDS[figure.basis]}{rest and ', '}{rest}"),
        )
        rows.append(Row(cells, anchor=figure.anchor))
    note = "Every spread is one standard deviation."
    return Table("", _LEAF_COLUMNS, tuple(rows), note=note, stack=True)


def _place(figure: Figure) -> tuple[str, str]:
    """The file and the part that a value was read from, and the keys within it."""
    said = origin(figure)
    if figure.where is None:
        return "Constants and estimates", "" if said == BASIS_WORDS[figure.basis] else said
    file, _, path = said.partition(", ")
    part, _, rest = path.partition(", ")
    return f"{file}, {part}", rest


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
    build, given = sheet.build, tuple(figures)
    known = {f.key for f in given}
    constants = _constants(given)
    opened = Opened(build.name, constants)
    unknown = tuple(_unknown_row(u) for u in sheet.unknown if u.key not in known)
    sections = _topics([f for f in reversed(given) if f.formula is not None], opened)
    if opened.formulas:
        heads = (Column("Formula"), Column("Gives"), Column("Source"), Column("Limits"))
        rows = tuple(_formula_row(how, anchor) for anchor, how in opened.formulas.items())
        table = Table("", heads, rows, stack=True)
        sections.append(Section("formulas", "Formulas", (table,)))
    leaves = [f for f in given if f.formula is None and f.key not in opened.shown]
    if leaves:
        sections.append(Section("read", "Read, not computed", (_leaf_table(leaves),)))
    if unknown:
        columns = (Column("What"), Column("Missing"))
        sections.append(Section("unknown", "Not known", (Table("", columns, unknown),)))
    summary = "Every computed number of this build, opened down to what was weighed or claimed."
    title = f"{build.title}: how each number was made"
    links = (Span("Data as JSON", f"{build.name}/sheet.json"),)
    return page_of_build(
        sheet, "numbers", NUMBERS, title, summary, (*first, *sections), links=links
    )
