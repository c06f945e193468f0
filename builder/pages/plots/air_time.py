"""Time in the air with each battery, and the flights of the log beside it."""

from builder.compute.figures.figure import Figure
from builder.compute.flight.flight import BAND, FlightFigures, PackFlight
from builder.pages.drawing import Circle, Drawing, Item, Line, Rectangle, Words
from builder.pages.drawings.text_size import lines_within
from builder.pages.plots.axis import round_step
from builder.rounding import rounded

_WIDE, _ROW, _TYPE = 100.0, 13.0, 3.3  # mm
_LEFT, _RIGHT = 22.0, 3.0  # mm for the names, and beside the longest
_LINE = 4.0  # mm between the lines of a name
_TOP = 2.0
_MINUTE = 60.0  # s


def _minutes(pack: PackFlight) -> tuple[float, float, float] | None:
    """The time as the builder flies and the two ends of its band, in min."""
    time = pack.endurance_styled
    if not isinstance(time, Figure):
        return None
    low, high = time.band(BAND) if time.spread else (time.value, time.value)
    return time.value / _MINUTE, low / _MINUTE, high / _MINUTE


def _axis(scale: float, longest: float, y: float) -> list[Item]:
    step = round_step(longest, 6)
    items: list[Item] = []
    for k in range(int(longest / step + 1e-9) + 1):
        x = _LEFT + scale * step * k
        items.append(Line(((x, _TOP), (x, y)), "hair", width=0.15))
        items.append(Words(x, y + 4.0, rounded(step * k, 0 if step >= 1 else 1), _TYPE, "middle"))
    items.append(Words(_WIDE, y + 8.4, "min in the air, as the builder flies", _TYPE, "end"))
    return items


def _lines_of(name: str) -> list[str]:
    """A battery's name in lines that have room beside its bar."""
    return lines_within(name, _TYPE, _LEFT - 2.0)


def _row_items(
    name: str,
    time: tuple[float, float, float],
    logged: list[tuple[float, bool]],
    y: float,
    mm: float,
) -> list[Item]:
    """A bar with its band, and below it the flights: filled where they count."""
    value, low, high = (_LEFT + mm * t for t in time)
    lines = _lines_of(name)
    items: list[Item] = [
        Words(_LEFT - 1.5, y + 1.2 + _LINE * k, line, _TYPE, "end") for k, line in enumerate(lines)
    ]
    items.append(Rectangle(_LEFT, y - 2.0, value - _LEFT, 4.0, "soft"))
    items.append(Line(((low, y), (high, y)), width=0.5))
    items += [Line(((x, y - 1.5), (x, y + 1.5)), width=0.5) for x in (low, high)]
    for minutes, counted in logged:
        x = _LEFT + mm * minutes
        items.append(Circle(x, y + 4.6, 1.2, "solid" if counted else "pad"))
    return items


def air_time(build: str, found: FlightFigures) -> Drawing | None:
    """Each battery's time with its band and its logged flights; None where no time is known."""
    times = {p.pack: t for p in found.packs.values() if (t := _minutes(p)) is not None}
    if not times:
        return None
    logged = {
        name: [(f.minutes, not f.left_out) for f in found.style.flights if f.pack == name]
        for name in times
    }
    longest = max([t[2] for t in times.values()] + [m for own in logged.values() for m, _ in own])
    mm = (_WIDE - _LEFT - _RIGHT) / longest
    row = max(_ROW, 3.0 + _LINE * max(len(_lines_of(name)) for name in times))
    items: list[Item] = []
    told: list[str] = []
    for k, (name, time) in enumerate(times.items()):
        items += _row_items(name, time, logged[name], _TOP + 4.0 + row * k, mm)
        flown = ", ".join(rounded(m, 1) for m, _ in logged[name]) or "none"
        value, low, high = (rounded(t, 1) for t in time)
        told.append(f"{name} {value} min ({low} to {high}), flights {flown}")
    foot = _TOP + row * len(times)
    axis = _axis(mm, longest, foot)
    alt = f"Time in the air with each battery: {'; '.join(told)}."
    return Drawing(f"{build}-air-time", _WIDE, foot + 10.0, (*axis, *items), alt)
