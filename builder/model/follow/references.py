"""Follows a build's names: parts to the shelf, wire ends to contacts, plug ends to sockets, screws
to hardware.
"""

from collections.abc import Callable, Collection, Mapping, Set

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.nearest import did_you_mean
from builder.diagnostics.where import Where
from builder.model.build import (
    Build,
    Fitted,
    FittedPack,
    PlugJoin,
    ScrewPlace,
    WireRun,
)
from builder.model.follow.build_names import BuildNames, ShelfEntries
from builder.model.follow.check_names import check_names
from builder.model.follow.check_references import check_feeds, check_references, check_sockets
from builder.model.follow.contradictions import in_build
from builder.model.follow.like_packs import PackKind, like_packs, pack_kind
from builder.model.follow.screw_ends import HINT, is_known
from builder.model.kinds import Pack
from builder.model.site import Site
from builder.model.source.build_source import BuildSource
from builder.model.trees.reading import MOST_MISTAKES, read_as
from builder.model.trees.variants import Merged
from builder.model.values.names import BUILD, name_mistake


def _parts(build: BuildNames) -> dict[str, Fitted]:
    for key, use in build.source.parts.items():
        entry = build.entry(use.use, build.where("parts", key, "use"))
        if use.count == 0:
            build.say(
                "data/absurd",
                f"The part {key!r} is there 0 times.",
                "Take it out, or count it.",
                build.where("parts", key, "count"),
            )
        elif entry is not None:
            build.parts[key] = Fitted(
                key, entry.name, entry.part, use, entry.where, build.where("parts", key)
            )
    return build.parts


def _packs(build: BuildNames) -> dict[str, FittedPack]:
    packs: dict[str, FittedPack] = {}
    for key, use in build.source.packs.items():
        where = build.where("packs", key, "use")
        entry = build.entry(use.use, where)
        if entry is not None and not isinstance(entry.part, Pack):
            build.say(
                "data/wrong-kind",
                f"{use.use!r} is a {entry.part.kind}, not a battery.",
                "Name a shelf part of kind 'pack'.",
                where,
            )
        elif entry is not None and isinstance(entry.part, Pack):
            packs[key] = FittedPack(
                key, entry.name, entry.part, use, entry.where, build.where("packs", key)
            )
    return packs


def _wires(build: BuildNames) -> tuple[WireRun, ...]:
    runs = []
    for i, wire in enumerate(build.source.wires):
        if len(build.found.findings) >= MOST_MISTAKES:
            break
        start = build.contact(wire.from_, build.where("wires", i, "from"))
        end = build.contact(wire.to, build.where("wires", i, "to"))
        if start is not None and end is not None:
            runs.append(WireRun(start, end, wire, build.where("wires", i)))
    return tuple(runs)


def _plugs(build: BuildNames) -> tuple[PlugJoin, ...]:
    joins = []
    for i, plug in enumerate(build.source.plugs):
        if len(build.found.findings) >= MOST_MISTAKES:
            break
        start = build.socket_end(plug.from_, build.where("plugs", i, "from"))
        end = build.socket_end(plug.to, build.where("plugs", i, "to"))
        if plug.use is not None and plug.use not in build.source.parts:
            build.say(
                "data/no-such-part",
                f"This build has no part {plug.use!r}.",
                did_you_mean(plug.use, build.source.parts),
                build.where("plugs", i, "use"),
            )
        if start is not None and end is not None:
            joins.append(PlugJoin(start, end, plug, build.where("plugs", i)))
    return tuple(joins)


def _screws(build: BuildNames) -> tuple[ScrewPlace, ...]:
    places = []
    for i, screw in enumerate(build.source.screws):
        if len(build.found.findings) >= MOST_MISTAKES:
            break
        fitted = build.parts.get(screw.use)
        where = build.where("screws", i, "use")
        if screw.behind is not None and not is_known(
            screw.behind, build.source.parts, build.source.packs
        ):
            problem = (
                f"{screw.behind!r} is no word that fits here, and no part or battery of this build."
            )
            build.say("data/no-such-part", problem, HINT, build.where("screws", i, "behind"))
        entry = (
            build.shelf.get(fitted.shelf) if fitted is not None else build.entry(screw.use, where)
        )
        if entry is not None:
            places.append(ScrewPlace(screw, entry.part, entry.name, build.where("screws", i)))
    return tuple(places)


def _used(
    source: BuildSource,
    parts: Mapping[str, Fitted],
    packs: Mapping[str, FittedPack],
    shelf: ShelfEntries,
    all_packs: Collection[PackKind],
) -> tuple[str, ...]:
    """Names of the shelf's entries that the build uses or may swap to."""
    names = (
        {f.shelf for f in parts.values()}
        | {p.shelf for p in packs.values()}
        | {s.use for s in source.screws}
    )
    for fitted in parts.values():
        names.update(fitted.use.alternatives, fitted.part.alternatives)
    names |= {other for p in packs.values() for other in p.use.beside}
    kinds = [k for p in packs.values() if (k := pack_kind(p.shelf, p.part)) is not None]
    names |= like_packs(kinds, all_packs)
    return tuple(sorted(n for n in names if n in shelf))


def follow(
    name: str,
    merged: Merged,
    site: Site,
    shelf: ShelfEntries,
    broken: Set[str],
    all_packs: Collection[PackKind],
    digest: Callable[[tuple[str, ...]], str],
) -> tuple[Build | None, tuple[Finding, ...]]:
    """The build with its references followed, or None and every mistake that keeps it from being
    read.
    """
    wrong = name_mistake(name, BUILD)
    if wrong is not None:
        return None, (mistake("data/bad-name", *wrong, Where(f"{name}/build.yaml")),)
    source, findings = read_as(BuildSource, merged.tree, merged.origins)
    if source is None:
        return None, findings
    f = BuildNames(merged, source, shelf, broken)
    f.found.add(*check_names(source, merged.origins))
    parts, packs = _parts(f), _packs(f)
    wires, plugs, screws = _wires(f), _plugs(f), _screws(f)
    check_sockets(f)
    check_feeds(f)
    check_references(f)
    if f.found.findings:
        return None, f.found.take()
    used = _used(source, parts, packs, shelf, all_packs)
    build = Build(
        name,
        source,
        site,
        parts,
        packs,
        wires,
        plugs,
        screws,
        merged.origins,
        merged.chain,
        digest(used),
        {n: shelf[n] for n in used},
        merged.tree,
    )
    contradictions = in_build(build)
    return (None, contradictions) if contradictions else (build, ())
