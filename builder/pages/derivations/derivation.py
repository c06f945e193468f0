"""What a derivation says of one figure, in words that the numbers page and the terminal share."""

from builder.compute.figures.figure import Figure
from builder.compute.figures.formula import Symbol
from builder.model.values.money_text import Money
from builder.pages.numbers import is_kept, shown_in
from builder.pages.told_words import note_words
from builder.rounding import decimals_for, rounded, rounded_down, significant

BASIS_WORDS = {
    "measured": "measured",
    "maker": "maker's figure",
    "estimate": "estimate",
    "computed": "computed",
    "setting": "setting",
    "defined": "defined",
}
_CODE = 3  # letters of a currency (ISO 4217)
_PLAIN = 4  # digits of what has no spread


def exact(figure: Figure, value: float | None = None) -> str:
    """A value of the figure (its own, unless another is given) to six digits, in the unit that
    pages show.
    """
    unit, factor, _ = shown_in(figure)
    shown = significant((figure.value if value is None else value) * factor)
    return f"{shown} {unit}" if unit and unit != "1" else shown


def with_spread(figure: Figure) -> str:
    """`154.5 g ± 0.029 g`, or the value alone where it has no spread."""
    if not figure.spread:
        return exact(figure)
    unit, factor, _ = shown_in(figure)
    wide = significant(figure.spread * factor, 2)
    return (
        f"{exact(figure)} ± {wide} {unit}".rstrip() if unit != "1" else f"{exact(figure)} ± {wide}"
    )


def digits_by_spread(
    figure: Figure, value: float | None = None, *, spread: bool = True, unit: bool = True
) -> str:
    """A value (its own, unless another is given) to the digits that its spread leaves:
    `154.50 ± 0.03 g`; to four digits where it has none.
    """
    shown_unit, factor, _ = shown_in(figure)
    words = f" {shown_unit}" if unit and shown_unit and shown_unit != "1" else ""
    shown = (figure.value if value is None else value) * factor
    wide = figure.spread * factor
    places = decimals_for(wide) if wide else 0
    if shown_unit.isalpha() and shown_unit.isupper() and len(shown_unit) == _CODE:
        return f"{rounded(shown, Money(0, shown_unit).digits)}{words}"
    if not wide or float(rounded(wide, places)) == 0:
        return f"{significant(shown, _PLAIN)}{words}"
    behind = f" ± {rounded(wide, places)}" if spread else ""
    cut = rounded_down if value is None and is_kept(figure.key) else rounded
    return f"{cut(shown, places)}{behind}{words}"


def symbols(figure: Figure) -> tuple[Symbol, ...]:
    """A symbol for each input. A formula of any number of inputs repeats its last symbol with an
    index.
    """
    if figure.formula is None:
        return ()
    given, count = figure.formula.text.arguments, len(figure.inputs)
    if len(given) == count:
        return given
    if figure.formula.name == "subtract":
        return tuple(Symbol(s, s, "term", figure.unit) for s in ("a", "b"))
    first = given[:-1]
    last = given[-1] if given else Symbol("terms", "a", "term", figure.unit)
    base = last.symbol.removesuffix("_i").removesuffix("ᵢ")
    names = [f"{base}_{i + 1}" for i in range(count - len(first))]
    rest = tuple(Symbol(last.name, name, last.words, last.unit) for name in names)
    return (*first, *rest)


def origin(figure: Figure) -> str:
    """Where a leaf was read: file and key path, else what it is."""
    note = note_words(figure)
    if figure.where is None:
        return note or BASIS_WORDS[figure.basis]
    place = figure.where.cite()
    return f"{place}; {note}" if note and figure.own else place


def share_text(share: float) -> str:
    """A leaf's share of the variance as per cent."""
    return f"{significant(100 * share, 2)} %" if share >= 0.0005 else "under 0.05 %"
