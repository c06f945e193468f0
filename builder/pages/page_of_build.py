"""What all pages of one build have in common."""

from collections.abc import Mapping
from typing import Literal

from builder.pages.blocks import Page, Section, Span
from builder.pages.distinct import distinct
from builder.pages.page_map import ALL_PAGES, CHOOSE, GUIDE, SHEET, BuildPage, page_address
from builder.pages.retired import retired_banner
from builder.pages.sheet_input import SheetInput


def page_of_build(
    sheet: SheetInput,
    kind: Literal["sheet", "topic", "buy", "guide", "numbers", "bench", "paper"],
    page: BuildPage,
    title: str,
    summary: str,
    sections: tuple[Section, ...],
    *,
    links: tuple[Span, ...] = (),
    data: Mapping[str, object] | None = None,
) -> Page:
    """A page of the map; all but the sheet itself lead back to it and to each other."""
    build = sheet.build
    back: tuple[Span, ...] = ()
    pages: tuple[Span, ...] = ()
    if page is not SHEET:
        back = (Span(build.title, page_address(build.name, SHEET)),)
        pages = pages_of_build(sheet, page)
    revised = build.source.revised
    author = (build.source.author or "") if page in (SHEET, GUIDE) else ""
    return Page(
        address=page_address(build.name, page),
        kind=kind,
        title=title,
        summary=summary,
        sections=distinct(sections),
        build=build.name,
        revised=revised.isoformat() if revised else "",
        status=build.source.status,
        draft=sheet.draft,
        digest=build.digest,
        breadcrumbs=(Span("All builds", "index.html"), *back),
        links=links,
        data=data or {},
        pages=pages,
        author=author,
        banner=retired_banner(build),
    )


def pages_of_build(sheet: SheetInput, here: BuildPage | None) -> tuple[Span, ...]:
    """All pages of a build, the one that is read without a link; the guide where there is one."""
    build = sheet.build.name
    guide = (GUIDE,) if sheet.guide else ()
    first, *others = ALL_PAGES
    listed = (first, *guide, *others, CHOOSE)
    return tuple(Span(p.title, "" if p is here else page_address(build, p)) for p in listed)
