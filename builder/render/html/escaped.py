"""Text and attributes as HTML, in as few characters as the standard allows: a page has thousands of
them.
"""

import re
from functools import cache

from builder.model.values.units import DIMENSIONS

_BARE = re.compile(
    r"[^\s\"'=<>`&]+"
).fullmatch  # values that need no quotes (HTML standard, 13.1.2.3)
_NO_BREAK = "\u00a0"
_CURRENCY = "[A-Z]{3}"  # ISO 4217
_SHOWN = ("%", "°C", "kg", "AWG", "Ω", "mΩ", "kΩ", "m²", "cm²", "dm²")


def text(words: object) -> str:
    """Text between tags."""
    return str(words).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def quoted(value: object) -> str:
    """What stands between the double quotes of an attribute, in HTML and in SVG."""
    return text(value).replace('"', "&quot;")


@cache
def _number_and_unit() -> re.Pattern[str]:
    """A space between a number and its unit, or between a spread and its sign."""
    names = {unit for d in DIMENSIONS.values() for unit in d.units}.union(_SHOWN)
    units = "|".join([re.escape(name) for name in sorted(names, key=lambda n: (-len(n), n))])
    return re.compile(rf"(?<=\d) (?=(?:{units}|{_CURRENCY})(?!\w))|(?<=±) (?=\d)")


def unit_bound(html: str) -> str:
    """Text, escaped or not, in which no unit can be parted from its number by the end of a line."""
    return _number_and_unit().sub(_NO_BREAK, html) if " " in html else html


def bound(words: object) -> str:
    """Text between tags whose units stay with their numbers."""
    return unit_bound(text(words))


def attribute(name: str, value: object) -> str:
    """An attribute of an HTML element with a space before it; nothing for an empty value."""
    words = str(value) if value is not None else ""
    if not words:
        return ""
    return f" {name}={words}" if _BARE(words) else f' {name}="{quoted(words)}"'
