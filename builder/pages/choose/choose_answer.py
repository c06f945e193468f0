"""The answer to a wish as blocks: what does it, with how many swaps; what is not known; what was
looked at.
"""

from builder.compute.choose.wish import BuildWish, Goal
from builder.compute.figures.figure import Figure
from builder.diagnostics.sentence import joined
from builder.model.values.money_text import Money
from builder.pages.blocks import Block, Bullets, Paragraph, Section, Span
from builder.pages.choose.choice_picture import NumberedChoice
from builder.pages.choose.choice_table import choice_table, choice_words
from builder.rounding import rounded
from builder.rules.choose.answer import (
    best_of_each_number,
    unbeaten,
    unsure_and_unbeaten,
    unsure_that_would_do,
)
from builder.rules.choose.search import Choices, ChosenSwaps

_MOST_UNSURE = 5
NUMBERS_OF_SWAPS = ("no swap", "1 swap", "2 swaps", "3 swaps")
_GOALS = {
    "longest": "longest in the air",
    "lightest": "lightest",
    "cheapest": "cheapest",
}


def wish_words(wish: BuildWish, currency: str) -> str:
    """The wish as a heading."""
    bounds = []
    if wish.mass is not None:
        bounds.append(f"under {rounded(1000 * wish.mass, 1)} g")
    if wish.price is not None:
        bounds.append(f"under {rounded(wish.price, Money(0, currency).digits)} {currency}")
    if wish.time is not None:
        bounds.append(f"at least {rounded(wish.time / 60, 1)} min in the air")
    words = ", ".join((*bounds, _GOALS[wish.goal]))
    return f"{words[0].upper()}{words[1:]}"


def looked_words(found: Choices) -> str:
    """How far the search went, and what it means that a choice is not listed."""
    said = (
        f"{found.of} choices of up to three swaps and one battery keep every contact."
        f" {found.judged} of them were checked."
    )
    rest = (
        " The others hold a swap that fails or could not be checked, or one that passed beats them."
    )
    cut = " The search was cut short there: a better choice may exist."
    return said + (rest if found.whole else cut)


def band_words(found: Choices) -> str:
    """What the times rest on, and what their band holds: only logged flights make a count of it."""
    style = found.style
    if style is None or not style.used:
        said = style.note if style is not None else "no flight counted"
        return f"Times: {said}. Their band is an estimate."
    return f"Times: {style.note}. Eight flights of ten lie in the band of times."


def not_known_blocks(found: Choices, some: tuple[ChosenSwaps, ...]) -> tuple[Block, ...]:
    """Choices of which a fact lacks, with what is missing of each."""
    if not some:
        return ()
    items = []
    for one in some[:_MOST_UNSURE]:
        # 'and 1 more' takes the room of a name: a third is named.
        named = one.lacking if len(one.lacking) <= 3 else one.lacking[:2]
        left_out = len(one.lacking) - len(named)
        lacks = joined(", ", named)
        more = f" and {left_out} more" if left_out else ""
        items.append((Span(f"{choice_words(found.build, one)}: {lacks}{more}."),))
    many = len(some) - _MOST_UNSURE
    left = f" {many} more are not listed." if many > 0 else ""
    lead = f"May do it too, but it is not known. What is missing follows each.{left}"
    return Paragraph((Span(lead),)), Bullets(tuple(items))


def _nearest(found: Choices, wish: BuildWish) -> list[str]:
    """What comes nearest to each bound by itself, where nothing meets them all."""
    bounds: tuple[tuple[Goal, float | None, str], ...] = (
        ("lightest", wish.mass, "The lightest without a fault"),
        ("cheapest", wish.price, "The cheapest without a fault"),
        ("longest", wish.time, "The longest in the air without a fault"),
    )
    said = []
    for goal, bound, words in bounds:
        best = best_of_each_number(found, BuildWish(goal)) if bound is not None else ()
        if best:
            one = best[-1]
            said.append(f"{words}, {_figures(found, one)}: {choice_words(found.build, one)}.")
    return said


def _figures(found: Choices, one: ChosenSwaps) -> str:
    """The three figures in words."""
    figures, currency = one.figures, found.build.site.currency
    mass = f"{rounded(1000 * figures.mass.value, 1)} g"
    price = f"{rounded(figures.price.value, Money(0, currency).digits)} {currency}"
    minutes = rounded(figures.time.value / 60, 1) if isinstance(figures.time, Figure) else ""
    return ", ".join((mass, price, *([f"{minutes} min"] if minutes else [])))


def answer_section(found: Choices, wish: BuildWish) -> Section:
    """What meets a wish, the best of each number of swaps."""
    build = found.build
    rows = [
        (NUMBERS_OF_SWAPS[len(one.selection.swaps)], one)
        for one in best_of_each_number(found, wish)
    ]
    heading = wish_words(wish, build.site.currency)
    blocks: list[Block] = []
    if rows:
        note = (
            "A row with more swaps is listed only where it is better. Weights are with one standard"
            f" deviation. {band_words(found)}"
        )
        table = choice_table(build, "Choices", "Swaps", rows, limit=wish.mass, note=note)
        blocks.append(table)
    else:
        none = "No choice of up to three swaps does that without a fault in fit, wiring or power."
        blocks.append(Paragraph((Span(none),)))
        blocks += [Paragraph((Span(words),)) for words in _nearest(found, wish)]
    blocks += not_known_blocks(found, unsure_that_would_do(found, wish))
    blocks.append(Paragraph((Span(looked_words(found)),), quiet=True))
    return Section("answer", heading, tuple(blocks))


def numbered(found: Choices) -> list[NumberedChoice]:
    """The choices that nothing beats, with their numbers."""
    return [(str(n), one) for n, one in enumerate(unbeaten(found), 1)]


def front_section(found: Choices) -> Section:
    """The choices that nothing beats."""
    rows = numbered(found)
    note = "Each is the lightest, the cheapest or the longest in the air of those as good in the other two."
    table = choice_table(found.build, "Nothing beats these", "No.", rows, note=note)
    looked = Paragraph((Span(looked_words(found)),), quiet=True)
    blocks = (table, *not_known_blocks(found, unsure_and_unbeaten(found)), looked)
    return Section("front", "Weight, price and time", blocks)
