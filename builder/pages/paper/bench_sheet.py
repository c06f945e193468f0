"""The bench sheet: the blocks of the pages arranged for paper, in the order in which they are used.

The same pages are printed as a PDF and shown as a page that any browser prints. The gates and the
field card are files of their own as well.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from builder.pages.blocks import Block, Page, Section
from builder.pages.distinct import distinct
from builder.pages.drawings.wiring_drawing import drawings_of
from builder.pages.guide.guide_on_paper import guide_on_paper
from builder.pages.paper.field_card import field_card
from builder.pages.paper.front import front
from builder.pages.paper.gate_panel import gate_panels, rules_of_gates
from builder.pages.paper.get_ready import get_ready
from builder.pages.paper.setup_pages import after_pages, setup_pages
from builder.pages.paper.work_flow import work_flow
from builder.pages.sheet_input import SheetInput
from builder.pages.site.site_pages import SitePages
from builder.pages.units.in_units import in_units
from builder.pages.work.as_built import as_built_table

PRINTED_FILES = ("bench-sheet.pdf", "gates.pdf", "field-card.pdf")
BLANK = 6  # lines to write on, below what came back


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

    @property
    def is_card(self) -> bool:
        """Whether it is the field card alone, which is one page without a title block."""
        return [s.role for s in self.page.sections] == ["card"]


def bench_sections(sheet: SheetInput) -> tuple[Section, ...]:
    """Everything that lies on the bench, in the order in which it is used."""
    drawings: Sequence[Block] = drawings_of(sheet.build, sheet.results.netlist)
    sections = (
        *front(sheet),
        *get_ready(sheet),
        *rules_of_gates(sheet),
        Section("bench-wiring", "All wires", tuple(drawings), role="whole"),
        work_flow(sheet),
        Section("as-built", "As built", (as_built_table(sheet, BLANK),), role="whole"),
        setup_pages(sheet),
        after_pages(sheet),
        *guide_on_paper(sheet),
        field_card(sheet),
    )
    return tuple(replace(s, anchor=_own(s.anchor)) for s in sections if s.blocks)


def _own(anchor: str) -> str:
    """The anchor of a section here: another than on the page that it is from."""
    return anchor if anchor.startswith("bench-") else f"bench-{anchor}"


def _printed(
    sheet: SheetInput, site: SitePages, digest: str, file: str, sections: tuple[Section, ...]
) -> BenchSheet:
    """Sections as sheets of paper that say what they belong to."""
    build = sheet.build
    revised = build.source.revised.isoformat() if build.source.revised else ""
    page = Page(
        f"{build.name}/{file}",
        "sheet",
        build.title,
        build.source.summary,
        distinct(sections),
        build=build.name,
        revised=revised,
        status=build.source.status,
        draft=sheet.draft,
        digest=digest,
    )
    address = f"{site.address}/{build.name}/" if site.address else ""
    shown = in_units(page, site.units)
    return BenchSheet(shown, build.name, revised, digest[:12], address, site.paper)


def bench_sheet(sheet: SheetInput, site: SitePages, digest: str) -> BenchSheet:
    """The whole bench sheet."""
    return _printed(sheet, site, digest, "bench-sheet.pdf", bench_sections(sheet))


def gates_sheet(sheet: SheetInput, site: SitePages, digest: str) -> BenchSheet | None:
    """The gates by themselves; None for a build without."""
    found = gate_panels(sheet)
    return _printed(sheet, site, digest, "gates.pdf", found) if found else None


def field_card_sheet(sheet: SheetInput, site: SitePages, digest: str) -> BenchSheet | None:
    """The field card by itself; None for a build that does not fly."""
    card = field_card(sheet)
    return _printed(sheet, site, digest, "field-card.pdf", (card,)) if card.blocks else None
