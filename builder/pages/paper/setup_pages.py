"""Setup on paper: the same tables and lists as on its page, in two columns where they are narrow."""

from builder.pages.blocks import Block, Bullets, Section
from builder.pages.paper.stacks import in_two_stacks
from builder.pages.sections.setup import setup
from builder.pages.sections.upkeep import upkeep
from builder.pages.sheet_input import SheetInput


def _opened(section: Section) -> Section:
    """A section whose blocks stand beside each other."""
    return Section(
        section.anchor, section.heading, tuple(in_two_stacks(section.blocks)), section.level
    )


def setup_pages(sheet: SheetInput) -> Section:
    """Setup, radio, and what to try before the first flight."""
    whole = setup(sheet, "set")
    own: list[Block | Section] = [b for b in whole.blocks if not isinstance(b, Section)]
    within = [_opened(b) for b in whole.blocks if isinstance(b, Section)]
    return Section(whole.anchor, whole.heading, (*in_two_stacks(own), *within))


def after_pages(sheet: SheetInput) -> Section:
    """What to do at the first flight and after it, after a crash, and with the batteries: the lists
    of its page, without spares and history.
    """
    lists = [b for b in upkeep(sheet).blocks if isinstance(b, Section) and _is_list(b)]
    return Section("after", "First flight and after", tuple(lists))


def _is_list(section: Section) -> bool:
    return all(isinstance(b, Bullets) for b in section.blocks)
