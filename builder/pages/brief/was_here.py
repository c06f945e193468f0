"""What was on a page before it was shortened, with where it is now."""

from builder.pages.blocks import Forward, Forwards, Section
from builder.pages.page_map import BuildPage, address_of, moved_from


def was_here(build: str, page: BuildPage) -> Section:
    """A plain list of links, each under the anchor that the page had."""
    items = tuple(
        Forward(
            placed.anchor,
            placed.words,
            address_of(build, placed.anchor),
            (*placed.within, *placed.starts),
        )
        for placed, _ in moved_from(page)
    )
    return Section("moved", "Was on this page", (Forwards(items),), role="moved")
