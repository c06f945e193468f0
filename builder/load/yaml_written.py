"""Trees as YAML text, one way only: the same tree is the same bytes on every machine.

Values are text, as reading leaves them; what would be read as something else stands in quotes.
"""

import re
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Any

_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._/+()%±°µΩ²-]*")
_EMPTY: Mapping[type, str] = MappingProxyType({dict: "{}", list: "[]"})
_KEY = re.compile(r"[A-Za-z0-9][A-Za-z0-9._+-]*")


def written(tree: Mapping[str, Any]) -> str:
    """A group of keys as a file, without comments."""
    return "".join(f"{line}\n" for line in _group(tree, 0))


def _scalar(text: str) -> str:
    """A text in the plainest form that is read as itself."""
    if _PLAIN.fullmatch(text) and not text.endswith((" ", ".")):
        return text
    if text and text.isprintable():
        return "'" + text.replace("'", "''") + "'"
    return _escaped(text)


def _escaped(text: str) -> str:
    """A text in double quotes; what has no sign of its own by its number in Unicode."""
    inside = (c if c.isprintable() and c not in '"\\' else f"\\U{ord(c):08X}" for c in text)
    return '"' + "".join(inside).replace("\\U0000000A", "\\n") + '"'


def _key(text: str) -> str:
    return text if _KEY.fullmatch(text) else _scalar(text)


def _group(tree: Mapping[str, Any], depth: int) -> Iterator[str]:
    blank = "  " * depth
    for key, value in tree.items():
        yield from _entry(f"{blank}{_key(key)}:", value, depth)


def _entry(head: str, value: Any, depth: int) -> Iterator[str]:
    """A key or a dash with what stands behind or below it."""
    if value is None:  # reading makes an empty text of it
        yield head
    elif isinstance(value, Mapping) and value:
        yield head
        yield from _group(value, depth + 1)
    elif isinstance(value, list) and value:
        yield head
        yield from _items(value, depth + 1)
    else:
        yield f"{head} {_scalar(value) if isinstance(value, str) else _EMPTY[type(value)]}"


def _items(items: list[Any], depth: int) -> Iterator[str]:
    blank = "  " * depth
    for item in items:
        lines = list(_entry(f"{blank}-", item, depth))
        if len(lines) > 1:  # the first key stands behind the dash
            lines[:2] = [f"{blank}- {lines[1].strip()}"]
        yield from lines
