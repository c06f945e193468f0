"""Parts: what to buy, by group, with the weight and price of one; alternatives; on a variant, what
differs.
"""

from builder.compute.figures.figure import Unknown
from builder.diagnostics.sentence import joined
from builder.model.build import Build, Fitted
from builder.model.values.money_text import Money
from builder.pages.blocks import Block, Cell, Column, Inline, Paragraph, Row, Section, Span, Table
from builder.pages.finding_words import sentence_pieces
from builder.pages.numbers import number
from builder.pages.plots.bands import banded
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.part_numbers import groups_of, pack_key, part_anchor, part_numbers
from builder.pages.tables.screw_list import screw_table
from builder.pages.tables.variant import variant_section
from builder.pages.views.aircraft import above_on_parts_page
from builder.rules.try_alternatives import Tried

_ON_THE_GROUND = ("consumable", "tool", "ground")  # which no view of the aircraft leads to
_COLUMNS = table_columns(
    "Part",
    "Called",
    Column("Pieces", align="right", narrow=True),
    Column("Spares", align="right", narrow=True),
    right_column("Each"),
    "Note",
)


def _note(fitted: Fitted) -> str:
    return " ".join(n for n in (fitted.use.note, fitted.part.note) if n)


def _row(sheet: SheetInput, fitted: Fitted, no: int) -> Row:
    each = next(
        (
            x.each
            for x in (*sheet.results.mass.lines, *sheet.results.mass.payload)
            if x.key == fitted.key
        ),
        None,
    )
    spares = str(fitted.use.spares) if fitted.use.spares else ""
    link = Span(fitted.part.name, f"parts/{fitted.shelf}/index.html")
    name = Cell((Span(f"{no} "), link), note=fitted.part.maker or "")
    weight = Cell((number(each, decimals=2),)) if each is not None else Cell()
    pieces = str(fitted.count)
    anchor = part_anchor(no) if fitted.part.group not in _ON_THE_GROUND else ""
    said = (name, fitted.key, pieces, spares, weight, _note(fitted))
    return table_row(*said, anchor=anchor)


def _pack_rows(sheet: SheetInput, numbers: dict[str, int]) -> list[Row]:
    rows = []
    for key, pack in sheet.build.packs.items():
        each, no = sheet.results.mass.packs[key].each, numbers[pack_key(key)]
        pieces = str(pack.pieces)
        cells = (
            Cell(
                (Span(f"{no} "), Span(pack.part.name, f"parts/{pack.shelf}/index.html")),
                note=pack.part.maker or "",
            ),
            Cell((Span(key),)),
            Cell((Span(pieces),)),
            Cell(),
            Cell((number(each, decimals=2),)),
            Cell((Span(pack.use.note or pack.part.note or ""),)),
        )
        rows.append(Row(cells, anchor=part_anchor(no)))
    return rows


def _table(sheet: SheetInput) -> Table:
    rows: list[Row] = []
    parts = sheet.build.parts.values()
    numbers = part_numbers(sheet.build)
    for group in groups_of(sheet.build):
        made = [_row(sheet, f, numbers[f.key]) for f in parts if f.part.group == group]
        if group == "pack":
            made += _pack_rows(sheet, numbers)
        if made:
            rows += [
                table_row("Battery" if group == "pack" else group.capitalize(), kind="group"),
                *made,
            ]
    return Table("Parts", _COLUMNS, tuple(rows), anchor="parts-table", stack=True)


def _margin_cell(tried: Tried) -> Cell:
    pieces: list[Inline] = []
    for limit, pack, left, keeps in tried.margins:
        pieces += [Span("; ")] if pieces else []
        words = {True: " left", False: " (over)", None: ", which is not known to keep it"}[keeps]
        pieces += [Span(f"{limit}, {pack or 'dry'}: "), number(left), Span(words)]
    return Cell(tuple(pieces))


def _time_cell(tried: Tried) -> Cell:
    pieces: list[Inline] = []
    for pack, now, then in tried.times:
        pieces += [Span("; ")] if pieces else []
        pieces += [Span(f"{pack}: "), number(now), Span(" becomes "), *banded(then)]
    return Cell(tuple(pieces) or (Span("the same"),))


def _changes(tried: Tried, sheet: SheetInput) -> Cell:
    lines = [f"no contact for {j}" for j in tried.lost_joins]
    lines += tried.unfed
    lines += [f"New {f.severity}: {f.message}" for f in tried.new_findings]
    lines += [joined("", ("Gone: ", f.message)) for f in tried.gone_findings]
    if tried.answer == "not known":
        lines.append(f"not known: {', '.join(tried.lacking)}")
    if not lines:
        return Cell((Span("none"),), tone="good")
    return Cell(sentence_pieces(joined(" ", lines), sheet), tone="bad" if tried.breaks else "")


def _alternatives(sheet: SheetInput) -> Section | None:
    found = sheet.alternatives
    if not found.tried:
        return None
    columns = table_columns(
        "In place of",
        "Alternative",
        right_column("Weight"),
        right_column("Price"),
        "Below or over the limits",
        "Time in the air",
        "New or gone warnings",
    )
    build: Build = sheet.build
    rows = []
    for t in found.tried:
        change = (
            number(t.mass_change)
            if isinstance(t.mass_change, Unknown)
            else number(t.mass_change, spread=True)
        )
        page = f"parts/{t.shelf}/index.html" if t.shelf in _used(build) else ""
        price = number(t.price_change, decimals=Money(0, build.site.currency).digits)
        effects = _margin_cell(t), _time_cell(t), _changes(t, sheet)
        part = build.parts[t.key].part.name
        rows.append(table_row(part, Span(t.label, page), Cell((change,)), price, *effects))
    note = "Each swap was calculated and checked for the whole build. "
    note += (
        f"Times are {sheet.results.flight.style.note}. In brackets: 8 of 10 flights lie between."
    )
    if found.left_out:
        note += (
            f" {found.left_out} more are named on the shelf and were not tried: the number is"
            " bounded."
        )
    table = Table(
        "Alternatives", columns, tuple(rows), anchor="alternatives-table", stack=True, note=note
    )
    return Section("alternatives", "Alternatives", (table,), level=3)


def _used(build: Build) -> set[str]:
    return {f.shelf for f in build.parts.values()} | {p.shelf for p in build.packs.values()}


def _invented(build: Build) -> list[Block]:
    """Which parts are made up: a starter's, until somebody puts an own one in their place."""
    fitted = [key for key, f in build.parts.items() if f.part.invented]
    packs = [key for key, pack in build.packs.items() if pack.part.invented]
    if not fitted and not packs:
        return []
    names = joined(", ", (*fitted, *packs))
    said = f"This sheet rests on invented parts: {names}. Put your own in their place."
    return [Paragraph((Span(said),))]


def parts(sheet: SheetInput) -> Section:
    """The section; empty for a build without parts."""
    build = sheet.build
    if not build.parts and not build.packs:
        return Section("parts", "Parts", ())
    blocks: list[Block | Section] = []
    if build.site.disclosure:
        blocks.append(Paragraph((Span(build.site.disclosure),), quiet=True))
    blocks += _invented(build)
    blocks += above_on_parts_page(sheet)
    blocks.append(_table(sheet))
    screws = screw_table(sheet)
    if screws is not None:
        blocks.append(Section("screw-list", "Screws", (screws,), level=3))
    blocks += [s for s in (_alternatives(sheet), variant_section(build)) if s is not None]
    return Section("parts", "Parts", tuple(blocks))
