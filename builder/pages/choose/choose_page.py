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
from builder.rules.choose.search import Choices, ChosenSwaps

_NOTE = (
    "Longest in the air below the limit. A row with more swaps is listed only where it is better."
)


def _limits(found: Choices) -> list[MassLimit]:
    """Limits of the flying weight, each weight once."""
    every = (x for x in found.build.site.limits if x.applies_to != "dry")
    return list({x.mass.value: x for x in every}.values())


def _under(found: Choices, at: int, limits: Sequence[MassLimit]) -> Block:
    """What brings it under limits that the same choices keep, the best of each number of swaps; else
    how near it comes to them.
    """
    least = min(x.mass.value for x in limits)
    bounds = [f"{rounded(1000 * x.mass.value, 1)} g ({x.name})" for x in limits]
    best = best_of_each_number(found, BuildWish("longest", mass=least))
    if best:
        rows = [(NUMBERS_OF_SWAPS[len(one.selection.swaps)], one) for one in best]
        words = f"Under {' and '.join(bounds)}"
        anchor = f"limit-{at}"
        return choice_table(
            found.build, words, "Swaps", rows, limit=least, anchor=anchor, note=_NOTE
        )
    lightest = unbeaten(found)[0]
    said = (
        f"No choice is under {' or '.join(bounds)}. The lightest without a fault weighs"
        f" {rounded(1000 * lightest.figures.mass.value, 1)} g: {choice_words(found.build, lightest)}."
    )
    return Paragraph((Span(said),))


def _limits_section(found: Choices) -> Sequence[Section]:
    """One block for all limits that the same choices keep."""
    alike: dict[tuple[ChosenSwaps, ...], list[MassLimit]] = {}
    for limit in _limits(found) if found.of > 1 and unbeaten(found) else []:
        best = best_of_each_number(found, BuildWish("longest", mass=limit.mass.value))
        alike.setdefault(best, []).append(limit)
    blocks = tuple(_under(found, at, limits) for at, limits in enumerate(alike.values(), 1))
    return [Section("choose-limits", "Under a limit", blocks)] if blocks else []


def choose_page(sheet: SheetInput, found: Choices) -> Page:
    """The page, from what a search of the whole shelf found."""
    sections = (choose_section(found), *_limits_section(found))
    title = f"{sheet.build.title}: {CHOOSE.title.lower()}"
    return page_of_build(sheet, "topic", CHOOSE, title, CHOOSE.reader, sections)
