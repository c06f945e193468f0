"""Setup on paper: the same tables and lists as on its page, in two columns where they are narrow."""

from builder.pages.blocks import Block, Section
from builder.pages.paper.stacks import in_two_stacks
from builder.pages.sections.setup import setup
from builder.pages.sheet_input import SheetInput


def _opened(section: Section) -> Section:
    """A section whose blocks stand beside each other."""
    return Section(
        section.anchor, section.heading, tuple(in_two_stacks(section.blocks)), section.level
    )


def setup_pages(sheet: SheetInput) -> Section:
    """Setup, radio, and what to try before the first flight."""
    whole = setup(sheet)
    own: list[Block | Section] = [b for b in whole.blocks if not isinstance(b, Section)]
    within = [_opened(b) for b in whole.blocks if isinstance(b, Section)]
    return Section(whole.anchor, whole.heading, (*in_two_stacks(own), *within))
