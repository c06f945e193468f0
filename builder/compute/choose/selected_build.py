"""The build that a selection makes: a variant with these parts and one battery, as if it were written
out.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from builder.compute.choose.offers import Offer, Selection
from builder.model.build import Build, Fitted, FittedPack, PlugJoin, ScrewPlace, ShelfEntry, WireRun
from builder.model.kinds import Pack

PartsAtHand = Mapping[str, ShelfEntry]
# What a variant that says nothing of these has: they belong to the one aircraft that it is made from.
_NOT_TAKEN: Mapping[str, object] = {
    "weighed": (),
    "flights": (),
    "changes": (),
    "incidents": (),
    "maintenance": (),
    "as_built": (),
    "copies": (),
    "accept": (),
    "own_aircraft": False,
}
_OF_THE_OLD = {"note": None, "price": None, "alternatives": (), "each_weighed": ()}


def _swapped_part(fitted: Fitted, offer: Offer | None, shelf: PartsAtHand) -> Fitted:
    if offer is None:
        use = fitted.use.model_copy(update={"each_weighed": ()})
        return replace(fitted, use=use)
    entry = shelf[offer.shelf]
    use = fitted.use.model_copy(update={**_OF_THE_OLD, "use": offer.shelf})
    return Fitted(fitted.key, offer.shelf, entry.part, use, entry.where, fitted.where)


def _pack_of(build: Build, selection: Selection, shelf: PartsAtHand) -> FittedPack:
    own, offer = build.packs[selection.pack], selection.other_pack
    if offer is None:
        return own
    entry = shelf[offer.shelf]
    if not isinstance(entry.part, Pack):
        raise TypeError(f"{offer.shelf} is no battery")
    use = own.use.model_copy(update={"use": offer.shelf, "note": None})
    return FittedPack(own.key, offer.shelf, entry.part, use, entry.where, own.where)


def lost_joins(build: Build, parts: Mapping[str, Fitted]) -> tuple[str, ...]:
    """Wires and plugs that find no contact on the parts that are there now."""

    def joined(run: WireRun) -> bool:
        return all(c.pad in parts[c.part].part.pads for c in (run.start, run.end))

    def plugged(join: PlugJoin) -> bool:
        return all(socket in parts[key].part.sockets for key, _, socket in (join.start, join.end))

    lost = [f"wire {r.start} to {r.end}" for r in build.wires if not joined(r)]
    lost += [f"plug {p.plug.from_} to {p.plug.to}" for p in build.plugs if not plugged(p)]
    return tuple(lost)


def parts_of(build: Build, selection: Selection, shelf: PartsAtHand) -> Mapping[str, Fitted]:
    """The parts of the build with those of the selection in their places."""
    by_place = {o.key: o for o in selection.parts}
    return {k: _swapped_part(f, by_place.get(k), shelf) for k, f in build.parts.items()}


def selected_build(build: Build, selection: Selection, shelf: PartsAtHand) -> Build:
    """The build of a selection whose joins all find their contacts (`lost_joins` says so).

    It is what a variant is that says no more than these swaps and this battery: made from this
    aircraft, without what belongs to that one, its alarms not set yet.
    """
    parts = parts_of(build, selection, shelf)
    setup = build.source.setup.model_copy(update={"alarms": ()})
    source = build.source.model_copy(update={**_NOT_TAKEN, "setup": setup})
    named = {o.shelf: shelf[o.shelf] for o in selection.swaps}
    flown = build if build.source.flights else build.log_of
    made = replace(build, source=source, parts=parts, log_of=flown, base=build, like=None)
    packs = {selection.pack: _pack_of(build, selection, shelf)}
    screws = tuple(_screw_of(s, selection, parts) for s in build.screws)
    return replace(made, packs=packs, screws=screws, shelf={**build.shelf, **named})


def _screw_of(place: ScrewPlace, selection: Selection, parts: Mapping[str, Fitted]) -> ScrewPlace:
    key = place.screw.use
    if all(o.key != key for o in selection.parts):
        return place
    return replace(place, part=parts[key].part, shelf=parts[key].shelf)


def written_out(build: Build, selection: Selection, title: str) -> dict[str, Any]:
    """The selection as the tree of a variant's file: what is written to have that build."""
    tree: dict[str, Any] = {"title": title, "based_on": build.name}
    if selection.parts:
        tree["parts"] = {o.key: {"use": o.shelf} for o in selection.parts}
    packs: dict[str, Any] = {k: "none" for k in build.packs if k != selection.pack}
    if selection.other_pack is not None:
        packs[selection.pack] = {"use": selection.other_pack.shelf}
    if packs:
        tree["packs"] = packs
    if build.source.setup.alarms:
        tree["setup"] = {"alarms": []}
    return tree
