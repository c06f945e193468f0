"""Get ready and cut: things, parts, wires, screws."""

from builder.pages.blocks import Block, Illustration, Section
from builder.pages.drawings.true_size import ruler, screw_silhouettes
from builder.pages.paper.bench_cuts import bench_cuts
from builder.pages.paper.bench_parts import bench_parts
from builder.pages.sections.before_you_start import lay_out
from builder.pages.sheet_input import SheetInput


def _parts(sheet: SheetInput) -> Section:
    parts = bench_parts(sheet)
    blocks = (parts,) if parts is not None else ()
    return Section("bench-parts", "Parts to get ready", blocks)


def _cutting(sheet: SheetInput) -> Section:
    """Wires to cut, then ruler and screws at true size, to lay things on."""
    blocks: list[Block] = []
    cuts = bench_cuts(sheet)
    if cuts is not None:
        blocks.append(cuts)
    blocks.append(
        Illustration(ruler(), "Printed at 100 %, the bar is 100 mm long.", true_size=True)
    )
    screws = screw_silhouettes(sheet.build)
    if screws is not None:
        caption = "Screws at true size (heads near the standard of their shape): lay yours on them."
        blocks.append(Illustration(screws, caption, true_size=True))
    return Section("cutting", "Wires to cut, screws to sort", tuple(blocks))


def get_ready(sheet: SheetInput) -> tuple[Section, ...]:
    """All that lies on the bench before the first step."""
    return lay_out(sheet), _parts(sheet), _cutting(sheet)
