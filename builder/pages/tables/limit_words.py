"""How an aircraft stands to a limit of weight, in words: below it, over it, or not known."""

from dataclasses import replace

from builder.compute.figures.at_least import AT_LEAST, AT_MOST
from builder.compute.figures.figure import Figure
from builder.compute.weight.limits import Margin
from builder.pages.blocks import Cell, Number, Span
from builder.pages.numbers import number
from builder.rounding import MINUS

_TURNED = {AT_LEAST: AT_MOST, AT_MOST: AT_LEAST}


def missing_words(margin: Margin) -> str:
    """Which weights are missing."""
    lacking = margin.mass.lacks
    named = lacking if len(lacking) <= 3 else lacking[:2]  # 'and 1 more' takes the room of a name
    more = f" and {len(lacking) - len(named)} more" if len(lacking) > len(named) else ""
    return f"weight of {', '.join(named)}{more} is missing"


def held_words(margin: Margin) -> str:
    """What the weight holds: 'with battery small and payload recorder', or 'dry'."""
    return f"with {margin.flown_with}" if margin.flown_with else "dry"


def over_number(margin: Margin) -> Number:
    """By how much it is over, without a sign."""
    shown = number(margin.left, decimals=1)
    return replace(
        shown, value=shown.value.removeprefix(MINUS), prefix=_TURNED.get(shown.prefix, shown.prefix)
    )


def margin_cell(margin: Margin) -> Cell:
    """Grams below or over a limit with what is on the aircraft; 'not known' where a missing weight
    could decide it.
    """
    held = held_words(margin)
    if margin.within is None:
        weight = number(margin.mass)
        words = f"{missing_words(margin)}; {weight.prefix} {weight.value} {weight.unit} {held}"
        return Cell((Span("not known"),), words, tone="bad")
    if not margin.within:
        return Cell((over_number(margin), Span(" over")), held, tone="bad")
    return Cell((number(margin.left, decimals=1), Span(" below")), held)


def worst_first(margin: Margin) -> tuple[int, float]:
    """The order in which margins matter: over, then not known, then within; the heaviest first."""
    rank = {False: 0, None: 1, True: 2}[margin.within]
    return rank, margin.left.value if isinstance(margin.left, Figure) else 0.0
