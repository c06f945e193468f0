"""Which pad was meant by a wire to one that does not exist."""

import re
from collections.abc import Collection, Iterable

from builder.diagnostics.nearest import did_you_mean, nearest
from builder.model.kinds import Part


def _stem(pad: str) -> str:
    return re.sub(r"\d+$", "", pad).casefold()


def which_pad(pad: str, part: Part, taken: Collection[str]) -> str:
    """A hint: a soldering place of the same name but for its number that has no wire yet, then what
    is named alike.

    Contacts of a socket are asked last: a plug goes there, a wire hardly ever.
    """
    if pad in _printed(part):
        return f"{pad!r} is printed there. Write what it is for: pads: {{{pad}: {{role: ...}}}}."
    in_sockets = {contact for socket in part.sockets.values() for contact in socket.contacts}
    places = [p for p in part.pads if p not in in_sockets]
    alike = [p for p in places if _stem(p) == _stem(pad)]
    free = [p for p in alike if p not in taken]
    if free:
        return f"Did you mean {_closest(pad, free)!r}? No wire goes there yet."
    if alike:
        return f"Did you mean {_closest(pad, alike)!r}?"
    return did_you_mean(pad, places if nearest(pad, places) else part.pads, 16)


def _printed(part: Part) -> frozenset[str]:
    """What is printed along edges, in sockets and at leads, whether or not it is known what for."""
    faces = (part.edges, part.edges.under)
    rows = [row for face in faces for row in (face.left, face.right, face.front, face.rear)]
    rows += [socket.contacts for socket in part.sockets.values()]
    rows += [part.leads.names] if part.leads is not None else []
    return frozenset(name for row in rows for name in row)


def _closest(pad: str, alike: Iterable[str]) -> str:
    """Of names that differ in their number only, the one whose number is nearest; the lower of two."""

    def number(name: str) -> int:
        found = re.search(r"\d{1,6}$", name)
        return int(found[0]) if found else 0

    return min(alike, key=lambda p: (abs(number(p) - number(pad)), number(p)))
