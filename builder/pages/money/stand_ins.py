"""What may stand in for a line to order when that is sold out: what the rules found of it, and what it
changes in grams, money and time in the air.
"""

from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.money.shops import OrderLine
from builder.model.values.money_text import Money
from builder.pages.blocks import Cell, Inline, Span
from builder.pages.finding_words import FIT_WORDS
from builder.pages.page_map import CHOOSE, address_of, page_address
from builder.pages.sheet_input import SheetInput
from builder.rounding import rounded
from builder.rules.choose.search import Choices, ChosenSwaps
from builder.rules.try_alternatives import Tried

_MINUTE, _GRAMS = 60.0, 1000.0


def _signed(value: float, places: int, unit: str) -> str:
    text = rounded(value, places)
    return f"{'+' if value > 0 else ''}{text} {unit}"


def _change(mass: MaybeFigure, price: MaybeFigure, currency: str) -> list[str]:
    """The change of weight and money, where they are known."""
    said = ["grams not known"]
    if isinstance(mass, Figure):
        said = [_signed(_GRAMS * mass.value, 1, "g")]
    if not isinstance(price, Figure):
        return [*said, "price not known"]
    return [*said, _signed(price.value, Money(0, currency).digits, currency)]


def _tried_words(one: Tried, currency: str) -> str:
    said = _change(one.mass_change, one.price_change, currency)
    for pack, now, then in one.times:
        if isinstance(now, Figure) and isinstance(then, Figure):
            minutes = _signed((then.value - now.value) / _MINUTE, 1, "min")
            said.append(f"{minutes} in the air on {pack}")
    return ", ".join(said)


def _as_it_is(choices: Choices, pack: str) -> ChosenSwaps | None:
    """The build as it is, on one of its own batteries."""
    every = (*choices.right, *choices.unsure)
    own = (c for c in every if not c.selection.swaps)
    return next((c for c in own if c.selection.pack == pack), None)


def _battery_words(now: ChosenSwaps, then: ChosenSwaps, currency: str) -> str:
    a, b = now.figures, then.figures
    said = [_signed(_GRAMS * (b.mass.value - a.mass.value), 1, "g")]
    if not (a.unpriced or b.unpriced):
        said.append(_signed(b.price.value - a.price.value, Money(0, currency).digits, currency))
    if isinstance(a.time, Figure) and isinstance(b.time, Figure):
        minutes = (b.time.value - a.time.value) / _MINUTE
        said.append(f"{_signed(minutes, 1, 'min')} in the air")
    return ", ".join(said)


def _batteries(sheet: SheetInput, pack: str) -> list[tuple[str, str, str]]:
    """Name, answer and figures of each other battery that was judged in the place of one."""
    found = sheet.choices
    now = _as_it_is(found, pack) if found is not None else None
    if found is None or now is None:
        return []
    out, packs = [], sheet.build.packs
    cells = packs[pack].part.cells
    for one in (*found.right, *found.unsure):
        other = one.selection.other_pack
        if other is None or one.selection.parts or packs[other.key].part.cells != cells:
            continue
        name = sheet.build.shelf[other.shelf].part.name
        words = _battery_words(now, one, sheet.build.site.currency)
        out.append((name, FIT_WORDS["yes" if one.is_sure else "not known"], words))
    return out


def _none(sheet: SheetInput, purchase: OrderLine, names: list[str]) -> Cell:
    """Nothing fits of what is named, or nothing is named; swaps look at what is on the aircraft."""
    said = f"none of those named fits: {', '.join(names)}" if names else "no other is named"
    if purchase.use == "bought once":
        return Cell((Span(said),), tone="quiet")
    swaps = Span("swaps", page_address(sheet.build.name, CHOOSE))
    return Cell((Span(f"{said}; see "), swaps), tone="quiet")


def stand_ins(sheet: SheetInput, purchase: OrderLine) -> Cell:
    """The cell of one line to order."""
    key, currency = purchase.line.key, sheet.build.site.currency
    place = key.removeprefix("pack-")
    tried = [t for t in sheet.alternatives.tried if t.key == key]
    fitting = [t for t in tried if t.answer != "no"]
    said = [(t.label, FIT_WORDS[t.answer], _tried_words(t, currency)) for t in fitting]
    where = address_of(sheet.build.name, "alternatives")
    if key != place:
        said += _batteries(sheet, place)
        where = address_of(sheet.build.name, "choose")
    pieces: list[Inline] = []
    for label, answer, figures in said:
        pieces += [Span("; ")] if pieces else []
        pieces += [Span(label, where), Span(f": {answer}, {figures}")]
    if not pieces:
        return _none(sheet, purchase, [t.label for t in tried])
    return Cell(tuple(pieces))
