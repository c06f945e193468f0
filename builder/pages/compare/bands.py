"""Time in the air of both builds on each pack as bands over one scale, those of packs with one name
over each other.
"""

from builder.compute.figures.figure import Figure
from builder.compute.flight.flight import BAND
from builder.pages.drawing import Drawing, Item, Line, Rectangle, Words
from builder.pages.plots.axis import round_steps
from builder.pages.sheet_input import SheetInput
from builder.rounding import rounded

_LEFT, _WIDE, _BAR, _GAP = 34.0, 60.0, 3.6, 2.4
_MINUTE = 60.0


def _times(sheet: SheetInput) -> dict[str, Figure]:
    packs = sheet.results.flight.packs
    return {
        k: p.endurance_styled for k, p in packs.items() if isinstance(p.endurance_styled, Figure)
    }


def _lanes(a: SheetInput, b: SheetInput) -> list[list[tuple[SheetInput, str, Figure]]]:
    """Packs of one name in one lane, the first build's above the second's; then those that only one
    of them has.
    """
    ours, theirs = _times(a), _times(b)
    both = [[(a, k, f), (b, k, theirs[k])] for k, f in ours.items() if k in theirs]
    alone = [(a, k, f) for k, f in ours.items() if k not in theirs]
    alone += [(b, k, f) for k, f in theirs.items() if k not in ours]
    return both + [[one] for one in alone]


def _minutes(figure: Figure) -> tuple[float, float, float]:
    low, high = figure.band(BAND)
    return max(low, 0.0) / _MINUTE, figure.value / _MINUTE, high / _MINUTE


def bands(a: SheetInput, b: SheetInput) -> Drawing | None:
    """Bands of the time in the air with their values in words; None where neither has one."""
    lanes = _lanes(a, b)
    if not lanes:
        return None
    marks = round_steps(max(_minutes(f)[2] for lane in lanes for _, _, f in lane))
    scale = _WIDE / marks[-1]
    items: list[Item] = []
    said: list[str] = []
    y = 2.0
    for lane in lanes:
        for sheet, pack, figure in lane:
            low, middle, high = _minutes(figure)
            name = f"{sheet.build.name}, {pack}"
            text = f"{rounded(middle, 1)} min ({rounded(low, 1)} to {rounded(high, 1)})"
            x = _LEFT + middle * scale
            tone = "accent" if sheet is a else "fill"
            items.append(Words(_LEFT - 2, y + 2.9, name, 3.0, "end"))
            items.append(
                Rectangle(_LEFT + low * scale, y, max((high - low) * scale, 0.4), _BAR, tone)
            )
            items.append(
                Line(((x, y - 0.3), (x, y + _BAR + 0.3)), "halo" if sheet is a else "", width=0.5)
            )
            items.append(Words(_LEFT + _WIDE + 3, y + 2.9, text, 3.0))
            said.append(f"{name}: {text}")
            y += _BAR
        y += _GAP
    grid: list[Item] = []
    for mark in marks:
        x = _LEFT + mark * scale
        grid.append(Line(((x, 0.5), (x, y - 0.5)), "hair", width=0.2))
        grid.append(
            Words(x, y + 3.0, rounded(mark, 0 if marks[1] >= 1 else 1), 2.8, "middle", "soft")
        )
    grid.append(Words(_LEFT + _WIDE + 3, y + 3.0, "minutes in the air", 2.8, "start", "soft"))
    name = f"bands-{a.build.name}-{b.build.name}"
    return Drawing(
        name,
        _LEFT + _WIDE + 37,
        y + 5,
        (*grid, *items),
        "Time in the air. " + "; ".join(said) + ".",
    )
