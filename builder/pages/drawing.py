"""Drawings without SVG: shapes in millimetres, y down, with a class that says what they mean."""

from dataclasses import field
from typing import Literal

from builder.frozen import value_class

Anchor = Literal["start", "middle", "end"]


@value_class(frozen=True, slots=True)
class Line:
    """A line through points; `tone` is a class of the style sheet, `colour` an English wire colour
    or ''.
    """

    points: tuple[tuple[float, float], ...]
    tone: str = ""
    colour: str = ""
    width: float = 0.25
    dash: str = ""
    title: str = ""


@value_class(frozen=True, slots=True)
class Rectangle:
    """A rectangle by its upper left corner."""

    x: float
    y: float
    width: float
    height: float
    tone: str = ""
    radius: float = 0.0
    colour: str = ""
    link: str = ""
    title: str = ""


@value_class(frozen=True, slots=True)
class Circle:
    """A circle by its middle."""

    x: float
    y: float
    radius: float
    tone: str = ""
    colour: str = ""
    link: str = ""
    title: str = ""


@value_class(frozen=True, slots=True)
class Shape:
    """A path in SVG's path syntax (an open standard), for arcs and arrows."""

    path: str
    tone: str = ""
    colour: str = ""


@value_class(frozen=True, slots=True)
class Words:
    """Selectable text; size in millimetres of the type's em."""

    x: float
    y: float
    text: str
    size: float = 3.0
    anchor: Anchor = "start"
    tone: str = ""
    turn: float = 0.0
    link: str = ""


@value_class(frozen=True, slots=True)
class Marked:
    """Shapes that are one thing and lead somewhere. `words` stand at `x`, `y` while it is pointed
    to or has the keyboard; a reader that speaks says them.
    """

    items: "tuple[Item, ...]"
    link: str
    words: str
    x: float = 0.0
    y: float = 0.0


@value_class(frozen=True, slots=True)
class KeptShapes:
    """Shapes that other drawings of the same page show again by their name, without saying them
    again. Never for paper: its printer shows nothing there.
    """

    name: str
    items: "tuple[Item, ...]"


@value_class(frozen=True, slots=True)
class Again:
    """The shapes of that name, which stand in another drawing of the same page; so many mm further
    down.
    """

    name: str
    down: float = 0.0


@value_class(frozen=True, slots=True)
class MarkedTogether:
    """Things that are marked together while one of them is pointed to or has the keyboard. For
    screens alone: paper leaves them out.
    """

    items: "tuple[Marked, ...]"


Item = Line | Rectangle | Circle | Shape | Words | Marked | KeptShapes | Again | MarkedTogether


@value_class(frozen=True, slots=True)
class Drawing:
    """A drawing with its alternative text. `name` prefixes every id, so that drawings can share a
    page.
    """

    name: str
    width: float
    height: float
    items: tuple[Item, ...]
    alt: str
    notes: tuple[str, ...] = field(default=())
