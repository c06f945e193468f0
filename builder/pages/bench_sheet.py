"""The bench sheet: the same blocks arranged for paper, to lie beside the iron."""

from dataclasses import dataclass

from builder.model.kinds import Motor
from builder.pages.as_built import as_built_table
from builder.pages.blocks import Block, Illustration, Page, Paragraph, Section, Span
from builder.pages.derivation_appendix import derivation_appendix
from builder.pages.drawing import Drawing, Item, Line, Rectangle, Words
from builder.pages.drawings.board_drawing import beside
from builder.pages.drawings.wiring_drawing import drawings_of
from builder.pages.sections.before_you_start import before_you_start
from builder.pages.sections.first_power_up import first_power_up
from builder.pages.sections.order_of_work import order_of_work
from builder.pages.sections.parts import parts
from builder.pages.sections.setup import setup
from builder.pages.sections.wiring import board_table, cut_table
from builder.pages.sheet_input import SheetInput
from builder.pages.site_pages import SitePages

BLANK = 6  # lines to write on, below what came back
BAR = 100.0  # mm, the bar by which a printed page is checked for scale


@dataclass(frozen=True, eq=False)
class BenchSheet:
    """A page for paper with what stands on every sheet of it, and the address behind its QR code ('' for none)."""

    page: Page
    build: str
    revised: str
    digest: str
    address: str
    paper: str


def ruler() -> Drawing:
    """A 1:1 ruler with a bar of 100 mm: a print that is scaled shows at once."""
    items: list[Item] = [Rectangle(2, 2, BAR, 3, "solid")]
    for mm in range(0, 101):
        long = 6.0 if mm % 10 == 0 else 4.5 if mm % 5 == 0 else 3.0
        items.append(Line(((2.0 + mm, 7.0), (2.0 + mm, 7.0 + long)), width=0.2))
        if mm % 10 == 0:
            items.append(Words(2.0 + mm, 17.0, str(mm), 3.0, "middle"))
    items.append(Words(BAR + 5, 5.0, "100 mm: check with a rule", 3.2))
    return Drawing("ruler", 160.0, 19.0, tuple(items), "Ruler of 100 mm at 1:1")


def _boards(sheet: SheetInput) -> list[Section]:
    out = []
    for board in sheet.results.pinout.boards:
        part = sheet.build.parts[board.part].part
        if isinstance(part, Motor) or len(board.rows) < 3:
            continue
        table = board_table(sheet, board, all_contacts=False)
        if table.rows:
            shown = beside(sheet.build, sheet.results.netlist, board.board, table)
            out.append(Section(f"bench-{board.board}", f"{part.name} ({board.board})", (shown,), break_before=True))
    return out


def bench_sheet(sheet: SheetInput, site: SitePages, digest: str) -> BenchSheet:
    """Everything that lies on the bench, in the order in which it is used."""
    build = sheet.build
    scale: list[Block] = [Illustration(ruler(), "Printed at 100 % this bar is 100 mm long.")]
    cuts = cut_table(sheet.results.pinout)
    if cuts is not None:
        scale.append(cuts)
    sections: list[Section] = [
        before_you_start(sheet),
        parts(sheet),
        Section("cutting", "Wires to cut", tuple(scale), break_before=True),
        order_of_work(sheet, paper=True),
        first_power_up(sheet),
        *_boards(sheet),
    ]
    drawings = drawings_of(build, sheet.results.netlist)
    if drawings:
        sections.append(Section("bench-wiring", "All wires", tuple(drawings), break_before=True))
    sections += [setup(sheet), Section("as-built", "As built", (as_built_table(sheet, BLANK),), break_before=True)]
    appendix = derivation_appendix(sheet) if site.derivations_on_paper else None
    if appendix is not None:
        sections.append(appendix)
    revised = build.source.revised.isoformat() if build.source.revised else ""
    intro = Paragraph((Span(build.source.summary),), lead=True)
    first = Section("bench", "Bench sheet", (intro,))
    page = Page(
        f"{build.name}/bench-sheet.pdf",
        "sheet",
        build.title,
        build.source.summary,
        (first, *(s for s in sections if s.blocks)),
        build=build.name,
        revised=revised,
        draft=sheet.draft,
    )
    address = f"{site.address}/{build.name}/" if site.address else ""
    return BenchSheet(page, build.name, revised, digest[:12], address, site.paper)
