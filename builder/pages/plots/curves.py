"""Curves of flight as drawings with text: thrust and current of one motor, and time in the air over
size of pack.
"""

from builder.compute.compare.pack_sizes import PackSize, PackSizes
from builder.compute.figures.figure import Figure
from builder.compute.flight.flight import BAND, FlightFigures
from builder.model.kinds.drive import BenchTable
from builder.pages.drawing import Circle, Drawing, Item, Line, Words
from builder.pages.drawings.text_size import lines_within
from builder.pages.plots.plot import SMALL, Axis, Plot
from builder.rounding import rounded

_MOST_PACKS = 3  # of which a bench curve marks the hover
_TO_MAH = 1 / 3.6  # from A·s


def _rows(table: BenchTable, what: str) -> list[tuple[float, float]]:
    """Places on the curve: over throttle in per cent where every row has it, else over thrust in N."""
    by_throttle = all(r.throttle is not None for r in table.rows)
    out = []
    for r in table.rows:
        over = 100 * r.throttle.value if by_throttle and r.throttle is not None else r.thrust.value
        out.append((over, r.thrust.value if what == "thrust" else r.current.value))
    return sorted(out)


def _hovers(flight: FlightFigures, what: str, by_throttle: bool) -> list[tuple[str, float, float]]:
    """Pack, place across and place up of each hover that the table reaches."""
    out = []
    for pack in list(flight.packs.values())[:_MOST_PACKS]:
        h = pack.hover
        over = h.bench_throttle if by_throttle else h.thrust_each
        up = h.thrust_each if what == "thrust" else h.bench_current
        if isinstance(over, Figure) and isinstance(up, Figure):
            out.append((pack.pack, over.value * (100 if by_throttle else 1), up.value))
    return out


def bench_curve(build: str, flight: FlightFigures, what: str) -> Drawing | None:
    """Thrust (`thrust`, N) or current (`current`, A) of one motor by its bench table, with the
    hover on each pack.
    """
    table = flight.drive.table
    if table is None:
        return None
    by_throttle = all(r.throttle is not None for r in table.rows)
    if what == "thrust" and not by_throttle:
        return None
    points = _rows(table, what)
    unit = "N" if what == "thrust" else "A"
    across = Axis(
        "Throttle, per cent of the bench's volts" if by_throttle else "Thrust of one motor, N",
        0.0,
        points[-1][0],
    )
    plot = Plot(
        across,
        Axis(f"{what.capitalize()} of one motor, {unit}", 0.0, 1.08 * max(y for _, y in points)),
    )
    items = plot.axes()
    items.append(Line(tuple((plot.x(x), plot.y(y)) for x, y in points), tone="accent", width=0.6))
    items += [Circle(plot.x(x), plot.y(y), 0.6, tone="accent") for x, y in points]
    said = []
    over_unit, line = "%" if by_throttle else "N", plot.top + 4.0
    for pack, x, y in _hovers(flight, what, by_throttle):
        place = f"{rounded(x, 0 if by_throttle else 2)} {over_unit}"
        words = f"hover, {pack}: {rounded(y, 2)} {unit} at {place}"
        said.append(words)
        at = plot.x(x)
        ends = (at, plot.foot), (at, line + 0.8)
        items.append(Line(ends, dash="1.2 0.8", tone="soft", width=0.25))
        items.append(Circle(at, plot.y(y), 1.3, tone="pad"))
        before = at >= plot.left + 0.45 * plot.wide
        room = at - plot.left if before else plot.left + plot.wide - at
        for row in lines_within(words, SMALL, room - 2.0):
            items.append(_beside(at, line, row, 1.2, before=before))
            line += 4.2
    top = rounded(max(y for _, y in points), 1)
    over = "throttle" if by_throttle else "thrust"
    alt = f"{what.capitalize()} of one motor over {over}, up to {top} {unit}. {'; '.join(said)}".strip()
    return Drawing(f"{build}-{what}", *plot.size, tuple(items), alt)


