"""Follows a build's names: parts to the shelf, wire ends to contacts, plug ends to sockets, screws
to hardware.
"""

from collections.abc import Callable, Collection, Mapping, Set
from dataclasses import replace

from builder.diagnostics.finding import Collector, Finding, mistake
from builder.diagnostics.nearest import did_you_mean
from builder.diagnostics.where import Where
from builder.model.build import (
    Build,
    Contact,
    Fitted,
    FittedPack,
    PlugJoin,
    ScrewPlace,
    ShelfEntry,
    WireRun,
)
from builder.model.kinds import Connector, Pack
from builder.model.read.check_names import check_names
from builder.model.read.contradictions import in_build
from builder.model.read.like_packs import PackKind, like_packs, pack_kind
from builder.model.read.nearest_pad import which_pad
from builder.model.read.reading import MOST_MISTAKES, read_as
from builder.model.read.replaced_names import is_piece, unknown_replaced
from builder.model.read.screw_ends import HINT, is_known
from builder.model.read.variants import Merged
from builder.model.site import Site
from builder.model.source.build_source import BuildSource
from builder.model.values.names import BUILD, name_mistake
from builder.model.values.words import OPEN_PLACES, own_words

ShelfEntries = Mapping[str, ShelfEntry]
WIRING = ("wires", "solder")  # what is weighed with the boards, and is no part


