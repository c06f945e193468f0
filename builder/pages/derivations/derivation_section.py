"""One figure opened for paper: its value, formula, inputs, spread and source in a section."""

import re
from math import fsum

from builder.compute.figures.at_least import reading_of
from builder.compute.figures.figure import Figure
from builder.compute.figures.formula import FormulaText, Symbol
from builder.pages.blocks import Block, Bullets, Paragraph, Section, Span
from builder.pages.derivations.derivation import exact, share_text, symbols, with_spread
from builder.pages.told_words import note_words

MOST_SHARES = 3


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
        rest = fsum(share for _, share in shares[MOST_SHARES:])
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
    note = note_words(figure)
    if note:
        said.append(f"{note[0].upper()}{note[1:].removesuffix('.')}.")
    if how is not None:
        said.append(" ".join(formula_words(how.text)))
    shares = _shares(figure, named)
    if said or shares:
        rest = [Span(" " + " ".join(said))] if said else []
        blocks.append(Paragraph((*shares, *rest), quiet=True))
    return Section(figure.anchor, figure.label, tuple(blocks), level=3)


def formula_words(how: FormulaText) -> tuple[str, ...]:
    """What a formula gives, its source, and its limits where it has some."""
    said = (
        how.title,
        f"Source: {how.source}",
        f"Limits: {limits_for_readers(how)}" if how.limits else "",
    )
    return tuple(words if words.endswith(".") else f"{words}." for words in said if words)


def limits_for_readers(how: FormulaText) -> str:
    """Limits as a reader wants them: without what the function does beyond them."""
    return re.sub(r"[,;]? else ValueError", "", how.limits)
