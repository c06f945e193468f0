"""A part by itself with its pads in physical order, on its own page."""

from builder.model.source.part import Part
from builder.pages.blocks import Block, Illustration, Paragraph, Span
from builder.pages.drawing import Drawing
from builder.pages.drawings.ring import EDGES, ring
from builder.pages.views.board_view import BoardView, part_seen

_ORDER = "In physical order, not to scale."


def _alt(part: Part, side: str, seen: BoardView) -> str:
    """The contacts edge by edge, as they are counted on the drawing."""
    around = ring(part)
    said = []
    for edge in EDGES:
        names = [p.pad for p in getattr(around, edge) if p.under == (side == "under")]
        said += [f"{edge} edge: {', '.join(names)}"] if names else []
    return f"{part.name}, {seen.said}. Contacts, as seen from above: {'; '.join(said)}."


def part_pads(shelf: str, part: Part) -> tuple[Block, ...]:
    """A drawing for each side that has contacts, and the contacts of which no place is stated."""
    out: list[Block] = []
    for side in ("top", "under"):
        seen = part_seen("Upper side" if side == "top" else "Underside", part, side)
        if seen is not None:
            name = f"pads-{shelf}-{side}"
            drawing = Drawing(
                name, seen.width, seen.bottom + 1.5, seen.shape.items, _alt(part, side, seen)
            )
            out.append(Illustration(drawing, _ORDER, plot=True))
    loose = [p.pad for p in ring(part).loose]
    if loose:
        words = f"Nobody says where on the part these are: {', '.join(loose)}."
        out.append(Paragraph((Span(words),), quiet=True))
    return tuple(out)
