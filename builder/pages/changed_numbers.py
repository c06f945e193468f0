"""What changed in numbers with a line of the change log: 'flying weight 228.7 g, was 231.0 g'.

The figure before is what the builder wrote under `was`; the one behind it is the one before of a later
change, or what it is now. Nothing hangs on what was published once.
"""

from collections.abc import Mapping
from dataclasses import replace

from builder.compute.figures.figure import Figure, MaybeFigure
from builder.model.source.build_log import Change
from builder.model.values.quantities import Quantity
from builder.model.values.units import DIMENSIONS
from builder.pages.blocks import Inline, Number, Span
from builder.pages.chapter_figure import chapter_figure
from builder.pages.sheet_input import SheetInput

Numbers = tuple[Inline, ...]


def _whole_key(build: str, key: str, figures: Mapping[str, MaybeFigure]) -> str:
    return key if key in figures else f"{build}/{key}"


def unit_fits(figure: MaybeFigure, was: Quantity) -> bool:
    """Whether a figure and what it was are of one unit; what is not known may have been anything."""
    if not isinstance(figure, Figure):
        return True
    bare = not was.unit  # a plain number, as of a ratio
    return figure.unit == "1" if bare else DIMENSIONS[was.dimension].si == figure.unit


def _shown(figure: MaybeFigure, value: float | None) -> Number | Span:
    """The figure, or another value of it: words that somebody wrote, which have no derivation."""
    if value is None or not isinstance(figure, Figure):
        return chapter_figure(figure)
    other = chapter_figure(replace(figure, value=value, lacks=()))
    return Span(f"{other.value}\u00a0{other.unit}".rstrip("\u00a0"))


def _of_one(figure: MaybeFigure, was: Quantity, then: float | None) -> Numbers:
    label = figure.label if isinstance(figure, Figure) else figure.key.rpartition("/")[2]
    now, before = _shown(figure, then), _shown(figure, was.value)
    return Span(f"{label} "), now, Span(", was "), before


def _joined_with(lines: list[Numbers]) -> Numbers:
    out: list[Inline] = []
    for line in lines:
        out += [Span("; ")] if out else []
        out += line
    return tuple(out)


def changed_numbers(sheet: SheetInput) -> tuple[Numbers, ...]:
    """For each change of the log in its order what it did to the numbers; nothing where it says
    nothing.
    """
    changes = sheet.build.source.changes
    if not any(change.was for change in changes):
        return tuple(() for _ in changes)
    figures: dict[str, MaybeFigure] = {u.key: u for u in sheet.unknown}
    figures |= {f.key: f for f in sheet.figures}
    newest_first = sorted(range(len(changes)), key=lambda i: changes[i].date, reverse=True)
    later: dict[str, float] = {}
    found: dict[int, Numbers] = {}
    for at in newest_first:
        found[at] = _of_change(sheet.build.name, changes[at], figures, later)
    return tuple(found[at] for at in range(len(changes)))


def _of_change(
    build: str, change: Change, figures: Mapping[str, MaybeFigure], later: dict[str, float]
) -> Numbers:
    """The numbers of one change; what they were before it is what they became by an earlier one."""
    lines: list[Numbers] = []
    for written, was in change.was.items():
        key = _whole_key(build, written, figures)
        if key in figures and unit_fits(figures[key], was):
            lines.append(_of_one(figures[key], was, later.get(key)))
            later[key] = was.value
    return _joined_with(lines)
