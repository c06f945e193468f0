"""'This does not work': placeholder."""

from builder.pages.blocks import Section
from builder.pages.sheet_input import SheetInput


def trouble_data(sheet: SheetInput) -> dict[str, object]:
    """Nothing yet."""
    return {}


def trouble_section(sheet: SheetInput) -> Section:
    """A section without blocks, which is left out."""
    return Section("trouble", "This does not work", ())
