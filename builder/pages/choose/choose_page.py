"""The page of swaps of one build: what nothing beats, and what brings it under each limit of the site."""

from collections.abc import Sequence

from builder.compute.choose.wish import BuildWish
from builder.model.site import MassLimit
from builder.pages.blocks import Block, Page, Paragraph, Section, Span
from builder.pages.choose.choice_table import choice_table, choice_words
from builder.pages.choose.choose_answer import NUMBERS_OF_SWAPS
from builder.pages.choose.choose_section import choose_section
from builder.pages.page_map import CHOOSE
from builder.pages.page_of_build import page_of_build
from builder.pages.sheet_input import SheetInput
from builder.rounding import rounded
from builder.rules.choose.answer import best_of_each_number, unbeaten
from builder.rules.choose.search import Choices

_NOTE = (
    "Longest in the air below the limit. A row with more swaps is listed only where it is better."
)


def _limits(found: Choices) -> list[MassLimit]:
    """Limits of the flying weight, each weight once."""
    every = (x for x in found.build.site.limits if x.applies_to != "dry")
    return list({x.mass.value: x for x in every}.values())


def _under(found: Choices, at: int, limit: MassLimit) -> Block:
    """What brings it under a limit, the best of each number of swaps; else how near it comes."""
    mass = limit.mass.value
    best = best_of_each_number(found, BuildWish("longest", mass=mass))
    if best:
        rows = [(NUMBERS_OF_SWAPS[len(one.selection.swaps)], one) for one in best]
        words = f"Under {rounded(1000 * mass, 1)} g: {limit.name}"
        return choice_table(
            found.build, words, "Swaps", rows, limit=mass, anchor=f"limit-{at}", note=_NOTE
        )
    lightest = unbeaten(found)[0]
    said = (
        f"{limit.name}: no choice is under {rounded(1000 * mass, 1)} g. The lightest that passes"
        f" every check weighs {rounded(1000 * lightest.figures.mass.value, 1)} g:"
        f" {choice_words(found.build, lightest)}."
    )
    return Paragraph((Span(said),))


def _limits_section(found: Choices) -> Sequence[Section]:
    limits = _limits(found) if found.of > 1 and unbeaten(found) else []
    blocks = tuple(_under(found, at, limit) for at, limit in enumerate(limits, 1))
    return [Section("choose-limits", "Under a limit", blocks)] if blocks else []


def choose_page(sheet: SheetInput, found: Choices) -> Page:
    """The page, from what a search of the whole shelf found."""
    sections = (choose_section(found), *_limits_section(found))
    title = f"{sheet.build.title}: {CHOOSE.title.lower()}"
    return page_of_build(sheet, "topic", CHOOSE, title, CHOOSE.reader, sections)
