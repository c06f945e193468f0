"""The screws of each place: what they pass through, how far they grip, and what room is left behind
their ends.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from builder.compute.figures.figure import MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import total
from builder.compute.formulas.weight.fit import clearance_below, grip_in_diameters, thread_grip
from builder.diagnostics.where import Where
from builder.model.build import Build, Fitted, ScrewPlace
from builder.model.follow.screw_ends import in_own_words
from builder.model.kinds import Hardware, Motor, Pack


@dataclass(frozen=True, eq=False)
class ScrewRow:
    """Screws of one place, lengths in m. `room` is what is left between their end and what lies
    behind the thread.

    `motor` names the motor whose winding lies behind; `open_behind` says that the thread is a nut,
    open at its back. `toward_pack` says whether the end points at the pack or its bay; None where
    nobody says so in a word that is known.
    """

    place: str
    count: int
    name: str
    thread: str
    head: str
    length: MaybeFigure
    through: tuple[tuple[str, float], ...]
    passed: MaybeFigure
    into: str
    depth: MaybeFigure
    grip: MaybeFigure
    grip_diameters: MaybeFigure
    room: MaybeFigure
    motor: str
    open_behind: bool
    behind: str
    toward_pack: bool | None
    lock: bool | None
    note: str
    where: Where


def thread_diameter(thread: str | None) -> float | None:
    """Nominal diameter in m of a metric thread: `M2`, `M1.4`, `M2 x 0.4` (ISO 261). None for
    anything else.
    """
    match = re.match(r"\s*[Mm](\d+(?:\.\d+)?)", thread or "")
    return float(match[1]) / 1000.0 if match else None


def metric_screws(build: Build) -> Iterator[tuple[ScrewPlace, Hardware, float, float]]:
    """Places whose screw states a metric thread and a length, with its diameter and length in m."""
    for place in build.screws:
        part = place.part
        if not isinstance(part, Hardware) or part.length is None:
            continue
        diameter = thread_diameter(part.thread)
        if diameter is not None:
            yield place, part, diameter, part.length.value


def screw_target(build: Build, into: str | None) -> Fitted | None:
    """The part that a screw goes into, by the first word of `into`: a part of the build, or its
    kind, one or many of it.
    """
    words = (into or "").casefold().split()
    if not words:
        return None
    if words[0] in build.parts:
        return build.parts[words[0]]
    of_kind = (f for f in build.parts.values() if words[0] in (f.part.KIND, f.part.KIND + "s"))
    return next(of_kind, None)


def _depth(build: Build, place: ScrewPlace, target: Fitted | None, key: str) -> MaybeFigure:
    """Depth of the thread: as the build says, else as the motor's maker says."""
    label = f"Depth of the thread, {place.screw.place}"
    if place.screw.depth is not None:
        where = place.where.at("depth")
        return leaf(
            f"{key}/depth", label, place.screw.depth.value, "m", basis="estimate", where=where
        )
    if (
        target is not None
        and isinstance(target.part, Motor)
        and target.part.thread_depth is not None
    ):
        where = target.shelf_where.at("thread_depth")
        return leaf(
            f"shelf/{target.shelf}/thread_depth",
            f"Thread depth of {target.part.name}",
            target.part.thread_depth.value,
            "m",
            where=where,
        )
    what = f"of {target.key}" if target is not None else f"at {place.screw.place}"
    return Unknown(f"{key}/depth", label, (f"thread depth {what}",))


def _free(target: Fitted | None, depth: MaybeFigure) -> MaybeFigure:
    """Way from the face of the thread to what lies behind it: the winding where the maker says so,
    else the thread.
    """
    if (
        target is not None
        and isinstance(target.part, Motor)
        and target.part.winding_clear is not None
    ):
        return leaf(
            f"shelf/{target.shelf}/winding_clear",
            f"Way to the winding of {target.part.name}",
            target.part.winding_clear.value,
            "m",
            where=target.shelf_where.at("winding_clear"),
        )
    return depth


def _passed(place: ScrewPlace, key: str) -> MaybeFigure:
    screw = place.screw
    label = f"Passed through, {screw.place}"
    if not screw.through:
        return Unknown(f"{key}/passed", label, (f"what the screws at {screw.place} pass through",))
    layers = []
    for i, layer in enumerate(screw.through):
        name, where = f"{key}/through/{i + 1}", place.where.at("through", i)
        what, thick = layer.what.capitalize(), layer.thick.value
        layers.append(leaf(name, what, thick, "m", basis="estimate", where=where))
    if screw.washer is not None:
        where = place.where.at("washer")
        layers.append(
            leaf(f"{key}/washer", "Washer", screw.washer.value, "m", basis="estimate", where=where)
        )
    return total(f"{key}/passed", label, "m", layers)


def _toward_pack(build: Build, behind: str | None) -> bool | None:
    """Whether a screw's end points at the pack or its bay; None where that is not said."""
    if behind is None or in_own_words(behind) is not None:
        return None
    named = build.parts.get(behind)
    return (
        behind in ("pack", "pack bay")
        or behind in build.packs
        or (named is not None and isinstance(named.part, Pack))
    )


def _row(build: Build, place: ScrewPlace, number: int) -> ScrewRow:
    screw, part = place.screw, place.part
    key = f"{build.name}/screws/{number}"
    hardware = part if isinstance(part, Hardware) else None
    target = screw_target(build, screw.into)
    given = hardware.length if hardware is not None else None
    name, label = f"shelf/{place.shelf}/length", f"Length of {part.name}"
    length: MaybeFigure = Unknown(name, label, (f"length of {place.shelf}",))
    if given is not None:
        length = leaf(name, label, given.value, "m")
    thread = (hardware.thread if hardware is not None else None) or ""
    across = thread_diameter(thread)
    name, label = f"shelf/{place.shelf}/thread", f"Thread of {part.name}"
    diameter: MaybeFigure = Unknown(name, label, (f"thread of {place.shelf}",))
    if across is not None:
        diameter = constant(name, label, across, "m", "ISO 261")
    passed, depth = _passed(place, key), _depth(build, place, target, key)
    grip = apply(f"{key}/grip", f"Grip, {screw.place}", formula(thread_grip), length, passed, depth)
    label = f"Grip in diameters, {screw.place}"
    turns = apply(f"{key}/grip-diameters", label, formula(grip_in_diameters), grip, diameter)
    label, free = f"Room behind the end, {screw.place}", _free(target, depth)
    room = apply(f"{key}/room", label, formula(clearance_below), length, passed, free)
    head = (hardware.head or "") if hardware is not None else ""
    motor = target.key if target is not None and isinstance(target.part, Motor) else ""
    layers = tuple((layer.what, layer.thick.value) for layer in screw.through)
    into, behind = screw.into or "", screw.behind or ""
    behind = in_own_words(behind) or behind
    toward = _toward_pack(build, screw.behind)
    return ScrewRow(
        screw.place,
        screw.count,
        part.name,
        thread,
        head,
        length,
        layers,
        passed,
        into,
        depth,
        grip,
        turns,
        room,
        motor,
        "nut" in into.casefold(),
        behind,
        toward,
        screw.lock,
        screw.note or "",
        place.where,
    )


def screws(build: Build) -> tuple[ScrewRow, ...]:
    """The screw list, in the order of the file."""
    return tuple(_row(build, place, i + 1) for i, place in enumerate(build.screws))
