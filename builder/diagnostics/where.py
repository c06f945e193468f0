"""Where a value stands: a file and the keys that lead to it, and the line it is on."""

from collections.abc import Mapping
from dataclasses import field
from typing import Protocol

from builder.frozen import value_class

KeyStep = str | int
KeyPath = tuple[KeyStep, ...]


@value_class(frozen=True, slots=True)
class Where:
    """A value (or its key) in a source file, named by keys, so that a comment above it changes
    nothing.

    `file` is relative to the builds folder; `offset` counts characters into the value's text.
    """

    file: str
    path: KeyPath = ()
    key: bool = False
    offset: int = 0

    def at(self, *steps: KeyStep) -> "Where":
        """The value that further keys lead to."""
        return Where(self.file, self.path + steps)

    def cite(self) -> str:
        """As pages cite it: file and key path, never a line number."""
        return ", ".join([self.file, *(str(s + 1) if isinstance(s, int) else s for s in self.path)])


@value_class(frozen=True, slots=True)
class SourcePlace:
    """A line and column (both from 1), with the line's text, for the terminal and for editors."""

    file: str
    line: int
    column: int
    text: str
    width: int = 1


class Sources(Protocol):
    """What can turn a Where into a Place: the loaded documents."""

    def locate(self, where: Where) -> SourcePlace | None:
        """The place of the value, or of the nearest value above it; None for a file that is not
        loaded.
        """


@value_class(frozen=True)
class Origins:
    """Which Where each path of a merged tree came from (a variant mixes two files)."""

    root: Where
    moved: Mapping[KeyPath, Where] = field(default_factory=dict)

    def where(self, path: KeyPath, *, key: bool = False) -> Where:
        """The Where of a path in the merged tree: the longest moved prefix, or the root."""
        for length in range(len(path), 0, -1):
            found = self.moved.get(path[:length])
            if found is not None:
                return Where(found.file, found.path + path[length:], key)
        return Where(self.root.file, self.root.path + path, key)
