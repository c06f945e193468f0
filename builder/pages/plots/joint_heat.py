"""Which joints are near what the iron can heat: seconds until each is hot, beside the usual time."""

from collections.abc import Sequence

from builder.compute.figures.figure import Figure
from builder.compute.joints.joints import Joint
from builder.frozen import value_class
from builder.pages.drawing import Drawing, Item, Line, Rectangle, Words
from builder.pages.drawings.text_size import close_width
from builder.rounding import rounded

_WIDE, _ROW, _TYPE = 100.0, 6.5, 3.3  # mm
_ROWS = 6  # hardest ones that are drawn


@value_class(frozen=True, slots=True)
class HeatRow:
    """Joints that are alike: their name, seconds until hot (None: never by the figures), and the usual
    seconds.
    """

    name: str
    needs: float | None
    usual: tuple[int, int]

    @property
    def share(self) -> float:
        """How much of the usual time they need."""
        return self.needs / self.usual[1] if self.needs is not None else float("inf")


def heat_rows(found: Sequence[Joint]) -> tuple[HeatRow, ...]:
    """The joints whose figures are known, hardest first, those that are alike in one row."""
    alike: dict[tuple[str, float | None, tuple[int, int]], list[str]] = {}
    for joint in found:
        heat = joint.heat
        if not isinstance(heat.flow, Figure):
            continue
        least = heat.least_dwell
        needs = round(least.value, 3) if isinstance(least, Figure) else None
        alike.setdefault((joint.board, needs, heat.dwell), []).append(joint.contact.pad)
    rows = []
    for (board, needs, usual), pads in alike.items():
        more = f" and {len(pads) - 1} more" if len(pads) > 1 else ""
        rows.append(HeatRow(f"{board}.{pads[0]}{more}", needs, usual))
    return tuple(sorted(rows, key=_hardest))


def _hardest(row: HeatRow) -> tuple[float, str]:
    return -row.share, row.name


def _said(row: HeatRow) -> str:
    if row.needs is None:
        return "not hot with this tip"
    late = "" if row.share <= 1 else ", late"
    return f"{rounded(row.needs, 1)} s{late}"


@value_class(frozen=True, slots=True)
class HeatPage:
    """From seconds to mm: where the bars begin, the longest, and mm a second."""

    left: float
    long: float
    scale: float


def _page(rows: Sequence[HeatRow]) -> HeatPage:
    left = max(close_width(r.name, _TYPE) for r in rows) + 2.5
    words = max(close_width(_said(r), _TYPE) for r in rows) + 2.0
    longest = max([r.needs or 0.0 for r in rows] + [float(r.usual[1]) for r in rows])
    long = _WIDE - left - words
    return HeatPage(left, long, long / longest)


def _row_items(row: HeatRow, y: float, page: HeatPage) -> list[Item]:
    """Its name, the bar to the second at which it is hot, and a frame around the usual time."""
    left, scale = page.left, page.scale
    long = page.long if row.needs is None else scale * row.needs
    tone = "solid" if row.share > 1 else "soft"
    low, high = (left + scale * s for s in row.usual)
    base = y + 0.35 * _TYPE
    words = left + max(long, high - left) + 1.5
    items: list[Item] = [
        Words(left - 1.5, base, row.name, _TYPE, "end"),
        Rectangle(left, y - 1.4, long, 2.8, tone),
        Words(words, base, _said(row), _TYPE),
    ]
    ends = ((low, y - 2.4), (low, y + 2.4), (high, y + 2.4), (high, y - 2.4))
    items.append(Line(ends, "accent", width=0.4))
    return items


def heat_picture(build: str, found: Sequence[Joint]) -> Drawing | None:
    """The hardest joints; None where no figure is known."""
    rows = heat_rows(found)[:_ROWS]
    if not rows:
        return None
    page = _page(rows)
    items: list[Item] = []
    for k, row in enumerate(rows):
        items += _row_items(row, 4.0 + _ROW * k, page)
    told = "; ".join(f"{r.name} {_said(r)} ({r.usual[0]} to {r.usual[1]} s)" for r in rows)
    alt = f"Seconds until the hardest joints are hot (usual): {told}."
    return Drawing(f"{build}-heat", _WIDE, 4.0 + _ROW * len(rows), tuple(items), alt)
