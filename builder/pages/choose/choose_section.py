"""On the page of parts: what the named alternatives can do for a build, as a picture, a table, and what
each changes.
"""

from builder.compute.figures.figure import Figure
from builder.model.build import Build
from builder.model.values.money_text import Money
from builder.pages.blocks import Block, Bullets, Fold, Illustration, Paragraph, Section, Span
from builder.pages.choose.choice_picture import choice_picture
from builder.pages.choose.choice_table import choice_table, swap_words
from builder.pages.choose.choose_answer import looked_words, not_known_blocks, numbered
from builder.pages.page_map import address_of
from builder.pages.sheet_input import SheetInput
from builder.rounding import rounded
from builder.rules.choose.answer import unsure_and_unbeaten
from builder.rules.choose.search import Choices, ChosenSwaps

_NOTHING = Section("choose", "What swaps can do", ())


def _signed(value: float, places: int) -> str:
    text = rounded(value, places)
    return f"+{text}" if value > 0 else text


def _changed(now: ChosenSwaps, one: ChosenSwaps, build: Build) -> str:
    """What a choice changes of the build as it is, in its three figures."""
    a, b = now.figures, one.figures
    grams = _signed(1000 * (b.mass.value - a.mass.value), 1)
    money = _signed(b.price.value - a.price.value, Money(0, build.site.currency).digits)
    said = f"{grams} g, {money} {build.site.currency}"
    if isinstance(a.time, Figure) and isinstance(b.time, Figure):
        said += f", {_signed((b.time.value - a.time.value) / 60, 1)} min in the air"
    return f"Beside the build as it is with battery {now.selection.pack}: {said}."


def _opened(found: Choices, mark: str, one: ChosenSwaps) -> Fold:
    """One choice: every swap, each with the way to what it touches."""
    build = found.build
    table = address_of(build.name, "parts-table")
    swaps = [(Span(swap_words(build, o, one.build), table), Span(".")) for o in one.selection.swaps]
    changed = [(Span(_changed(now, one, build)),) for now in found.now]
    return Fold(f"What choice {mark} changes", (Bullets((*swaps, *changed)),), paper=False)


def choose_section(sheet: SheetInput) -> Section:
    """The section; empty where nothing may be swapped and the build has one battery only."""
    found = sheet.choices
    if found is None or found.of < 2:
        return _NOTHING
    rows = numbered(found)
    blocks: list[Block] = []
    said = (
        "Up to three swaps of the alternatives that are named for this build, and one of its"
        " batteries. Nothing beats these in weight, price and time together. No check of fit, wiring and"
        " power finds a fault in them, or lacks a fact that it has for the build as it is."
    )
    blocks.append(Paragraph((Span(said),)))
    picture = choice_picture(sheet.build.name, rows)
    if picture is not None:
        blocks.append(Illustration(picture, "", plot=True))
    if rows:
        table = choice_table(sheet.build, "Choices", "No.", rows, anchor="choose-table")
        blocks.append(table)
    blocks += [_opened(found, mark, one) for mark, one in rows if one.selection.swaps]
    blocks += not_known_blocks(found, unsure_and_unbeaten(found))
    whole = Span(f"benchleaf choose {sheet.build.name}", code=True)
    words = Span("The whole shelf, and a limit of your own: "), whole, Span(". ")
    blocks.append(Paragraph((*words, Span(looked_words(found))), quiet=True))
    return Section("choose", "What swaps can do", tuple(blocks))
