"""Size of the pack: the curve of time over capacity, and the packs on it with their weights and
limits.
"""

from builder.compute.compare.pack_sizes import PackSize
from builder.compute.figures.figure import Figure
from builder.compute.weight.limits import keeps_limit
from builder.model.follow.like_packs import MOST_LIKE
from builder.pages.blocks import Block, Cell, Column, Illustration, Row, Section, Span, Table
from builder.pages.numbers import cell, number
from builder.pages.plots.bands import band
from builder.pages.plots.curves import pack_curve
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sheet_input import SheetInput
from builder.rounding import rounded


def _limits(sheet: SheetInput, size: PackSize) -> Cell:
    """The limits of all-up weight that it keeps and breaks, and those of which that is not known."""
    if not isinstance(size.mass, Figure):
        return cell("not known: its weight is missing")
    words, over = [], False
    for limit in sheet.build.site.limits:
        if limit.applies_to == "all-up":
            keeps = keeps_limit(size.mass, limit)
            said = {
                True: f"within {limit.name}",
                False: f"over {limit.name}",
                None: f"{limit.name} not known",
            }
            words.append(said[keeps])
            over = over or keeps is not True
    return Cell((Span("; ".join(words) or "none set"),), tone="bad" if over else "")


def _row(sheet: SheetInput, number_: int, size: PackSize, linked: bool) -> Row:
    name = Span(size.label, f"parts/{size.shelf}/index.html" if linked else "")
    return table_row(
        str(number_),
        Cell((name,), note="" if size.own else "on the shelf, not in this build"),
        f"{rounded(size.capacity / 3.6, 0)} mAh",
        number(size.mass),
        band(size.time),
        _limits(sheet, size),
    )


def size_blocks(sheet: SheetInput) -> tuple[Block | Section, ...]:
    """The section in one piece; empty where there is nothing to choose between and no curve."""
    found = sheet.sizes
    if found is None or not found.sizes:
        return ()
    used = {p.shelf for p in sheet.build.packs.values()}
    heads = table_columns(
        Column("No.", narrow=True),
        "Battery",
        right_column("Capacity"),
        right_column("Flying weight"),
        right_column("Time as the builder flies"),
        "Limits of weight",
    )
    rows = tuple(_row(sheet, i, s, s.shelf in used) for i, s in enumerate(found.sizes, 1))
    note = (
        f"Batteries of {found.series} cells: of the shelf's at most the {MOST_LIKE} nearest in size."
        " Whether one of these fits and plugs in is not checked here. The curve takes weight as a"
        " straight line through these batteries, and resistance as falling with capacity."
    )
    table = Table("Batteries by size", heads, rows, anchor="packs-by-size", stack=True, note=note)
    drawn = pack_curve(sheet.build.name, found)
    blocks: tuple[Block, ...] = (table,)
    if drawn is not None:
        caption = (
            "Time in the air over size of battery; full dots are this build's, empty ones are"
            " on the shelf."
        )
        blocks = (Illustration(drawn, caption, "pack-sizes-curve", plot=True), table)
    return (Section("pack-sizes", "A larger or a smaller battery", blocks, level=3),)
