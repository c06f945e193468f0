"""Which contact reaches which: through wires, through plugs in physical order, and inside parts.

A socket lists its contacts in a stated view. All views are turned into one, 'into the mating face,
latch up, left to right'; contact 1 is the first of that order. A straight cable joins contact 1 to
contact 1, a reversed one joins contact 1 to the last; a table names the pairs. So what a plug joins
is derived, not believed: the cable that is plugged is the one on the shelf, so its own `lies`
counts before the word that the build writes beside the plug.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from builder.diagnostics.where import Where
from builder.model.build import Build, Contact, Fitted, FittedAs, PlugJoin
from builder.model.kinds import Cable
from builder.model.source.build_joints import Wire
from builder.model.source.electrical import Pad, Socket

By = Literal["wire", "plug", "inside"]


@dataclass(frozen=True)
class Join:
    """Two contacts that conduct to each other, and by what. `wire` is set for wires, `position` for
    plugs (from 1).
    """

    a: Contact
    b: Contact
    by: By
    where: Where
    wire: Wire | None = None
    position: int = 0


@dataclass(frozen=True)
class LooseContact:
    """A contact of a plug that meets nothing on the other side (sockets of unlike size, or left out
    of the table).
    """

    contact: Contact
    where: Where
    why: str


def in_mating_order(socket: Socket) -> tuple[str, ...]:
    """Contacts of a socket as seen into the mating face with the latch up, from left to right."""
    turned = socket.seen.endswith("latch down")
    from_behind = socket.seen.startswith("from the wire side")
    return socket.contacts[::-1] if turned != from_behind else socket.contacts


CableLie = dict[str, str] | str | None


def cable_of(build: Build, join: PlugJoin) -> FittedAs[Cable] | None:
    """The cable on the shelf that the plug names, or None."""
    named = join.plug.use
    return next((f for f in build.of_kind(Cable) if f.key == named), None)


def how_it_lies(build: Build, join: PlugJoin) -> CableLie:
    """How the cable lies: as the cable on the shelf says, else as the build says."""
    used = cable_of(build, join)
    own = used.part.lies if used is not None else None
    return own if own is not None else join.plug.cable


def pairs(lies: CableLie, count_a: int, count_b: int) -> tuple[tuple[int, int], ...] | None:
    """Positions (from 1) that the cable joins, those that exist; None where nobody says how it
    lies.
    """
    if lies is None:
        return None
    if isinstance(lies, dict):
        table = [(int(a), int(b)) for a, b in lies.items() if a.isdigit() and b.isdigit()]
        return tuple((a, b) for a, b in table if 1 <= a <= count_a and 1 <= b <= count_b)
    shared = min(count_a, count_b)
    if lies == "straight":
        return tuple((i, i) for i in range(1, shared + 1))
    mirrored = ((i, count_b + 1 - i) for i in range(1, count_a + 1))
    return tuple((i, other) for i, other in mirrored if 1 <= other <= count_b)


def plug_joins(build: Build, join: PlugJoin) -> tuple[Join, ...]:
    """The joins that one plugged cable makes, in the order of the first socket's contacts."""
    return joins_as(build, join, how_it_lies(build, join))


def is_belied(build: Build, join: PlugJoin) -> bool:
    """Whether the cable on the shelf joins other contacts than the build writes; False where one of
    them says nothing.
    """
    written = join.plug.cable
    if written is None or how_it_lies(build, join) == written:
        return False
    reached = {(j.a, j.b) for j in plug_joins(build, join)}
    return reached != {(j.a, j.b) for j in joins_as(build, join, written)}


def as_written(build: Build) -> Build | None:
    """The build with each belied plug lying as it is written; None where no plug is belied."""
    if not any(is_belied(build, join) for join in build.plugs):
        return None
    bare = tuple(
        replace(j, plug=j.plug.model_copy(update={"use": None})) if is_belied(build, j) else j
        for j in build.plugs
    )
    return replace(build, plugs=bare)


def joins_as(build: Build, join: PlugJoin, lies: CableLie) -> tuple[Join, ...]:
    """The joins that the plug would make with a cable that lies so."""
    first, second = (in_mating_order(build.socket(end)) for end in (join.start, join.end))
    made = pairs(lies, len(first), len(second))
    out = []
    for a, b in made or ():
        start = Contact(*join.start[:2], first[a - 1])
        end = Contact(*join.end[:2], second[b - 1])
        out.append(Join(start, end, "plug", join.where, None, a))
    return tuple(out)


def loose_contacts(build: Build, join: PlugJoin) -> tuple[LooseContact, ...]:
    """Contacts of both sockets of a plug that the cable leaves without a partner."""
    made = plug_joins(build, join)
    met = {j.a for j in made} | {j.b for j in made}
    out = []
    for end in (join.start, join.end):
        for pad in in_mating_order(build.socket(end)):
            contact = Contact(end[0], end[1], pad)
            if contact not in met:
                out.append(LooseContact(contact, join.where, "the cable has no wire there"))
    return tuple(out)


def _inside(fitted: Fitted, piece: int) -> Iterator[Join]:
    """What copper inside one piece joins: named pads, all its grounds, and all pads of one rail."""
    pads = fitted.part.pads
    groups: dict[str, Contact] = {}
    for name, pad in pads.items():
        here = Contact(fitted.key, piece, name)
        where = fitted.shelf_where.at("pads", name)
        for other in pad.joined_to:
            if other in pads and not pad.diode and not pads[other].diode:
                yield Join(here, Contact(fitted.key, piece, other), "inside", where)
        group = _group(pad)
        if group and not pad.diode:
            first = groups.setdefault(group, here)
            if first != here:
                yield Join(first, here, "inside", where)


def _group(pad: Pad) -> str:
    """What a pad is one piece of copper with inside of its part: '' for one that is by itself."""
    if pad.role == "ground":
        return "ground"
    return f"rail {pad.rail}" if pad.role == "supply" and pad.rail else ""


def joins_of(build: Build) -> tuple[Join, ...]:
    """Every join of a build: wires, plugs, then what parts join inside, each in the order of the
    file.
    """
    wires = [Join(r.start, r.end, "wire", r.where, r.wire) for r in build.wires]
    plugs = [j for p in build.plugs for j in plug_joins(build, p)]
    inside = [j for f in build.parts.values() for piece in f.pieces for j in _inside(f, piece)]
    return (*wires, *plugs, *inside)
