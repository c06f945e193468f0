"""The page of a pair as a publish makes it: what might stay is worked out first."""

from builder.pages.blocks import Page
from builder.pages.compare.page import compare_page
from builder.pages.sheet_input import SheetInput
from builder.rules.could_stay import stays


def pair_page(first: SheetInput, second: SheetInput) -> Page:
    """The first build beside the second."""
    return compare_page(first, second, stays(first.build, second.build, second.verdict))
