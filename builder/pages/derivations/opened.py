"""What a page of derivations has opened so far: its formulas, its values, and the short anchors by
which its rows lead to each other.
"""

import hashlib
import string
from collections.abc import Iterable, Mapping, Set
from dataclasses import dataclass, field

from builder.compute.figures.figure import Figure
from builder.compute.figures.sloped_formula import Formula
from builder.pages.blocks import Span
from builder.pages.derivations.derivation import digits_by_spread
from builder.pages.derivations.formulas_opened import Formulas
from builder.pages.derivations.leaf_groups import LeafGroup
from builder.pages.derivations.likes import Like


@dataclass
class Opened:
    """What a page has opened so far. Local to a page.

    `plain` are the keys of counts and constants that one figure uses: the row of that figure says
    them. `short` are the anchors by which rows of the page lead to each other, `heads` those of
    rows of likes and of their headings, by the key of the likes. `lists` are the long lists of
    inputs that a row gives, with its words and its anchor. `read` are the groups of what was read
    whose names share words, by the key of each of their figures. `formula_anchors` are second
    anchors of formulas, by their first.
    """

    build: str
    plain: frozenset[str]
    short: Mapping[str, str]
    formulas: Formulas = field(default_factory=Formulas)
    values: dict[str, str] = field(default_factory=dict)
    listed: Mapping[str, Figure] = field(default_factory=dict)
    likes: Mapping[str, Like] = field(default_factory=dict)
    heads: Mapping[str, str] = field(default_factory=dict)
    formula_anchors: Mapping[str, str] = field(default_factory=dict)
    read: Mapping[str, LeafGroup] = field(default_factory=dict)
    lists: dict[tuple[str, ...], tuple[str, str]] = field(default_factory=dict)

    def value(self, figure: Figure) -> str:
        """A value to the digits that its spread leaves, made once."""
        made = self.values.get(figure.key)
        if made is None:
            made = self.values[figure.key] = digits_by_spread(figure)
        return made

    def formula(self, how: Formula) -> Span:
        """A formula as a link to the row that says its source and limits, by a short anchor."""
        anchor = self.formula_anchors[self.formulas.anchor(how)]
        return Span(how.text.formula, f"#{anchor}", code=True)

    def anchor(self, figure: Figure) -> str:
        """The id of a figure's row, the short one where it has one."""
        return self.short.get(figure.key, figure.anchor)

    def input(self, figure: Figure) -> Span:
        """An input as a link to its row; a plain constant as itself."""
        bare = digits_by_spread(figure, spread=False)
        return Span(bare, "" if figure.key in self.plain else f"#{self.short[figure.key]}")


_TERMS = 6  # of a sum from which they are not listed again
_MORE = 3  # terms beside those of another sum; of more the sum is listed by itself,
_FIFTH = 5  # unless they are but a fifth of those


def _few(more: Set[str], others: Set[str]) -> bool:
    return len(more) <= max(_MORE, len(others) // _FIFTH)


def sums_listed(figures: Iterable[Figure]) -> dict[str, Figure]:
    """For each long sum the longest other one that lists all but a few of its terms."""
    sums = [f for f in figures if f.formula is not None and f.formula.name == "add"]
    once = [f for f in sums if len({i.key for i in f.inputs}) == len(f.inputs) >= _TERMS]
    full: list[tuple[Figure, frozenset[str]]] = []
    out: dict[str, Figure] = {}
    for figure in sorted(once, key=lambda f: len(f.inputs)):
        terms = frozenset(i.key for i in figure.inputs)
        within = [f for f, others in full if others <= terms and _few(terms - others, others)]
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
    thousands of links. It hangs on the key alone, and is longer where another key has it already.
    """
    out: dict[str, str] = {}
    left, count = sorted(set(keys)), _SHORT
    while left:
        taken: dict[str, str] = {}
        for key in left:
            taken.setdefault(_letters(key, count), key)
        out |= {key: anchor for anchor, key in taken.items()}
        left = [key for key in left if key not in out]
        count += 1 if count + 1 < _TAKEN else _TAKEN
    return out
