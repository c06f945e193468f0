"""The bench sheet: the same blocks arranged for paper, to lie beside the iron."""

from dataclasses import dataclass, replace

from builder.pages.blocks import Block, Illustration, Page, Paragraph, Section, Span
from builder.pages.drawings.true_size import ruler, screw_silhouettes
from builder.pages.drawings.wiring_drawing import drawings_of
from builder.pages.paper.bench_boards import bench_boards
from builder.pages.paper.bench_cuts import bench_cuts
from builder.pages.paper.bench_parts import bench_parts
from builder.pages.paper.derivation_appendix import derivation_appendix
from builder.pages.sections.before_you_start import before_you_start, lay_out
from builder.pages.sections.first_power_up import first_power_up
from builder.pages.sections.order_of_work import order_of_work
from builder.pages.sections.setup import setup
from builder.pages.sheet_input import SheetInput
from builder.pages.site.site_pages import SitePages
from builder.pages.work.as_built import as_built_table

BLANK = 6  # lines to write on, below what came back
_WHOLE = 20  # rows of a table that fit half a page


@dataclass(frozen=True, eq=False)
class BenchSheet:
    """A page for paper with what stands on every sheet of it, and the address behind its QR code
    ('' for none).
    """

    page: Page
    build: str
    revised: str
    digest: str
    address: str
    paper: str


def _to_lay_out(sheet: SheetInput) -> Section:
    """The parts: a short table stays whole, a long one begins a page, or its heading would stand on
    one alone.
    """
    parts = bench_parts(sheet)
    blocks = (parts,) if parts is not None else ()
    return Section(
        "bench-parts",
        "Parts to get ready",
        blocks,
        break_before=parts is not None and len(parts.rows) > _WHOLE,
    )


def _true_size(sheet: SheetInput) -> Section:
    """Ruler, wires to cut and screws, to lay things on."""
    blocks: list[Block] = [
        Illustration(ruler(), "Printed at 100 %, the bar is 100 mm long.", true_size=True)
    ]
    cuts = bench_cuts(sheet)
    if cuts is not None:
        blocks.append(cuts)
    screws = screw_silhouettes(sheet.build)
    if screws is not None:
        caption = "Screws at true size (heads near the standard of their shape): lay yours on them."
        blocks.append(Illustration(screws, caption, true_size=True))
    return Section("cutting", "Wires to cut, screws to sort", tuple(blocks), break_before=True)


def bench_sheet(sheet: SheetInput, site: SitePages, digest: str) -> BenchSheet:
    """Everything that lies on the bench, in the order in which it is used."""
    build = sheet.build
    sections: list[Section] = [
        before_you_start(sheet),
        replace(lay_out(sheet), break_before=True),
        _to_lay_out(sheet),
        _true_size(sheet),
        order_of_work(sheet, paper=True),
        first_power_up(sheet, paper=True),
        *bench_boards(sheet),
    ]
    drawings = drawings_of(build, sheet.results.netlist)
    if drawings:
        sections.append(Section("bench-wiring", "All wires", tuple(drawings), break_before=True))
    sections += [
        replace(setup(sheet), break_before=True),
        Section("as-built", "As built", (as_built_table(sheet, BLANK),)),
    ]
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
        status=build.source.status,
        draft=sheet.draft,
        digest=digest,
    )
    address = f"{site.address}/{build.name}/" if site.address else ""
    return BenchSheet(page, build.name, revised, digest[:12], address, site.paper)
