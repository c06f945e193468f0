"""What a page of derivations has opened so far: its formulas, its values, and the short anchors by
which its rows lead to each other.
"""

import hashlib
import string
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from builder.compute.figures.figure import Figure
from builder.compute.figures.formula import FormulaText
from builder.compute.figures.sloped_formula import Formula
from builder.pages.blocks import Span
from builder.pages.derivations.derivation import digits_by_spread


def _says_the_same(one: FormulaText, other: FormulaText) -> bool:
    """Whether two formulas are one to a reader: some differ only in the words for what they take."""
    first = (one.formula, one.title, one.source, one.limits)
    return first == (other.formula, other.title, other.source, other.limits)


class Formulas(dict[str, FormulaText]):
    """Each formula that a page uses, by its anchor: what it says, its source and limits stand there
    once.
    """

    def anchor(self, how: Formula) -> str:
        """The id under which the page opens a formula: short, for a page names it a thousand times."""
        name = f"f-{how.name.replace('_', '-')}"
        anchor, at = name, 1
        while not _says_the_same(self.setdefault(anchor, how.text), how.text):
            at += 1
            anchor = f"{name}-{at}"
        return anchor


@dataclass
class Opened:
    """What a page has opened so far. Local to a page.

    `plain` are the keys of counts and constants that one figure uses: the row of that figure says
    them. `short` are the anchors by which rows of the page lead to each other.
    """

    build: str
    plain: frozenset[str]
    short: Mapping[str, str]
    formulas: Formulas = field(default_factory=Formulas)
    values: dict[str, str] = field(default_factory=dict)
    listed: Mapping[str, Figure] = field(default_factory=dict)

    def value(self, figure: Figure) -> str:
        """A value to the digits that its spread leaves, made once."""
        made = self.values.get(figure.key)
        if made is None:
            made = self.values[figure.key] = digits_by_spread(figure)
        return made

    def anchor(self, figure: Figure) -> str:
        """The id of a figure's row, the short one where it has one."""
        return self.short.get(figure.key, figure.anchor)

    def input(self, figure: Figure) -> Span:
        """An input as a link to its row; a plain constant as itself."""
        bare = digits_by_spread(figure, spread=False)
        return Span(bare, "" if figure.key in self.plain else f"#{self.short[figure.key]}")


_TERMS = 6  # of a sum from which they are not listed again
_MORE = 3  # terms beside those of another sum; of more the sum is listed by itself


def sums_listed(figures: Iterable[Figure]) -> dict[str, Figure]:
    """For each long sum the longest other one that lists all but a few of its terms."""
    sums = [f for f in figures if f.formula is not None and f.formula.name == "add"]
    once = [f for f in sums if len({i.key for i in f.inputs}) == len(f.inputs) >= _TERMS]
    full: list[tuple[Figure, frozenset[str]]] = []
    out: dict[str, Figure] = {}
    for figure in sorted(once, key=lambda f: len(f.inputs)):
        terms = frozenset(i.key for i in figure.inputs)
        within = [f for f, others in full if others <= terms and len(terms - others) <= _MORE]
        if within:
            out[figure.key] = within[-1]
        else:
            full.append((figure, terms))
    return out


_LETTERS = string.digits + string.ascii_letters
_SHORT = 2  # letters of a short anchor
_TAKEN = 4  # letters of the shortest anchor that a page has besides


def _letters(key: str, count: int) -> str:
    number = int.from_bytes(hashlib.sha256(key.encode()).digest()[:8], "big")
    base = len(_LETTERS)
    return "".join(_LETTERS[number // base**i % base] for i in range(count))


def short_anchors(keys: Iterable[str]) -> dict[str, str]:
    """A second anchor of a few letters for each key: a page of numbers leads to its own rows by
    thousands of links. It hangs on the key alone, and is longer where two would be alike.
    """
    out: dict[str, str] = {}
    left, count = list(dict.fromkeys(keys)), _SHORT
    while left:
        uses = Counter(_letters(k, count) for k in left)
        out |= {k: _letters(k, count) for k in left if uses[_letters(k, count)] == 1}
        left = [k for k in left if k not in out]
        count += 1 if count + 1 < _TAKEN else _TAKEN
    return out