def _beside(x: float, y: float, text: str, away: float, *, before: bool, tone: str = "") -> Words:
    """Words that begin behind a place, or end before it."""
    if before:
        return Words(x - away, y, text, SMALL, "end", tone)
    return Words(x + away, y, text, SMALL, "start", tone)


def _mark(plot: Plot, size: PackSize, number: int, lines: list[float]) -> list[Item]:
    """A pack's place with its number in the table beside: full for the build's, hollow for the
    shelf's.

    `lines` are the places across where a limit is drawn, which the number keeps clear of.
    """
    assert isinstance(size.time, Figure)  # the caller chose those
    x, y = plot.x(size.capacity * _TO_MAH), plot.y(size.time.value / 60)
    low, high = (v / 60 for v in size.time.band(BAND))
    ends = (x, plot.y(max(low, 0.0))), (x, plot.y(min(high, plot.up.high)))
    before = any(0 <= line - x < 6.0 for line in lines)
    words = _beside(x, y + 4.6, str(number), 2.0, before=before)
    tone = ("accent", "accent") if size.own else ("soft", "pad")
    return [Line(ends, tone=tone[0], width=0.35), Circle(x, y, 1.4, tone=tone[1]), words]


def _limit_lines(plot: Plot, limits: tuple[tuple[str, float], ...]) -> list[Item]:
    """A dashed line at each capacity at which a limit of mass is reached, named once where two lie
    together.
    """
    items: list[Item] = []
    names: list[tuple[float, str]] = []
    for name, capacity in sorted(limits, key=lambda p: p[1]):
        x = plot.x(capacity * _TO_MAH)
        items.append(Line(((x, plot.top), (x, plot.foot)), tone="bad", dash="2 1", width=0.35))
        if names and x - names[-1][0] < 2.0:
            names[-1] = (names[-1][0], f"{names[-1][1]}, {name}")
        else:
            names.append((x, name))
    for k, (x, name) in enumerate(names):
        before = x > plot.left + plot.wide / 2
        height = plot.foot - 2.0 - 4.4 * k
        items.append(_beside(x, height, name, 1.2, before=before, tone="bad"))
    return items


def pack_curve(build: str, sizes: PackSizes) -> Drawing | None:
    """Time in the air over capacity of the pack: the curve, each pack with its band, and each limit
    of mass.
    """
    known = [(i, s) for i, s in enumerate(sizes.sizes, 1) if isinstance(s.time, Figure)]
    if not sizes.curve or not known:
        return None
    points = [(q * _TO_MAH, t / 60) for q, _, t in sizes.curve]
    times = [s.time for _, s in known if isinstance(s.time, Figure)]
    tops = [t for _, t in points] + [time.band(BAND)[1] / 60 for time in times]
    across = Axis(
        f"Capacity of a battery of {sizes.series} cells, mAh", points[0][0], points[-1][0]
    )
    plot = Plot(across, Axis("Time as the builder flies, min", 0.0, 1.08 * max(tops)))
    items = plot.axes()
    said = [f"{name} is reached at {rounded(q * _TO_MAH, 0)} mAh" for name, q in sizes.limits]
    items += _limit_lines(plot, sizes.limits)
    items.append(Line(tuple((plot.x(q), plot.y(t)) for q, t in points), tone="accent", width=0.6))
    for number, size in known:
        items += _mark(plot, size, number, [plot.x(q * _TO_MAH) for _, q in sizes.limits])
    first, last = points[0], points[-1]
    least, most = (f"{rounded(t, 1)} min at {rounded(q, 0)} mAh" for q, t in (first, last))
    alt = f"Time in the air over capacity: {least} to {most}. {'; '.join(said)}"
    return Drawing(f"{build}-pack-sizes", *plot.size, tuple(items), alt.strip())
