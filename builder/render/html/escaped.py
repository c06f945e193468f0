"""Text and attributes as HTML, in as few characters as the standard allows: a page has thousands of
them.
"""

import re

_BARE = re.compile(
    r"[^\s\"'=<>`&]+"
).fullmatch  # values that need no quotes (HTML standard, 13.1.2.3)


def text(words: object) -> str:
    """Text between tags."""
    return str(words).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def quoted(value: object) -> str:
    """What stands between the double quotes of an attribute, in HTML and in SVG."""
    return text(value).replace('"', "&quot;")


def attribute(name: str, value: object) -> str:
    """An attribute of an HTML element with a space before it; nothing for an empty value."""
    words = str(value) if value is not None else ""
    if not words:
        return ""
    return f" {name}={words}" if _BARE(words) else f' {name}="{quoted(words)}"'
