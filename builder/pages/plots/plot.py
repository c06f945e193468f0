"""A plot area in millimetres: axes with round ticks, a hair grid, and where a value lies on it."""

from dataclasses import dataclass
from math import floor, log10

from builder.pages.drawing import Item, Line, Words
from builder.pages.plots.axis import round_step
from builder.rounding import rounded

TEXT, SMALL = 3.4, 3.2  # mm
_MOST = 5  # steps between ticks


@dataclass(frozen=True)
class Axis:
    """One axis: what it shows, in which unit, from where to where."""

    words: str
    low: float
    high: float

    @property
    def ticks(self) -> tuple[float, ...]:
        """Round values within the axis."""
        step = round_step(self.high - self.low, _MOST)
        first = -floor(-self.low / step)
        return tuple(k * step for k in range(first, floor(self.high / step + 1e-9) + 1))

    def said(self, value: float) -> str:
        """A tick's number with as many decimals as its step needs."""
        return rounded(value, max(0, -floor(log10(round_step(self.high - self.low, _MOST)) + 1e-9)))


@dataclass(frozen=True)
class Plot:
    """The area between two axes."""

    across: Axis
    up: Axis
    left: float = 12.0
    top: float = 8.0
    wide: float = 78.0
    high: float = 46.0

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the whole drawing."""
        return self.left + self.wide + 5.0, self.top + self.high + 11.0

    @property
    def foot(self) -> float:
        """Where the lower axis lies."""
        return self.top + self.high

    def x(self, value: float) -> float:
        """Place across."""
        return self.left + self.wide * (value - self.across.low) / (
            self.across.high - self.across.low
        )

    def y(self, value: float) -> float:
        """Place down."""
        return self.foot - self.high * (value - self.up.low) / (self.up.high - self.up.low)

    def axes(self) -> list[Item]:
        """Grid, ticks with their numbers, and what the axes show."""
        right, out = self.left + self.wide, list[Item]()
        for value in self.up.ticks:
            y = self.y(value)
            out.append(Line(((self.left, y), (right, y)), tone="hair", width=0.15))
            out.append(
                Words(self.left - 1.2, y + 1.0, self.up.said(value), SMALL, "end", tone="soft")
            )
        for value in self.across.ticks:
            x = self.x(value)
            out.append(Line(((x, self.foot), (x, self.foot + 1.0)), tone="soft", width=0.2))
            out.append(
                Words(x, self.foot + 4.4, self.across.said(value), SMALL, "middle", tone="soft")
            )
        out.append(Line(((self.left, self.foot), (right, self.foot)), tone="soft", width=0.25))
        out.append(Words(0.0, 3.6, self.up.words, TEXT))
        out.append(Words(right, self.foot + 9.4, self.across.words, TEXT, "end"))
        return out
