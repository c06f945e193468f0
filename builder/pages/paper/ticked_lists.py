"""Lists with a box at each line, in two columns: what is to be got ready takes half the paper of a
table.
"""

from collections.abc import Iterable, Sequence

from builder.pages.blocks import Block, Bullets, Inline, Section
from builder.pages.paper.stacks import Stacked, in_two_stacks

_CHUNK = 5  # lines that stay together, so that a list can be cut between two columns
TickedLine = tuple[Inline, ...]


def ticked_group(anchor: str, heading: str, lines: Sequence[TickedLine]) -> list[Stacked]:
    """A heading and its lines, in pieces of which a column takes as many as it holds."""
    chunks = [Bullets(tuple(lines[i : i + _CHUNK])) for i in range(0, len(lines), _CHUNK)]
    if not chunks:
        return []
    return [Section(anchor, heading, (chunks[0],), 3), *chunks[1:]]


def ticked_lists(groups: Iterable[list[Stacked]]) -> tuple[Block | Section, ...]:
    """All groups in two columns, in the order in which they are read."""
    return tuple(in_two_stacks(piece for group in groups for piece in group))