class _Follower:
    """Follows the names of one build; local to a call."""

    def __init__(
        self, merged: Merged, source: BuildSource, shelf: ShelfEntries, broken: Set[str]
    ) -> None:
        self.merged, self.source, self.shelf, self.broken = merged, source, shelf, broken
        self.found = Collector()
        self.parts: dict[str, Fitted] = {}

    def where(self, *path: str | int) -> Where:
        return self.merged.origins.where(path)

    def say(self, code: str, problem: str, hint: str, where: Where, *see: Where) -> None:
        """Keeps a mistake."""
        self.found.add(replace(mistake(code, problem, hint, where), see=see))

    def entry(self, name: str, where: Where) -> ShelfEntry | None:
        """The shelf's entry, or a mistake (said once, by the shelf, where the entry itself cannot
        be read).
        """
        if name in self.shelf:
            return self.shelf[name]
        if name in self.broken:
            problem = f"The shelf's entry {name!r} cannot be read, so this build cannot either."
            self.say("data/broken-part", problem, "Fix the entry on the shelf.", where)
        else:
            self.say(
                "data/not-on-shelf",
                f"{name!r} is not on the shelf.",
                did_you_mean(name, self.shelf),
                where,
            )
        return None

    def follow_parts(self) -> dict[str, Fitted]:
        for key, use in self.source.parts.items():
            entry = self.entry(use.use, self.where("parts", key, "use"))
            if use.count == 0:
                self.say(
                    "data/absurd",
                    f"The part {key!r} is there 0 times.",
                    "Take it out, or count it.",
                    self.where("parts", key, "count"),
                )
            elif entry is not None:
                self.parts[key] = Fitted(
                    key, entry.name, entry.part, use, entry.where, self.where("parts", key)
                )
        return self.parts

    def follow_packs(self) -> dict[str, FittedPack]:
        packs: dict[str, FittedPack] = {}
        for key, use in self.source.packs.items():
            where = self.where("packs", key, "use")
            entry = self.entry(use.use, where)
            if entry is not None and not isinstance(entry.part, Pack):
                self.say(
                    "data/wrong-kind",
                    f"{use.use!r} is a {entry.part.kind}, not a battery.",
                    "Name a shelf part of kind 'pack'.",
                    where,
                )
            elif entry is not None and isinstance(entry.part, Pack):
                packs[key] = FittedPack(
                    key, entry.name, entry.part, use, entry.where, self.where("packs", key)
                )
        return packs

    def piece(self, text: str, where: Where) -> tuple[Fitted, int, str] | None:
        """`motor.1.A` as (motor, 1, 'A'); the last step may hold dots only after part and piece are
        taken.
        """
        key, dot, rest = text.partition(".")
        fitted = self.parts.get(key)
        if not dot or not rest:
            self.say(
                "data/no-such-contact",
                f"{text!r} does not name a contact.",
                "Write part.contact, like 'camera.5V'.",
                where,
            )
            return None
        if fitted is None:
            if key not in self.source.parts:
                self.say(
                    "data/no-such-part",
                    f"This build has no part {key!r}.",
                    did_you_mean(key, self.source.parts),
                    where,
                )
            return None
        piece = 0
        if fitted.use.count > 1:
            number, dot, rest = rest.partition(".")
            counted = number.isdecimal() and len(number) < 7 and bool(dot)
            if not counted or not 1 <= int(number) <= fitted.use.count:
                problem = f"{text!r} does not say which {key} is meant."
                if counted:
                    problem = f"There is no {key} {number}: this build has {fitted.use.count}."
                hint = f"Write {key}.1.… to {key}.{fitted.use.count}.…"
                of_count = self.where("parts", key, "count")
                self.say("data/no-such-contact", problem, hint, where, of_count)
                return None
            piece = int(number)
        return fitted, piece, rest

    def wired(self, board: str) -> frozenset[str]:
        """Pads of one piece, given as `camera.` or `motor.1.`, that wires name."""
        ends = (end for wire in self.source.wires for end in (wire.from_, wire.to))
        return frozenset(end.removeprefix(board) for end in ends if end.startswith(board))

    def contact(self, text: str, where: Where) -> Contact | None:
        found = self.piece(text, where)
        if found is None:
            return None
        fitted, piece, pad = found
        if pad not in fitted.part.pads:
            self.say(
                "data/no-such-contact",
                f"{fitted.key} ({fitted.shelf}) has no pad {pad!r}.",
                which_pad(pad, fitted.part, self.wired(text.removesuffix(pad))),
                where,
            )
            return None
        return Contact(fitted.key, piece, pad)

    def follow_wires(self) -> tuple[WireRun, ...]:
        runs = []
        for i, wire in enumerate(self.source.wires):
            if len(self.found.findings) >= MOST_MISTAKES:
                break
            start = self.contact(wire.from_, self.where("wires", i, "from"))
            end = self.contact(wire.to, self.where("wires", i, "to"))
            if start is not None and end is not None:
                runs.append(WireRun(start, end, wire, self.where("wires", i)))
        return tuple(runs)

    def socket_end(self, text: str, where: Where) -> tuple[str, int, str] | None:
        found = self.piece(text, where)
        if found is None:
            return None
        fitted, piece, name = found
        if name not in fitted.part.sockets:
            self.say(
                "data/no-such-socket",
                f"{fitted.key} ({fitted.shelf}) has no socket {name!r}.",
                did_you_mean(name, fitted.part.sockets),
                where,
            )
            return None
        return fitted.key, piece, name

    def follow_plugs(self) -> tuple[PlugJoin, ...]:
        joins = []
        for i, plug in enumerate(self.source.plugs):
            if len(self.found.findings) >= MOST_MISTAKES:
                break
            start = self.socket_end(plug.from_, self.where("plugs", i, "from"))
            end = self.socket_end(plug.to, self.where("plugs", i, "to"))
            if plug.use is not None and plug.use not in self.source.parts:
                self.say(
                    "data/no-such-part",
                    f"This build has no part {plug.use!r}.",
                    did_you_mean(plug.use, self.source.parts),
                    self.where("plugs", i, "use"),
                )
            if start is not None and end is not None:
                joins.append(PlugJoin(start, end, plug, self.where("plugs", i)))
        return tuple(joins)

    def follow_screws(self) -> tuple[ScrewPlace, ...]:
        places = []
        for i, screw in enumerate(self.source.screws):
            if len(self.found.findings) >= MOST_MISTAKES:
                break
            fitted = self.parts.get(screw.use)
            where = self.where("screws", i, "use")
            if screw.behind is not None and not is_known(
                screw.behind, self.source.parts, self.source.packs
            ):
                problem = (
                    f"{screw.behind!r} is no word that fits here, and no part or battery of this"
                    " build."
                )
                self.say("data/no-such-part", problem, HINT, self.where("screws", i, "behind"))
            entry = (
                self.shelf.get(fitted.shelf) if fitted is not None else self.entry(screw.use, where)
            )
            if entry is not None:
                places.append(ScrewPlace(screw, entry.part, entry.name, self.where("screws", i)))
        return tuple(places)

    def check_sockets(self) -> None:
        """A socket lists contacts that are pads of the same part."""
        for fitted in self.parts.values():
            for name, socket in fitted.part.sockets.items():
                for i, contact in enumerate(socket.contacts):
                    if contact not in fitted.part.pads:
                        self.say(
                            "data/no-such-contact",
                            f"{fitted.shelf} has no pad {contact!r}.",
                            did_you_mean(contact, fitted.part.pads, 16),
                            fitted.shelf_where.at("sockets", name, "contacts", i),
                        )

    def check_feeds(self) -> None:
        """A part is fed through a pad of its own."""
        for fitted in self.parts.values():
            pad = fitted.part.supply.pad if fitted.part.supply is not None else None
            if pad is not None and pad not in fitted.part.pads:
                problem = f"{fitted.shelf} has no pad {pad!r} to be fed through."
                hint = did_you_mean(pad, fitted.part.pads, 16) or f"List {pad!r} under its pads."
                where = fitted.shelf_where.at("supply", "pad")
                self.say("data/no-such-contact", problem, hint, where)

    def check_weighings(self) -> None:
        """What lay on the scale is known: dry, a pack, or parts by their names."""
        packs, parts = self.source.packs, self.source.parts
        for i, weighed in enumerate(self.source.weighed):
            whole = weighed.what == "dry" or weighed.what in packs
            if not whole and not (weighed.what == "parts" and weighed.parts):
                some = " Name the parts under parts." if weighed.what == "parts" else ""
                self.say(
                    "data/no-such-pack",
                    f"{weighed.what!r} is neither 'dry' nor a battery of this build.{some}",
                    did_you_mean(weighed.what, ["dry", *packs]),
                    self.where("weighed", i, "what"),
                )
            known = {"parts": (*parts, *packs, *WIRING), "without": (*parts, *WIRING)}
            for field, names in (("parts", weighed.parts), ("without", weighed.without)):
                for j, name in enumerate(names):
                    if name not in known[field]:
                        self.say(
                            "data/no-such-part",
                            f"This build has no part {name!r} that could be weighed.",
                            did_you_mean(name, known[field]),
                            self.where("weighed", i, field, j),
                        )
            odd = weighed.parts if whole else weighed.without
            if odd or (weighed.what in packs and weighed.without):
                field = "parts" if weighed.parts and whole else "without"
                self.say(
                    "data/two-things-weighed",
                    f"{field} does not go with {weighed.what!r}.",
                    "Write what: dry with without, or what: parts with parts.",
                    self.where("weighed", i, field),
                )

    def can_be_coated(self, name: str) -> bool:
        """Whether a step may name this under `coats`."""
        if name in OPEN_PLACES or name in self.source.packs or own_words(name):
            return True
        key, _, rest = name.partition(".")
        fitted = self.parts.get(key)
        if fitted is None or not rest:
            return key in self.source.parts and not rest
        last = rest.split(".")[-1]
        return last.isdecimal() or last in fitted.part.pads or last in fitted.part.sockets

    def check_logs(self) -> None:
        """Parts that were fitted later, measured or replaced are known."""
        for i, change in enumerate(self.source.changes):
            for j, name in enumerate(change.added):
                if name not in self.source.parts:
                    self.say(
                        "data/no-such-part",
                        f"This build has no part {name!r}.",
                        did_you_mean(name, self.source.parts),
                        self.where("changes", i, "added", j),
                    )
        for i, line in enumerate(self.source.as_built):
            if line.at is not None and not is_piece(self.source, line.at):
                self.contact(line.at, self.where("as_built", i, "at"))
        for problem, hint, place in unknown_replaced(self.source, self.shelf):
            self.say("data/no-such-part", problem, hint, self.where(*place))

    def check_joined(self) -> None:
        """Leads that join batteries are parts of the build, and what stands beside them a battery."""
        for key, use in self.source.packs.items():
            for i, name in enumerate(use.through):
                if name not in self.source.parts:
                    problem, hint = (
                        f"This build has no part {name!r}.",
                        did_you_mean(name, self.source.parts),
                    )
                    self.say(
                        "data/no-such-part", problem, hint, self.where("packs", key, "through", i)
                    )
            for i, name in enumerate(use.beside):
                where = self.where("packs", key, "beside", i)
                entry = self.entry(name, where)
                if entry is not None and not isinstance(entry.part, Pack):
                    problem = f"{name!r} is a {entry.part.kind}, not a battery."
                    hint = "Name a shelf part of kind 'pack'."
                    self.say("data/wrong-kind", problem, hint, where)

    def check_charging(self) -> None:
        """The board and the other batteries that are named under `charging` are of this build."""
        for key, use in self.source.packs.items():
            said = use.charging
            if said is None:
                continue
            where = self.where("packs", key, "charging")
            if said.board is not None and said.board not in self.source.parts:
                problem = f"This build has no part {said.board!r}."
                hint = did_you_mean(said.board, self.source.parts)
                self.say("data/no-such-part", problem, hint, where.at("board"))
            for i, name in enumerate(said.beside):
                if name not in self.source.packs or name == key:
                    problem = f"This build has no other battery {name!r}."
                    hint = did_you_mean(name, self.source.packs)
                    self.say("data/no-such-pack", problem, hint, where.at("beside", i))

    def check_same_battery(self) -> None:
        """What a balance lead names is a piece of a connector of this build."""
        for key, use in self.source.parts.items():
            for i, name in enumerate(use.same_battery):
                fitted = self.parts.get(name.partition(".")[0])
                if is_piece(self.source, name) and fitted and isinstance(fitted.part, Connector):
                    continue
                problem = f"{name!r} is no connector of this build."
                hint = (
                    "Name the battery connector of the same battery, with its number: 'pigtail.2'."
                )
                where = self.where("parts", key, "same_battery", i)
                self.say("data/no-such-part", problem, hint, where)

    def check_references(self) -> None:
        """Packs of flights and weighings, and alternatives, are known."""
        packs = self.source.packs
        for i, flight in enumerate(self.source.flights):
            if flight.pack not in packs:
                self.say(
                    "data/no-such-pack",
                    f"This build has no battery {flight.pack!r}.",
                    did_you_mean(flight.pack, packs),
                    self.where("flights", i, "pack"),
                )
        self.check_joined()
        self.check_same_battery()
        self.check_charging()
        self.check_weighings()
        self.check_logs()
        for i, step in enumerate(self.source.steps):
            for j, name in enumerate(step.coats):
                if not self.can_be_coated(name):
                    problem = f"{name!r} is no place that can be coated."
                    hint = (
                        "Name a part, a contact or a battery of this build, one of"
                        f" {', '.join(OPEN_PLACES)}, or 'other: ' and what it is, in quotes."
                    )
                    self.say("data/no-such-part", problem, hint, self.where("steps", i, "coats", j))
        for key, fitted in self.parts.items():
            for name in fitted.use.alternatives:
                self.entry(name, self.where("parts", key, "alternatives"))
            for i, name in enumerate(fitted.part.alternatives):
                self.entry(name, fitted.shelf_where.at("alternatives", i))


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
    f = _Follower(merged, source, shelf, broken)
    f.found.add(*check_names(source, merged.origins))
    parts, packs = f.follow_parts(), f.follow_packs()
    wires, plugs, screws = f.follow_wires(), f.follow_plugs(), f.follow_screws()
    f.check_sockets()
    f.check_feeds()
    f.check_references()
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
