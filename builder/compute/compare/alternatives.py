"""A build with one part swapped for another of the shelf, so that compute and rules can be run on
it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from builder.model.build import Build, Fitted, FittedPack, PlugJoin, WireRun

MOST = 8  # alternatives tried for one build; each costs one run of compute and rules


@dataclass(frozen=True, eq=False)
class Swap:
    """One part swapped: the build that it makes, and the joins that find no contact on the new
    part.
    """

    key: str
    shelf: str
    build: Build
    lost: tuple[str, ...]


def _has_contact(fitted: Mapping[str, Fitted], run: WireRun) -> bool:
    return all(c.pad in fitted[c.part].part.pads for c in (run.start, run.end))


def _has_socket(fitted: Mapping[str, Fitted], join: PlugJoin) -> bool:
    return all(name in fitted[part].part.sockets for part, _, name in (join.start, join.end))


def _plugged(join: PlugJoin, key: str) -> PlugJoin:
    """A plug with another cable: what was written of the old one's lie says nothing of this one."""
    if join.plug.use != key:
        return join
    return replace(join, plug=join.plug.model_copy(update={"cable": None}))


def swapped(build: Build, key: str, shelf: str) -> Swap:
    """The build with another part in one place. It is made from this aircraft: what was weighed and
    flown here says something of it too, as of a variant.

    KeyError where the shelf does not hold the part.
    """
    entry = build.shelf[shelf]
    old = build.parts[key]
    use = old.use.model_copy(update={"use": shelf, "price": None, "each_weighed": ()})
    new = Fitted(key, shelf, entry.part, use, entry.where, old.where)
    parts = {k: new if k == key else f for k, f in build.parts.items()}
    wires = tuple(r for r in build.wires if _has_contact(parts, r))
    plugs = tuple(_plugged(p, key) for p in build.plugs if _has_socket(parts, p))
    lost = [f"wire {r.start} to {r.end}" for r in build.wires if r not in wires]
    lost += [
        f"plug {p.plug.from_} to {p.plug.to}" for p in build.plugs if not _has_socket(parts, p)
    ]
    screws = tuple(
        replace(s, part=entry.part, shelf=shelf) if s.screw.use == key else s for s in build.screws
    )
    source = build.source.model_copy(update={"weighed": (), "flights": (), "as_built": ()})
    made = replace(
        build,
        source=source,
        parts=parts,
        wires=wires,
        plugs=plugs,
        screws=screws,
        log_of=_log_of(build),
        base=build,
    )
    return Swap(key, shelf, made, tuple(lost))


def _log_of(build: Build) -> Build | None:
    """The build whose log says how it is flown."""
    return build if build.source.flights else build.log_of


def with_pack(build: Build, pack: FittedPack) -> Build:
    """The build on one other pack alone, made from this aircraft."""
    setup = build.source.setup.model_copy(
        update={"alarms": ()}
    )  # they are set anew for another pack
    source = build.source.model_copy(
        update={"weighed": (), "flights": (), "as_built": (), "setup": setup}
    )
    return replace(build, source=source, packs={pack.key: pack}, log_of=_log_of(build), base=build)


def named_alternatives(build: Build) -> tuple[tuple[str, str], ...]:
    """Every (part of the build, shelf part that it may be swapped for), in the order of the file,
    each once.
    """
    out = []
    for key, fitted in build.parts.items():
        named = dict.fromkeys((*fitted.use.alternatives, *fitted.part.alternatives))
        out += [(key, shelf) for shelf in named if shelf in build.shelf and shelf != fitted.shelf]
    return tuple(out)


def swaps(build: Build) -> tuple[tuple[Swap, ...], int]:
    """The first MOST alternatives as builds of their own, and how many more are named."""
    named = named_alternatives(build)
    return tuple(swapped(build, key, shelf) for key, shelf in named[:MOST]), max(
        0, len(named) - MOST
    )
