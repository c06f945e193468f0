"""How the numbers of the sheet were made, in a few lines; each derivation stands on its own page."""

from builder.pages.blocks import Bullets, Paragraph, Section, Span
from builder.pages.sheet_input import SheetInput


def how_made(sheet: SheetInput) -> Section:
    """Where each number comes from, and how far to trust it."""
    page = f"{sheet.build.name}/numbers/index.html"
    items = (
        (
            Span(
                "Every computed number on this sheet links to its derivation: the formula, its"
                " inputs, its source. "
            ),
            Span("All derivations", page),
            Span("."),
        ),
        (
            Span(
                "A spread (±) is one standard deviation. A scale of resolution d gives d/√12; a"
                " maker's figure carries the share that the site's settings name, common to all"
                " pieces of a part."
            ),
        ),
        (
            Span(
                "Measured values are trusted before a maker's figure, and that before an estimate;"
                " the tables say which."
            ),
        ),
        (Span("Limits are compared with the unrounded value."),),
        (Span("Cited places name a file and the keys that lead to a value in it."),),
    )
    return Section(
        "how-made",
        "How each number was made",
        (Paragraph((Span("Nothing here is copied from a spreadsheet."),)), Bullets(items)),
    )
