"""The first page of the bench sheet: picture, ten figures, cautions."""

from builder.pages.blocks import Block, Illustration, Picture, Section, TwoStacks
from builder.pages.sections.at_a_glance import at_a_glance
from builder.pages.sections.before_you_start import before_you_start
from builder.pages.sheet_input import SheetInput


def glance_on_paper(sheet: SheetInput) -> Section:
    """The picture beside the figures that decide."""
    blocks = at_a_glance(sheet).blocks
    pictures = tuple(b for b in blocks if isinstance(b, Picture | Illustration))
    rest = tuple(b for b in blocks if not isinstance(b, Picture | Illustration))
    shown: tuple[Block | Section, ...] = (TwoStacks(pictures, rest),) if pictures else rest
    return Section("glance", "At a glance", shown)


def front(sheet: SheetInput) -> tuple[Section, ...]:
    """Glance and cautions."""
    return glance_on_paper(sheet), before_you_start(sheet)
