"""Where something stands in a chapter: the lines of a block come from the parser, the column is
looked for.
"""

from dataclasses import dataclass, field

from builder.diagnostics.where import Where


@dataclass(eq=False)
class ChapterPlaces:
    """Places in one file, asked for from its beginning to its end. Local to a call."""

    file: str
    lines: list[str]
    _last: dict[str, tuple[int, int]] = field(default_factory=dict)

    def line(self, number: int, width: int = 0) -> Where:
        """The whole of a line."""
        text = self.lines[number] if number < len(self.lines) else ""
        blank = len(text) - len(text.lstrip())
        return Where(self.file, (number, width or len(text.strip()) or 1), offset=blank)

    def of(self, words: str, first: int, after: int) -> Where:
        """The next time that these words stand between two lines; the first line where they do not."""
        line, column = self._last.get(words, (first, 0))
        if line < first:
            line, column = first, 0
        for number in range(line, min(after, len(self.lines))):
            found = self.lines[number].find(words, column if number == line else 0)
            if found >= 0:
                self._last[words] = number, found + len(words)
                return Where(self.file, (number, len(words)), offset=found)
        return self.line(first)
