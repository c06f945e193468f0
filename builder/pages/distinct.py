"""Each id of a page once: two prints such as `A.1` and `A-1` have one plain id, and two ticks must
never be one.
"""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from builder.pages.blocks import (
    Fold,
    GateBar,
    Illustration,
    Notice,
    Row,
    Section,
    Side,
    Step,
    Steps,
    Table,
    TwoStacks,
)

_WITH_ANCHOR = (Table, Notice, Illustration)


def distinct_names(names: Iterable[str]) -> tuple[str, ...]:
    """The names in their order; one that was there already gets an ending that none of ours has."""
    given = Given()
    return tuple(map(given.once, names))


class Given:
    """The ids that a page has given away. Local to a page."""

    def __init__(self) -> None:
        self._count: dict[str, int] = {}
        self.renamed = False

    def once(self, anchor: str) -> str:
        """The id itself, or where it is taken, with its number behind it."""
        if not anchor:
            return ""
        at = self._count[anchor] = self._count.get(anchor, 0) + 1
        if at == 1:
            return anchor
        self.renamed = True
        return f"{anchor}~{at}"


def _again(block: Any, given: Given) -> Any:
    """A block with each id once; the block itself where nothing changed."""
    changes: dict[str, Any] = {}
    if isinstance(block, (Section, GateBar, Row, Step, *_WITH_ANCHOR)):
        anchor = given.once(block.anchor)
        if anchor != block.anchor:
            changes["anchor"] = anchor
    inside = {Section: "blocks", Fold: "blocks", Table: "rows", Steps: "items", Step: "parts"}.get(
        type(block)
    )
    if inside is not None:
        before = getattr(block, inside)
        after = tuple(_again(child, given) for child in before)
        if any(a is not b for a, b in zip(after, before, strict=True)):
            changes[inside] = after
    if isinstance(block, Side):
        first, second = _again(block.first, given), _again(block.second, given)
        if first is not block.first or second is not block.second:
            changes |= {"first": first, "second": second}
    if isinstance(block, TwoStacks):
        for side in ("first", "second"):
            stack = getattr(block, side)
            made = tuple(_again(child, given) for child in stack)
            if any(a is not b for a, b in zip(made, stack, strict=True)):
                changes[side] = made
    return replace(block, **changes) if changes else block


def distinct(sections: tuple[Section, ...]) -> tuple[Section, ...]:
    """The sections of a page with each id once; those that come first keep theirs."""
    given = Given()
    made = tuple(_again(section, given) for section in sections)
    return made if given.renamed else sections
