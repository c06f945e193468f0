"""Contacts that share a line: `M1A-M4C` for twelve pads, `GND1-GND4, HGND` for five, in `pads` and
wherever contacts are listed in order.

`channel: as printed` and `serial: as printed` of such a line are the number in each name. What
`each_pad` says holds for the pads along edges. What nobody says of a contact is taken from its
print (print_roles.py).
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from builder.diagnostics.where import KeyPath, Origins, Where
from builder.model.read.print_roles import pads_by_print
from builder.model.source.electrical import PadShape

AS_PRINTED = "as printed"
NUMBERS_IN_PRINTS = frozenset({"channel", "serial"})  # fields that may stand so in a shared line
_SHARED = re.compile(
    r"(\d{0,2}[A-Za-z]+)(\d{1,2})([A-Za-z]?)-(\d{0,2}[A-Za-z]+)(\d{1,2})([A-Za-z]?)"
)
_NUMBER = re.compile(r"\d{0,2}[A-Za-z]+(\d{1,2})[A-Za-z]?")
_MOST = 32  # contacts of one line
_SHAPE = frozenset(PadShape.model_fields)
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


def contacts_of(line: str) -> tuple[str, ...]:
    """The contacts that the line of a pad stands for, parted by commas.

    >>> contacts_of("TX1-TX2, TX4")
    ('TX1', 'TX2', 'TX4')
    """
    pieces = line.split(", ")
    named = [name for piece in pieces for name in contacts_between(piece.strip())]
    whole = all(named) and len(named) <= _MOST
    return tuple(named) if whole else (line,)


def _steps(first: int, last: int) -> range:
    return range(first, last + 1) if first <= last else range(first, last - 1, -1)


def _numbered(pad: Any, name: str) -> Any:
    """A pad of a shared line with the number of its own name."""
    number = _NUMBER.fullmatch(name)
    if not isinstance(pad, Mapping) or number is None:
        return pad
    return {
        k: number[1] if v == AS_PRINTED and k in NUMBERS_IN_PRINTS else v for k, v in pad.items()
    }


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


@dataclass(frozen=True, slots=True)
class _Line:
    """A contact as it is read: the lines of the source that its fields stand on, by field."""

    pad: Any
    line: str
    lent: str = ""  # the shared line from which it has what its own does not say
    own: frozenset[str] = frozenset()


def _shared(pads: Mapping[str, Any]) -> dict[str, tuple[str, Any]]:
    """What the lines of several contacts say of each, and which line it is."""
    lines = ((line, contacts_of(line), pad) for line, pad in pads.items())
    return {
        name: (line, _numbered(pad, name))
        for line, names, pad in lines
        if names != (line,)
        for name in names
    }


def _pads(pads: Mapping[str, Any]) -> dict[str, _Line]:
    """Every contact of a part. A line of its own adds to a shared one, unless it says a role."""
    shared = _shared(pads)
    out: dict[str, _Line] = {}
    for line in pads:
        for name in contacts_of(line):
            own = pads.get(name)
            lent_by, lent = shared.get(name, (line, None))
            if name not in pads:
                out.setdefault(name, _Line(lent, lent_by))
            elif isinstance(own, Mapping) and isinstance(lent, Mapping) and "role" not in own:
                out.setdefault(name, _Line({**lent, **own}, name, lent_by, frozenset(own)))
            else:
                out.setdefault(name, _Line(own, name))
    return out


def _places(name: str, read: _Line, where: Where) -> Iterator[tuple[KeyPath, Where]]:
    """Where a contact, or a field that it has from a shared line, stands."""
    if read.line != name:
        yield ("pads", name), where.at("pads", read.line)
    for key in read.pad if read.lent else ():
        if key not in read.own:
            yield ("pads", name, key), where.at("pads", read.lent, key)


def each_contact(tree: Mapping[str, Any], where: Where) -> tuple[dict[str, Any], Origins]:
    """The tree of a part in which each contact has its own entry, and where each stands."""
    out = dict(tree)
    moved: dict[KeyPath, Where] = {}
    pads = tree.get("pads")
    if isinstance(pads, Mapping):
        lines = _pads(pads)
        out["pads"] = {name: read.pad for name, read in lines.items()}
        for name, read in lines.items():
            moved |= dict(_places(name, read, where))
    if "edges" in tree:
        out["edges"] = _edges(tree["edges"])
    sockets = tree.get("sockets")
    if isinstance(sockets, Mapping):
        out["sockets"] = {name: _socket(socket) for name, socket in sockets.items()}
    out, printed = pads_by_print(out, where)
    shaped, alike = _alike(out, where)
    return shaped, Origins(where, moved | printed | alike)


def _along(edges: Any) -> set[str]:
    """The pads along the edges of a board, its underside's too."""
    if not isinstance(edges, Mapping):
        return set()
    found = {str(n) for side in _LISTS for n in _as_list(edges.get(side))}
    return found | _along(edges.get("under"))


def _as_list(items: Any) -> list[Any]:
    return items if isinstance(items, list) else []


def _alike(tree: dict[str, Any], where: Where) -> tuple[dict[str, Any], dict[KeyPath, Where]]:
    """The tree in which each pad along an edge has what `each_pad` says and itself does not, and
    where that stands.
    """
    shared, pads = tree.get("each_pad"), tree.get("pads")
    if not isinstance(shared, Mapping) or not isinstance(pads, Mapping):
        return tree, {}
    own = dict(pads)
    moved: dict[KeyPath, Where] = {}
    for name in _along(tree.get("edges")) & set(pads):
        pad = pads[name]
        if isinstance(pad, Mapping):
            lent = {k: v for k, v in shared.items() if k in _SHAPE and k not in pad}
            own[name] = {**pad, **lent}
            moved |= {("pads", name, key): where.at("each_pad", key) for key in lent}
    return {**tree, "pads": own}, moved


def _socket(socket: Any) -> Any:
    if not isinstance(socket, Mapping) or "contacts" not in socket:
        return socket
    return {**socket, "contacts": _listed(socket["contacts"])}
