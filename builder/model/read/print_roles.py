"""What a contact is, taken from the print beside it where nobody wrote it: by the table of usual
prints, and noted in `assumed`.

A print on an edge, in a socket or at the end of a fitted lead needs no line of its own. What a part writes goes before, and a
print that the table lacks stays what it was: nothing.
"""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from builder.diagnostics.where import KeyPath, Where
from builder.load.usual.prints import UsualPrint, usual_prints

_SIDES = ("left", "right", "front", "rear")
_TREE = Mapping[str, Any]


def _edge_lists(edges: Any, at: Where) -> Iterator[tuple[Any, Where]]:
    if not isinstance(edges, Mapping):
        return
    for side in _SIDES:
        yield edges.get(side), at.at(side)
    yield from _edge_lists(edges.get("under"), at.at("under"))


def _lists(tree: _TREE, where: Where) -> Iterator[tuple[Any, Where]]:
    """Every list of contacts of a part, and where it stands."""
    yield from _edge_lists(tree.get("edges"), where.at("edges"))
    sockets = tree.get("sockets")
    for name, socket in sockets.items() if isinstance(sockets, Mapping) else ():
        if isinstance(socket, Mapping):
            yield socket.get("contacts"), where.at("sockets", name, "contacts")
    leads = tree.get("leads")
    if isinstance(leads, Mapping):
        yield leads.get("names"), where.at("leads", "names")


def _listed(tree: _TREE, where: Where) -> dict[str, Where]:
    """The prints along edges, in sockets and of leads, each with the list that names it first."""
    found: dict[str, Where] = {}
    for names, at in _lists(tree, where):
        for name in names if isinstance(names, list) else ():
            if isinstance(name, str):
                found.setdefault(name, at)
    return found


def _rail(tree: _TREE, read: re.Match[str]) -> str | None:
    """The rail that has the volts of a print: the one of that name, else the only one of those
    volts.
    """
    groups = read.groupdict()
    said = groups.get("volts") or (groups.get("point") or "").replace("V", ".")
    volts, rails = said.replace(",", "."), tree.get("rails")
    if not volts or not isinstance(rails, Mapping):
        return None
    by_name = [n for n in rails if str(n).upper() in (f"{volts}V", groups.get("point"))]
    of_volts = [n for n, rail in rails.items() if _volts_of(rail) == float(volts)]
    found = by_name or of_volts
    return str(found[0]) if len(found) == 1 else None


def _volts_of(rail: Any) -> float | None:
    said = rail.get("volts") if isinstance(rail, Mapping) else None
    number = re.fullmatch(r"\s*(\d{1,2}(?:[.,]\d{1,3})?)\s*V\s*", str(said))
    return float(number[1].replace(",", ".")) if number is not None else None


def _meaning(usual: UsualPrint, read: re.Match[str], tree: _TREE) -> dict[str, str]:
    """The fields of a pad that a print says."""
    said = {"role": usual.role, "polarity": usual.polarity}
    said["battery"] = "yes" if usual.battery else ""
    groups = read.groupdict()
    said |= {name: groups.get(name) or "" for name in ("serial", "channel")}
    said["rail"] = (_rail(tree, read) or "") if usual.rail else ""
    return {name: value for name, value in said.items() if value}


def _read(name: str, tree: _TREE) -> dict[str, str]:
    """What the table says of a print on a kind of part; nothing where it lacks it."""
    kind = tree.get("kind")
    for usual in usual_prints()[1]:
        read = usual.fits(name, str(kind))
        if read is not None:
            return _meaning(usual, read, tree)
    return {}


def _filled(name: str, pad: Any, tree: _TREE) -> Any:
    """A pad whose role is not written, with what its print says."""
    own = {} if pad in (None, "") else pad
    if not isinstance(own, Mapping) or "role" in own:
        return pad
    taken = {key: value for key, value in _read(name, tree).items() if key not in own}
    return {**own, **taken, "assumed": list(taken)} if taken else pad


def pads_by_print(tree: _TREE, where: Where) -> tuple[dict[str, Any], dict[KeyPath, Where]]:
    """The pads of a part with what prints say where nobody else does, and where those stand that
    have no line of their own.
    """
    pads = tree.get("pads", {})
    if not isinstance(pads, Mapping):
        return dict(tree), {}
    own = {name: _filled(str(name), pad, tree) for name, pad in pads.items()}
    moved: dict[KeyPath, Where] = {}
    for name, at in _listed(tree, where).items():
        made = _filled(name, {}, tree) if name not in own else {}
        if made:
            own[name] = made
            moved["pads", name] = at
    return ({**tree, "pads": own} if own else dict(tree)), moved
