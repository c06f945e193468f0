"""'This does not work': placeholder."""

from builder.pages.blocks import Section
from builder.pages.sheet_input import SheetInput


def trouble_data(sheet: SheetInput) -> dict[str, object]:
    return {}


def trouble_section(sheet: SheetInput) -> Section:
    return Section("trouble", "This does not work", ())
