"""Names that a build says of itself are known: contacts of sockets, what was weighed, flown, coated."""

from builder.diagnostics.nearest import did_you_mean, nearest
from builder.model.follow.build_names import BuildNames
from builder.model.follow.nearest_pad import which_pad
from builder.model.follow.replaced_names import is_piece, unknown_replaced
from builder.model.kinds import Connector, Pack
from builder.model.values.words import OPEN_PLACES, own_words

WIRING = ("wires", "solder")  # what is weighed with the boards, and is no part


def check_sockets(build: BuildNames) -> None:
    """A socket lists contacts that are pads of the same part."""
    for fitted in build.parts.values():
        for name, socket in fitted.part.sockets.items():
            for i, contact in enumerate(socket.contacts):
                if contact not in fitted.part.pads:
                    hint = which_pad(contact, fitted.part, ())
                    if nearest(contact, fitted.part.pads):
                        hint = did_you_mean(contact, fitted.part.pads, 16)
                    problem = f"{fitted.shelf} has no pad {contact!r}."
                    where = fitted.shelf_where.at("sockets", name, "contacts", i)
                    build.say("data/no-such-contact", problem, hint, where)


def check_feeds(build: BuildNames) -> None:
    """A part is fed through a pad of its own."""
    for fitted in build.parts.values():
        pad = fitted.part.supply.pad if fitted.part.supply is not None else None
        if pad is not None and pad not in fitted.part.pads:
            problem = f"{fitted.shelf} has no pad {pad!r} to be fed through."
            hint = did_you_mean(pad, fitted.part.pads, 16) or f"List {pad!r} under its pads."
            where = fitted.shelf_where.at("supply", "pad")
            build.say("data/no-such-contact", problem, hint, where)


def _weighings(build: BuildNames) -> None:
    """What lay on the scale is known: dry, a pack, or parts by their names."""
    packs, parts = build.source.packs, build.source.parts
    for i, weighed in enumerate(build.source.weighed):
        whole = weighed.what == "dry" or weighed.what in packs
        if not whole and not (weighed.what == "parts" and weighed.parts):
            some = " Name the parts under parts." if weighed.what == "parts" else ""
            build.say(
                "data/no-such-pack",
                f"{weighed.what!r} is neither 'dry' nor a battery of this build.{some}",
                did_you_mean(weighed.what, ["dry", *packs]),
                build.where("weighed", i, "what"),
            )
        known = {"parts": (*parts, *packs, *WIRING), "without": (*parts, *WIRING)}
        for field, names in (("parts", weighed.parts), ("without", weighed.without)):
            for j, name in enumerate(names):
                if name not in known[field]:
                    build.say(
                        "data/no-such-part",
                        f"This build has no part {name!r} that could be weighed.",
                        did_you_mean(name, known[field]),
                        build.where("weighed", i, field, j),
                    )
        odd = weighed.parts if whole else weighed.without
        if odd or (weighed.what in packs and weighed.without):
            field = "parts" if weighed.parts and whole else "without"
            build.say(
                "data/two-things-weighed",
                f"{field} does not go with {weighed.what!r}.",
                "Write what: dry with without, or what: parts with parts.",
                build.where("weighed", i, field),
            )


def _can_be_coated(build: BuildNames, name: str) -> bool:
    """Whether a step may name this under `coats`."""
    if name in OPEN_PLACES or name in build.source.packs or own_words(name):
        return True
    key, _, rest = name.partition(".")
    fitted = build.parts.get(key)
    if fitted is None or not rest:
        return key in build.source.parts and not rest
    last = rest.split(".")[-1]
    return last.isdecimal() or last in fitted.part.pads or last in fitted.part.sockets


def _logs(build: BuildNames) -> None:
    """Parts that were fitted later, measured or replaced are known."""
    for i, change in enumerate(build.source.changes):
        for j, name in enumerate(change.added):
            build.check_part(name, build.where("changes", i, "added", j))
    for i, line in enumerate(build.source.as_built):
        if line.at is not None and not is_piece(build.source, line.at):
            build.contact(line.at, build.where("as_built", i, "at"))
    for problem, hint, place in unknown_replaced(build.source, build.shelf):
        build.say("data/no-such-part", problem, hint, build.where(*place))


def _joined(build: BuildNames) -> None:
    """Leads that join batteries are parts of the build, and what stands beside them a battery."""
    for key, use in build.source.packs.items():
        for i, name in enumerate(use.through):
            build.check_part(name, build.where("packs", key, "through", i))
        for i, name in enumerate(use.beside):
            where = build.where("packs", key, "beside", i)
            entry = build.entry(name, where)
            if entry is not None and not isinstance(entry.part, Pack):
                problem = f"{name!r} is a {entry.part.kind}, not a battery."
                hint = "Name a shelf part of kind 'pack'."
                build.say("data/wrong-kind", problem, hint, where)


def _charging(build: BuildNames) -> None:
    """The board and the other batteries that are named under `charging` are of this build."""
    for key, use in build.source.packs.items():
        said = use.charging
        if said is None:
            continue
        where = build.where("packs", key, "charging")
        if said.board is not None:
            build.check_part(said.board, where.at("board"))
        for i, name in enumerate(said.beside):
            if name not in build.source.packs or name == key:
                problem = f"This build has no other battery {name!r}."
                hint = did_you_mean(name, build.source.packs)
                build.say("data/no-such-pack", problem, hint, where.at("beside", i))


def _same_battery(build: BuildNames) -> None:
    """What a balance lead names is a piece of a connector of this build."""
    for key, use in build.source.parts.items():
        for i, name in enumerate(use.same_battery):
            fitted = build.parts.get(name.partition(".")[0])
            if is_piece(build.source, name) and fitted and isinstance(fitted.part, Connector):
                continue
            problem = f"{name!r} is no connector of this build."
            hint = "Name the battery connector of the same battery, with its number: 'pigtail.2'."
            where = build.where("parts", key, "same_battery", i)
            build.say("data/no-such-part", problem, hint, where)


def check_references(build: BuildNames) -> None:
    """Packs of flights and weighings, and alternatives, are known."""
    packs = build.source.packs
    for i, flight in enumerate(build.source.flights):
        if flight.pack not in packs:
            build.say(
                "data/no-such-pack",
                f"This build has no battery {flight.pack!r}.",
                did_you_mean(flight.pack, packs),
                build.where("flights", i, "pack"),
            )
    _joined(build)
    _same_battery(build)
    _charging(build)
    _weighings(build)
    _logs(build)
    for i, step in enumerate(build.source.steps):
        for j, name in enumerate(step.coats):
            if not _can_be_coated(build, name):
                problem = f"{name!r} is no place that can be coated."
                hint = (
                    "Name a part, a contact or a battery of this build, one of"
                    f" {', '.join(OPEN_PLACES)}, or 'other: ' and what it is, in quotes."
                )
                build.say("data/no-such-part", problem, hint, build.where("steps", i, "coats", j))
    for key, fitted in build.parts.items():
        for name in fitted.use.alternatives:
            build.entry(name, build.where("parts", key, "alternatives"))
        for i, name in enumerate(fitted.part.alternatives):
            build.entry(name, fitted.shelf_where.at("alternatives", i))
