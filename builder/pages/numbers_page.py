"""How each number was made: one anchor a figure, its formula, inputs, source, spread and which leaf causes it."""

from collections.abc import Iterable, Sequence

from builder.compute.collect import all_unknown
from builder.compute.figure import Figure, Unknown
from builder.pages.blocks import Block, Cell, Column, Page, Paragraph, Row, Section, Span, Table
from builder.pages.derivation import BASIS_WORDS, exact, origin, share_text, symbols, with_spread
from builder.pages.sheet_input import SheetInput

MOST_SHARES = 6
_TOPICS = {
    "mass": "Weight",
    "limit": "Limits",
    "balance": "Balance",
    "budget": "Money",
    "flight": "Flight",
    "wiring": "Wires and solder",
    "wire": "Wires one by one",
    "price": "Prices of lines",
    "till": "Prices at the till",
    "postage": "Postage",
    "swap": "Alternatives",
    "way": "Ways under a limit",
}
_LEAF_COLUMNS = (Column("What"), Column("Value", align="right"), Column("Basis"), Column("Read from"))
_INPUT_COLUMNS = (Column("Symbol"), Column("Input"), Column("Value", align="right"))


class ValueCells(dict[Figure, Cell]):
    """Cells with the value of a figure, each made once: most figures are inputs of several others."""

    def __missing__(self, figure: Figure) -> Cell:
        made = self[figure] = _text(with_spread(figure))
        return made


def _text(text: str, link: str = "") -> Cell:
    return Cell((Span(text, link),))


def _leaf_row(figure: Figure, values: ValueCells) -> Row:
    cells = (_text(figure.label), values[figure], _text(BASIS_WORDS[figure.basis]), _text(origin(figure)))
    return Row(cells, anchor=figure.anchor)


def _inputs(figure: Figure, values: ValueCells) -> Table:
    rows = tuple(
        Row((_text(one.symbol), _text(given.label, f"#{given.anchor}"), values[given]))
        for one, given in zip(symbols(figure), figure.inputs, strict=True)
    )
    return Table("", _INPUT_COLUMNS, rows)


def _shares(figure: Figure) -> Paragraph | None:
    shares = figure.contributions()
    if not shares:
        return None
    pieces: list[Span] = [Span("Spread from: ")]
    for i, (leaf, share) in enumerate(shares[:MOST_SHARES]):
        pieces += [Span(", ")] if i else []
        pieces += [Span(leaf.label, f"#{leaf.anchor}"), Span(f" {share_text(share)}")]
    if len(shares) > MOST_SHARES:
        rest = sum(share for _, share in shares[MOST_SHARES:])
        pieces.append(Span(f", {len(shares) - MOST_SHARES} others {share_text(rest)}"))
    return Paragraph((*pieces, Span(".")), quiet=True)


def derivation_section(figure: Figure, values: ValueCells) -> Section:
    """One figure opened: value, formula, inputs, source, and which leaf causes its spread."""
    how = figure.formula
    blocks: list[Block] = [Paragraph((Span(with_spread(figure), strong=True),))]
    if figure.lacks:
        blocks.append(Paragraph((Span(f"At least this: it leaves out {', '.join(figure.lacks)}."),)))
    if how is not None:
        blocks.append(Paragraph((Span(how.text.formula, code=True), Span(f"  {how.text.title}"))))
        blocks.append(_inputs(figure, values))
        said = [s for s in (f"Source: {how.text.source}", how.text.limits and f"Limits: {how.text.limits}") if s]
        blocks.append(Paragraph((Span(" ".join(said)),), quiet=True))
    shares = _shares(figure)
    if shares is not None:
        blocks.append(shares)
    if figure.shape == "lognormal":
        low, high = figure.band(0.8)
        text = f"8 in 10 lie between {exact(figure, low)} and {exact(figure, high)}."
        blocks.append(Paragraph((Span(text),), quiet=True))
    if figure.note:
        blocks.append(Paragraph((Span(figure.note),), quiet=True))
    return Section(figure.anchor, figure.label, tuple(blocks), level=3)


def _topic(build: str, key: str) -> str:
    parts = key.split("/")
    return parts[1] if parts[0] == build and len(parts) > 2 else "other"


def _topics(build: str, made: Sequence[Figure], values: ValueCells) -> list[Section]:
    """One section a topic: those with words of their own first, in that order, then the rest by name."""
    by_topic: dict[str, list[Figure]] = {}
    for figure in made:
        by_topic.setdefault(_topic(build, figure.key), []).append(figure)
    order = [*(t for t in _TOPICS if t in by_topic), *sorted(set(by_topic) - set(_TOPICS))]
    return [
        Section(f"topic-{t}", _TOPICS.get(t, t.capitalize()), tuple(derivation_section(f, values) for f in by_topic[t]))
        for t in order
    ]


def _unknown_row(unknown: Unknown) -> Row:
    return Row((_text(unknown.label), _text(", ".join(unknown.missing))), anchor=unknown.anchor)


def numbers_page(sheet: SheetInput, figures: Sequence[Figure] | Iterable[Figure]) -> Page:
    """The page of derivations of one build: what was computed, what was read, what is not known."""
    build, given, values = sheet.build, tuple(figures), ValueCells()
    known = {f.key for f in given}
    leaves = tuple(_leaf_row(f, values) for f in given if f.formula is None)
    unknown = tuple(_unknown_row(u) for u in all_unknown(sheet.computed) if u.key not in known)
    sections = _topics(build.name, [f for f in reversed(given) if f.formula is not None], values)
    if leaves:
        note = "Every spread is one standard deviation."
        sections.append(Section("read", "Read, not computed", (Table("", _LEAF_COLUMNS, leaves, note=note),)))
    if unknown:
        columns = (Column("What"), Column("Missing"))
        sections.append(Section("unknown", "Not known", (Table("", columns, unknown),)))
    return Page(
        address=f"{build.name}/numbers/index.html",
        kind="numbers",
        title=f"{build.title}: how each number was made",
        summary="Every computed number of this build, opened down to what was weighed or claimed.",
        sections=tuple(sections),
        build=build.name,
        revised=build.source.revised.isoformat() if build.source.revised else "",
        status=build.source.status,
        draft=sheet.draft,
        breadcrumbs=(Span("All builds", "index.html"), Span(build.title, f"{build.name}/index.html")),
    )
