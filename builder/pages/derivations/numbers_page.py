"""How each number was made: one anchor a figure, its formula, inputs, source, spread and which leaf
causes it.
"""

from collections.abc import Container, Iterable, Sequence

from builder.compute.figures.figure import Figure, Unknown
from builder.compute.figures.formula import FormulaText
from builder.pages.blocks import Cell, Column, Page, Row, Section, Span, Table
from builder.pages.derivations.derivation_rows import derivation_tables
from builder.pages.derivations.derivation_section import limits_for_readers
from builder.pages.derivations.idle_anchors import without_idle
from builder.pages.derivations.laid_out import Topics, laid_out
from builder.pages.derivations.leaf_rows import leaf_blocks
from builder.pages.derivations.opened import Opened
from builder.pages.derivations.topics import topic_words
from builder.pages.page_map import NUMBERS
from builder.pages.page_of_build import page_of_build
from builder.pages.rows import table_row
from builder.pages.sheet_input import SheetInput


def _text(text: str) -> Cell:
    return Cell((Span(text),))


def _formula_row(how: FormulaText, anchor: str, short: str) -> Row:
    words = (_text(how.title), _text(how.source), _text(limits_for_readers(how)))
    formula = Cell((Span(how.formula),), anchor=short)  # the style sheet sets it as code
    return Row((formula, *words), anchor=anchor)


def _topics(topics: Topics, opened: Opened) -> list[Section]:
    """One section a topic."""
    return [
        Section(f"topic-{t}", topic_words(t), derivation_tables(groups, opened))
        for t, groups in topics.items()
    ]


def _constants(figures: Sequence[Figure], inputs: Container[str]) -> frozenset[str]:
    """Counts and plain constants: the row of what is made from them says them. What has a source, or
    nothing is made from, keeps its row.
    """
    plain = (f for f in figures if f.formula is None and f.basis == "defined" and not f.note)
    return frozenset(f.key for f in plain if f.where is None and f.key in inputs)


def _unknown_row(unknown: Unknown) -> Row:
    return table_row(_text(unknown.label), _text(", ".join(unknown.missing)), anchor=unknown.anchor)


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
    inputs = {i.key for f in given for i in f.inputs}
    constants = _constants(given, inputs)
    topics, leaves, opened = laid_out(build, given, constants)
    unknown = tuple(_unknown_row(u) for u in sheet.unknown if u.key not in known)
    sections = _topics(topics, opened)
    if opened.formulas:
        names = ("Formula", "Gives", "Source", "Limits")
        heads = tuple(Column(n, plain=True) for n in names)
        short = opened.formula_anchors
        rows = tuple(_formula_row(how, a, short[a]) for a, how in opened.formulas.items())
        table = Table("", heads, rows, stack=True)
        sections.append(Section("formulas", "Formulas", (table,)))
    if leaves.groups:
        sections.append(Section("read", "Read, not computed", tuple(leaf_blocks(leaves, opened))))
    if unknown:
        columns = (Column("What", plain=True), Column("Missing", plain=True))
        sections.append(Section("unknown", "Not known", (Table("", columns, unknown),)))
    sections = without_idle(sections, {*opened.short.values(), *opened.heads.values()})
    summary = "Every computed number of this build, opened down to what was weighed or claimed."
    title = f"{build.title}: how each number was made"
    links = (Span("Data as JSON", f"{build.name}/sheet.json"),)
    return page_of_build(
        sheet, "numbers", NUMBERS, title, summary, (*first, *sections), links=links
    )
