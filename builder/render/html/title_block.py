"""The title block of a page: what a drawing says of itself, by the data fields of ISO 7200:2004 (from
memory: legal owner, identification number, date of issue, sheet, title, document type, status).
"""

from dataclasses import dataclass

from builder.pages.blocks import Page
from builder.pages.site.site_pages import SitePages

_DIGITS = 12  # of a digest: enough to tell two prints apart
_OF_A_BUILD = {
    "": "build sheet",
    "work": "order of work",
    "bench": "work, step by step",
    "numbers": "how each number was made",
    "bench-sheet.pdf": "bench sheet",
}
_OF_A_SITE = {
    "front": "list of builds",
    "table": "comparison",
    "compare": "comparison",
    "any": "comparison",
    "search": "search",
    "units": "reference",
    "part": "part",
    "rules": "reference",
    "fields": "reference",
    "missing": "",
}


@dataclass(frozen=True, slots=True)
class BlockField:
    """A field of the title block; `place` is its class in the style sheet."""

    label: str
    value: str
    place: str = ""


def _document(page: Page) -> str:
    """The type of document: for a topic of a build the name of its folder."""
    if page.kind in _OF_A_SITE:
        return _OF_A_SITE[page.kind]
    topic = page.address.partition("/")[2].removesuffix("index.html").strip("/")
    return _OF_A_BUILD.get(topic, topic.replace("-", " "))


def _number(page: Page) -> str:
    """The identification: the address of the page within its site, which never changes."""
    return page.address.removesuffix("index.html").removesuffix(".pdf").strip("/")


def title_block(page: Page, site: SitePages, sheet: str = "") -> tuple[BlockField, ...]:
    """The fields that this page has, in the order in which they stand. `sheet` is the size of
    paper.
    """
    of_build = bool(page.build)
    drawn = "to scale where said" if of_build else ""
    scale = "1:1 where a drawing says so" if sheet else drawn
    issued = (page.revised or "not said") if of_build else ""
    title = "" if sheet else page.title  # on paper it stands above the block
    fields = (
        BlockField("Owner", site.author or site.title, "wide"),
        BlockField("Title", title, "name"),
        BlockField("Document", _document(page), "short"),
        BlockField("Number", _number(page), "short"),
        BlockField("State", page.status, "short"),
        BlockField("Revised", issued, "short"),
        BlockField("Source", page.digest[:_DIGITS], "short"),
        BlockField("Drawings", scale, "wide" if sheet else "short"),
        BlockField("Paper", sheet, "short"),
        BlockField("Made with", site.generator, "short"),
    )
    return tuple([field for field in fields if field.value])
