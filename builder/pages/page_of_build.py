"""What all pages of one build have in common."""

from collections.abc import Mapping
from typing import Literal

from builder.pages.blocks import Page, Section, Span
from builder.pages.distinct import distinct
from builder.pages.sheet_input import SheetInput


def page_of_build(
    sheet: SheetInput,
    kind: Literal["sheet", "numbers"],
    file: str,
    title: str,
    summary: str,
    sections: tuple[Section, ...],
    *,
    links: tuple[Span, ...] = (),
    data: Mapping[str, object] | None = None,
) -> Page:
    """A page that lies at `file` in the build's folder; all but the sheet itself lead back to it."""
    build = sheet.build
    back = (Span(build.title, f"{build.name}/index.html"),) if file != "index.html" else ()
    return Page(
        address=f"{build.name}/{file}",
        kind=kind,
        title=title,
        summary=summary,
        sections=distinct(sections),
        build=build.name,
        revised=build.source.revised.isoformat() if build.source.revised else "",
        status=build.source.status,
        draft=sheet.draft,
        digest=build.digest,
        breadcrumbs=(Span("All builds", "index.html"), *back),
        links=links,
        data=data or {},
    )
