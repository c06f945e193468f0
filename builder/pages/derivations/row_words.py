"""What a row of derivations says beside its inputs: the value, notes, where most of its spread comes
from.
"""

from collections.abc import Sequence

from builder.compute.figures.at_least import reading_of
from builder.compute.figures.figure import Figure
from builder.pages.blocks import Inline, Span
from builder.pages.derivations.derivation import digits_by_spread, share_text, symbols
from builder.pages.derivations.opened import Opened
from builder.pages.told_words import note_words

_LIKE = 2  # rows that say the same before it is said once for all of them

Largest = tuple[str, str, str]  # the words of a leaf, its anchor, its share


def largest_share(figure: Figure, opened: Opened) -> Largest:
    """The leaf that most of the spread comes from: its words, its anchor, its share; empty where
    its one input with a spread says it, and of what has no note and an even spread.
    """
    shares = figure.contributions() if figure.note or _has_band(figure) else ()
    if len(shares) < _LIKE:
        return "", "", ""
    leaf, share = shares[0]
    own = {i.key: s.symbol for s, i in zip(symbols(figure), figure.inputs, strict=True)}
    words = own.get(leaf.key, leaf.label)
    return words, "" if leaf.key in own else opened.short[leaf.key], share_text(share)


def common_leaf(figures: Sequence[Figure], opened: Opened) -> tuple[str, str]:
    """The leaf that most of the spread of all of several figures comes from: words and anchor."""
    said = [f for f in figures if f.note or _has_band(f)]
    largest = {largest_share(f, opened)[:2] for f in said}
    return largest.pop() if len(largest) == 1 and len(figures) >= _LIKE else ("", "")


def spread_from(words: str, anchor: str, share: str) -> list[Inline]:
    """The pieces that say it, behind what stands before them; nothing without words."""
    if not words:
        return []
    behind = [Span(f" {share}")] if share else []
    return [Span("; ± most from "), Span(words, f"#{anchor}" if anchor else ""), *behind]


def _has_band(figure: Figure) -> bool:
    return figure.shape == "lognormal" and bool(figure.spread)


def value_of(figure: Figure, opened: Opened) -> str:
    """The value, and in brackets where 8 of 10 lie if that is not even to both sides."""
    if not _has_band(figure):
        return opened.value(figure)
    low, high = (digits_by_spread(figure, v, spread=False, unit=False) for v in figure.band(0.8))
    return f"{opened.value(figure)} ({low} to {high})"


def common_note(figures: Sequence[Figure]) -> str:
    """A note that all of several figures have."""
    notes = {note_words(f) for f in figures}
    return notes.pop() if len(figures) >= _LIKE and len(notes) == 1 else ""


def note_of(figure: Figure, above: str) -> str:
    """What has to be said of it, but for what stands above all rows of its formula."""
    said = []
    if figure.lacks:
        said.append(f"{reading_of(figure)} this: it leaves out {', '.join(figure.lacks)}")
    words = note_words(figure)
    if words and words != above:
        said.append(words.removesuffix("."))
    return "; ".join(said)
