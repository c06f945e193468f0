"""Finds, in what a person wrote, what should not be published: the secret of a radio link, a serial
number, a home address.
"""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from builder.diagnostics.where import KeyPath

# A label and then a value, as people note such things down. The words are English, as the sources
# are. No two runs of blanks stand side by side: a long run could be shared out between them in
# millions of ways.
_IS = r"\s*(?:is|[:=])\s*\S+"
_LINK_SECRET = "the secret of a radio link"
_DIGITS = r"\s*(?:(?:is|[:=#])\s*)?(?=[\w-]*\d)[A-Z0-9][\w-]{3,}"
_PATTERNS = tuple(
    (what, re.compile(pattern, re.IGNORECASE))
    for what, pattern in (
        (_LINK_SECRET, rf"\b(?:bind|pair|link)(?:ing)?[ _-]?(?:phrase|code|key|secret)\b{_IS}"),
        ("a serial number", rf"\b(?:serial (?:number|no\.?)|s/n){_DIGITS}"),
        ("an operator number", rf"\b(?:operator|registration) (?:number|id|no\.?){_IS}"),
        ("a password", rf"\bpass(?:word|phrase){_IS}"),
        (
            "a home address",
            r"\bhome (?:address|is at|point)\s*(?:(?:is|[:=])\s*)?(?=\S)(?=[^.]*\d)\S+",
        ),
        (
            "exact co-ordinates",
            r"(?<![\d.])-?\d{1,2}\.\d{4,}\s*[NS]?\s*,\s*-?\d{1,3}\.\d{4,}\s*[EW]?",
        ),
    )
)
_KEYS = {
    "link_secret": _LINK_SECRET,
    "serial_number": "a serial number",
    "home": "a home position",
    "home_position": "a home position",
    "password": "a password",
}


def private_in(tree: Any, path: KeyPath = ()) -> Iterator[tuple[KeyPath, str]]:
    """Each place in a tree of texts that would give something private away, and what it is."""
    if isinstance(tree, Mapping):
        for key, value in tree.items():
            named = _KEYS.get(str(key).casefold().replace("-", "_").replace(" ", "_"))
            if named is not None and value not in (None, "", "none"):
                yield (*path, key), named
            else:
                yield from private_in(value, (*path, key))
    elif isinstance(tree, list | tuple):
        for i, value in enumerate(tree):
            yield from private_in(value, (*path, i))
    elif isinstance(tree, str):
        for what, pattern in _PATTERNS:
            if pattern.search(tree):
                yield path, what
                break
