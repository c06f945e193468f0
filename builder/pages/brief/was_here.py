"""What was on a page before it was shortened, with where it is now."""

from builder.pages.blocks import Forward, Forwards, Section
from builder.pages.page_map import BuildPage, Placed, address_of, moved_from


def _forward(build: str, placed: Placed) -> Forward:
    also = (*placed.within, *placed.starts)
    return Forward(placed.anchor, placed.words, address_of(build, placed.anchor), also)


def was_here(build: str, page: BuildPage) -> Section:
    """A plain list of links, each under the anchor that the page had."""
    items = tuple(_forward(build, placed) for placed, _ in moved_from(page))
    return Section("moved", "Was on this page", (Forwards(items),), role="moved")
