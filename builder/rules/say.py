"""How a rule says what it found: a sentence with figures in it, rounded as pages round them.

    say("Full throttle takes {} from battery {}; it is marked for {}.", found.peak_current, key,
    given(limit, "A", "..."))

A Figure stands in the sentence with its usual unit and decimals. What a rule works out of one goes
through `made`, what somebody wrote through `given`, a share through `share`: each takes the value
in the SI unit, and the key of the figure that it comes from or of the field that it was read from
(`shelf/<part>/<field>`), empty where there is none.
"""

from dataclasses import replace

from builder.compute.figures.at_least import reading_of
from builder.compute.figures.figure import Figure
from builder.diagnostics.sentence import Amount, Piece, Sentence, pieces_of
from builder.rounding import ShownUnit, chance_words, rounded, significant, unit_for

_CLOSE_UP = ("°",)  # units that stand right behind the number


def code_point(letter: str) -> str:
    """The number of a letter as ISO/IEC 10646 writes it: U+ and at least four digits."""
    return f"U+{ord(letter):04X}"


def say(template: str, *said: object) -> Sentence:
    """The template with each `{}` filled: figures and amounts keep their value and key, anything
    else is words.
    """
    words = template.split("{}")
    if len(words) != len(said) + 1:
        raise ValueError(f"{len(said)} things are said in {len(words) - 1} places of {template!r}")
    pieces: list[Piece] = [words[0]]
    for one, after in zip(said, words[1:], strict=True):
        pieces += (*_pieces(one), after)
    return Sentence(*[p for p in pieces if p != ""])


def _pieces(one: object) -> tuple[Piece, ...]:
    if isinstance(one, Amount):
        return (one,)
    if isinstance(one, Figure):
        return (figure(one),)
    return pieces_of(one if isinstance(one, str) else str(one))


def figure(of: Figure, decimals: int | None = None, shown_as: ShownUnit | None = None) -> Amount:
    """A figure as its pages show it; `decimals` and `shown_as` where they show it with others than
    usual.
    """
    shown_unit, factor, usual = shown_as or unit_for(of.value, of.unit)
    shown = rounded(of.value * factor, usual if decimals is None else decimals)
    return _amount(of.value, of.unit, of.key, shown, shown_unit, reading_of(of))


def made(
    value: float, unit: str, key: str = "", decimals: int | None = None, prefix: str = ""
) -> Amount:
    """A value that was worked out, with the usual decimals of its unit."""
    shown_unit, factor, usual = unit_for(value, unit)
    return _amount(
        value,
        unit,
        key,
        rounded(value * factor, usual if decimals is None else decimals),
        shown_unit,
        prefix,
    )


def given(value: float, unit: str, key: str = "", shown_as: ShownUnit | None = None) -> Amount:
    """A value that somebody wrote, with the digits that it was written with."""
    shown_unit, factor, _ = shown_as or unit_for(value, unit)
    return _amount(value, unit, key, significant(value * factor), shown_unit, "")


def span(low: float, high: float, unit: str, key: str = "") -> Sentence:
    """From one value to another that somebody wrote, the unit said once: `5725 to 5875 MHz`."""
    first, last = given(low, unit, key), given(high, unit, key)
    same = first.shown_unit == last.shown_unit
    return say("{} to {}", replace(first, shown_unit="") if same else first, last)


def share(value: float, key: str = "", decimals: int = 0) -> Amount:
    """A share of something as per cent."""
    return _amount(value, "1", key, rounded(100 * value, decimals), "%", "")


def chance(of: Figure) -> Amount:
    """A chance as per cent, which never rounds to certainty."""
    prefix, shown = chance_words(of.value)
    return _amount(of.value, "1", of.key, shown, "%", prefix)


def times_of(value: float, key: str = "") -> Amount:
    """A chance as so many times of so many: `1 of 20`, `6 of 7`. Never none of them, never all.

    >>> times_of(0.05).shown, times_of(0.86).shown, times_of(0.9999).shown, times_of(0.0).shown
    ('1 of 20', '6 of 7', '999 of 1000', '1 of 1000')
    """
    rarer = max(min(value, 1.0 - value), 0.001)
    many = max(2, round(1.0 / rarer))
    hits = 1 if value <= 0.5 else many - 1
    return _amount(value, "1", key, f"{hits} of {many}", "", "")


def rate(value: float, key: str = "", *, written: bool = False) -> Amount:
    """A current as a multiple of the capacity per hour: `7.5C`."""
    shown = significant(value) if written else rounded(value, 1)
    return _amount(value / 3600.0, "1/s", key, f"{shown}C", "", "")


def _amount(value: float, unit: str, key: str, shown: str, shown_unit: str, prefix: str) -> Amount:
    if shown_unit in _CLOSE_UP:
        return Amount(value, unit, key, shown + shown_unit, "", prefix)
    return Amount(value, unit, key, shown, shown_unit, prefix)
