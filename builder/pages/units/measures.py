"""Measures within text: which text holds some that a reader weighs, cuts, holds a rule to or sets
an iron by.

Sentences stay as they are written. Trade sizes stay too: screws, gauges, propellers, the size and
the pitch of a part, for they are names of what is bought. `templates/static/units.js` knows the
same headings and places.
"""

import re

from builder.pages.units.converted import converted, other_unit

# Columns and facts whose text is a measure.
MEASURED = frozenset(
    {
        "Length",
        "Length / bare",
        "Bare ends",
        "bare",
        "Air",
        "80 of 100 copies",
        "Weight, measured",
        "Weight, maker",
        "Weight, estimate",
    }
)
# Tables whose lengths are compared with each other and with trade sizes, by caption: they stay.
KEPT = ("Screws by place",)
_NUMBER = r"[+\u2212]?\d+(?:\.\d+)?"
_MEASURE = re.compile(rf"({_NUMBER})(?:( / | to )({_NUMBER}))?([ \u00a0])(g|mm|°C)(?![\w/²³])")
# The length of a wire behind its gauge, or of a lead, and the temperature of an iron, in any text.
_PLACED = re.compile(
    r"((?:AWG,?|trim(?:med)? to|(?:fine|medium|broad)(?: tip,)?(?: up to)?)[ \u00a0])"
    rf"({_NUMBER})([ \u00a0])(mm|°C)(?![\w/²³])"
)


def in_measure(text: str, choices: frozenset[str]) -> str:
    """The text of a measure: `95 mm`, `trim to 125 / 3 mm`, `404.3 to 415.5 g`."""

    def other(found: re.Match[str]) -> str:
        first, between, second, blank, unit = found.groups()
        made = other_unit(unit, choices)
        if made is None:
            return found[0]
        tail = f"{between}{converted(second, made)}" if second else ""
        return f"{converted(first, made)}{tail}{blank}{made.unit}"

    return _MEASURE.sub(other, text)


def in_place_of_wire_or_iron(text: str, choices: frozenset[str]) -> str:
    """Any text: only the length of a wire and the temperature of an iron."""

    def other(found: re.Match[str]) -> str:
        before, number, blank, unit = found.groups()
        made = other_unit(unit, choices)
        return found[0] if made is None else f"{before}{converted(number, made)}{blank}{made.unit}"

    return _PLACED.sub(other, text)
