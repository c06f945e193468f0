"""Contacts that share a line: `M1A-M4C` for twelve pads, `S1-S4` for four, in `pads` and wherever
contacts are listed in order.

`channel: as printed` and `serial: as printed` of such a line are the number in each name.
"""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from builder.diagnostics.where import KeyPath, Origins, Where

AS_PRINTED = "as printed"
_SHARED = re.compile(r"([A-Za-z]+)(\d{1,2})([A-Za-z]?)-([A-Za-z]+)(\d{1,2})([A-Za-z]?)")
_NUMBER = re.compile(r"[A-Za-z]+(\d{1,2})[A-Za-z]?")
_MOST = 32  # contacts of one line
_LISTS = ("left", "right", "front", "rear")


def contacts_between(text: str) -> tuple[str, ...]:
    """The contacts that a text stands for, the first to the last as it names them; itself alone
    where it is no such text.

    >>> contacts_between("M1A-M2B")
    ('M1A', 'M1B', 'M2A', 'M2B')
    >>> contacts_between("S3-S1")
    ('S3', 'S2', 'S1')
    >>> contacts_between("VID-IN")
    ('VID-IN',)
    """
    found = _SHARED.fullmatch(text)
    if found is None or found[1] != found[4] or bool(found[3]) != bool(found[6]):
        return (text,)
    numbers = _steps(int(found[2]), int(found[5]))
    letters = [chr(c) for c in _steps(ord(found[3]), ord(found[6]))] if found[3] else [""]
    if len(numbers) * len(letters) > _MOST:
        return (text,)
    return tuple(f"{found[1]}{number}{letter}" for number in numbers for letter in letters)


def _steps(first: int, last: int) -> range:
    return range(first, last + 1) if first <= last else range(first, last - 1, -1)


def _numbered(pad: Any, name: str) -> Any:
    """A pad of a shared line with the number of its own name."""
    number = _NUMBER.fullmatch(name)
    if not isinstance(pad, Mapping) or number is None:
        return pad
    return {k: number[1] if v == AS_PRINTED else v for k, v in pad.items()}


def _listed(items: Any) -> Any:
    """A list of contacts with each of them named."""
    if not isinstance(items, list):
        return items
    named = [contacts_between(item) if isinstance(item, str) else (item,) for item in items]
    return [name for names in named for name in names]


def _edges(edges: Any) -> Any:
    if not isinstance(edges, Mapping):
        return edges
    out = {key: _listed(value) if key in _LISTS else value for key, value in edges.items()}
    return out | ({"under": _edges(out["under"])} if "under" in out else {})


def _pads(pads: Mapping[str, Any]) -> Iterator[tuple[str, str, Any]]:
    """Every contact with the line that it stands on; one that has a line of its own is not shared."""
    for line, pad in pads.items():
        names = contacts_between(line)
        if names == (line,):
            yield line, line, pad
            continue
        yield from ((name, line, _numbered(pad, name)) for name in names if name not in pads)


def each_contact(tree: Mapping[str, Any], where: Where) -> tuple[dict[str, Any], Origins]:
    """The tree of a part in which each contact has its own entry, and where each stands."""
    out = dict(tree)
    moved: dict[KeyPath, Where] = {}
    pads = tree.get("pads")
    if isinstance(pads, Mapping):
        own: dict[str, Any] = {}
        for name, line, pad in _pads(pads):
            own[name] = pad
            if name != line:
                moved["pads", name] = where.at("pads", line)
        out["pads"] = own
    if "edges" in tree:
        out["edges"] = _edges(tree["edges"])
    sockets = tree.get("sockets")
    if isinstance(sockets, Mapping):
        out["sockets"] = {name: _socket(socket) for name, socket in sockets.items()}
    return out, Origins(where, moved)


def _socket(socket: Any) -> Any:
    if not isinstance(socket, Mapping) or "contacts" not in socket:
        return socket
    return {**socket, "contacts": _listed(socket["contacts"])}
