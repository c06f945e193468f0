"""What the shelf can do for a build, as a picture, a table, and what each choice changes."""

from builder.compute.figures.figure import Figure
from builder.model.build import Build
from builder.model.values.money_text import Money
from builder.pages.blocks import Block, Bullets, Fold, Illustration, Paragraph, Section, Span
from builder.pages.choose.choice_picture import NumberedChoice, choice_picture
from builder.pages.choose.choice_table import choice_table, swap_words
from builder.pages.choose.choose_answer import (
    band_words,
    looked_words,
    not_known_blocks,
    numbered,
)
from builder.pages.page_map import address_of
from builder.rounding import rounded
from builder.rules.choose.answer import unbeaten, unsure_and_unbeaten
from builder.rules.choose.search import Choices, ChosenSwaps

_ABOUT = (
    "Up to three swaps of parts from this site's shelf, and one battery. Nothing beats a numbered"
    " choice in weight, price and time in the air together. The checks of fit, wiring and power find"
    " no fault in it, and lack no fact that they have for the build as it is. New remarks stand below"
    " the table, choice by choice."
)
_LIGHTEST = "Lightest first: the first row with enough minutes is the lightest that flies so long."
_NONE = "No part of this site's shelf can stand in for one of this build."


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
    remarks = [(Span(f"New remark: {words}"),) for words in one.remarks]
    if not remarks:
        remarks = [(Span("The checks of fit, wiring and power have no new remark."),)]
    items = (*swaps, *remarks, *changed)
    return Fold(f"What changes with choice {mark}", (Bullets(items),), paper=False)


def _as_it_is(found: Choices) -> list[NumberedChoice]:
    """The build as it is with each battery that something beats."""
    best = unbeaten(found)
    beaten = [one for one in found.now if one not in best]
    marks = ["now"] if len(beaten) == 1 else [f"now-{one.selection.pack}" for one in beaten]
    return list(zip(marks, beaten, strict=True))


def choose_section(found: Choices) -> Section:
    """The section; one sentence where nothing may be swapped and the build has one battery only."""
    if found.of < 2:
        return Section("choose", "What swaps can do", (Paragraph((Span(_NONE),)),))
    best, build = numbered(found), found.build
    rows = sorted((*_as_it_is(found), *best), key=lambda row: row[1].figures.mass.value)
    blocks: list[Block] = [Paragraph((Span(_ABOUT),))]
    picture = choice_picture(build.name, rows)
    if picture is not None:
        blocks.append(Illustration(picture, "", plot=True))
    if rows:
        note = f"{_LIGHTEST} {band_words(found)}"
        table = choice_table(
            build, "Choices", "No.", rows, numbered=True, anchor="choose-table", note=note
        )
        blocks.append(table)
    blocks += [_opened(found, mark, one) for mark, one in best if one.selection.swaps]
    blocks += not_known_blocks(found, unsure_and_unbeaten(found))
    command = Span(f"benchleaf choose {build.name}", code=True)
    words = Span("With a limit of your own: "), command, Span(". ")
    blocks.append(Paragraph((*words, Span(looked_words(found))), quiet=True))
    return Section("choose", "What swaps can do", tuple(blocks))
