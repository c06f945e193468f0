"""The screws of each place at the step that drives them."""

from collections.abc import Iterable
from dataclasses import replace

from builder.compute.figures.told import told
from builder.compute.geometry.screw_layers import (
    home_of,
    is_stack,
    layers_of,
    named_layers,
    spacers_not_listed,
    stays_soft,
    with_each_board,
)
from builder.compute.joints.bench_pieces import mm
from builder.compute.order.steps.cover_parts import LATE, cover_of, late_parts, says
from builder.compute.order.steps.work_step import WorkStep
from builder.model.build import Build, ScrewPlace
from builder.model.kinds import FlightController, Frame, Hardware, Motor, SpeedController

SORTED_BEFORE = ("nut", "washer", "spacer", "standoff", "post", "soft mount", "grommet", "screw")
_TOP = ("top", "upper", *LATE)
_BODY = ("arm", "plate", "post", "standoff", "brace", "frame")
NOT_LISTED = "is not listed here: see its maker's sheet."


def goes_to(build: Build, place: ScrewPlace, steps: Iterable[str]) -> str:
    """The step that drives the screws of a place; a motor's are driven at each of its pieces."""
    screw, names = place.screw, set(steps)
    layers = named_layers(place)
    into = (screw.into or "").split(".")[0]
    if into in build.parts and not isinstance(build.parts[into].part, Frame):
        named = f"mount {into}"
        if named in names or isinstance(build.parts[into].part, Motor):
            return named
    if "propeller" in layers and "propellers" in names:
        return "propellers"
    boards = [f.key for f in build.of_kind(SpeedController, FlightController)]
    if is_stack(place) and boards:
        return f"mount {boards[0]}"
    return _frame_step(build, f"{layers} {into.casefold()}")


def _frame_step(build: Build, layers: str) -> str:
    """The step that drives screws of the frame itself: what holds its top comes at the end."""
    frames = build.of_kind(Frame)
    if frames and says(layers, _BODY) and not says(layers, _TOP):
        return frame_id(frames[0].key)
    return "close"


def frame_id(key: str) -> str:
    """The name of the step that puts a frame together."""
    return f"assemble {key}"


def _share(build: Build, place: ScrewPlace) -> str:
    """How many screws there are, for each piece of what they go into where they divide evenly."""
    into = (place.screw.into or "").split(".")[0]
    pieces = len(build.parts[into].pieces) if into in build.parts else 1
    count = place.screw.count
    each = count % pieces == 0
    return f"{count // pieces if each else count} × {place.part.name}"


_LOCKED = {True: "with thread lock", False: "no thread lock", None: ""}  # None: nobody says


def screw_words(build: Build, place: ScrewPlace, *, lock: bool = True) -> str:
    """Which screws, how many, from which side, through what, into what, with thread lock or not.

    Of a stack of two boards, what goes on with the lower one.
    """
    said = [f"Screws: {_share(build, place)}."]
    layers = layers_of(place)
    into = f"into the {place.screw.into}" if place.screw.into else ""
    locked = _LOCKED[place.screw.lock]
    parted = with_each_board(build, place)
    if parted is not None:
        return " ".join((*said, *_in_order(parted[0]), "The rest goes on with the upper board."))
    if len(layers) == 1:
        into = " ".join(w for w in (f"through the {layers[0]}", into) if w)
    else:
        said += _in_order(layers)
    said += _sentence_of(into, locked if lock else "")
    if is_stack(place):
        said += _kept_soft(place)
    cover = cover_of(build, place)
    if cover:
        said.append(f"Do this with the {cover} off the frame: it is fitted later.")
    return " ".join(said)


def _in_order(layers: tuple[str, ...]) -> list[str]:
    """What lies on the screws, from their heads on."""
    said = [f"Heads on the {layers[0]}."] if layers else []
    return [*said, f"Then in order: {', '.join(layers[1:])}."] if layers[1:] else said


def _sentence_of(*pieces: str) -> list[str]:
    """These pieces as one sentence; nothing for none."""
    text = ", ".join(filter(None, pieces))
    return [f"{text[:1].upper()}{text[1:]}."] if text else []


def _kept_soft(place: ScrewPlace) -> list[str]:
    """How tight the end of screws is whose boards sit on soft mounts."""
    if not stays_soft(layers_of(place)):
        return []
    what = "nuts" if "nut" in (place.screw.into or "") else "screws"
    return [
        f"Tighten the {what} with a hand tool until they just hold: the soft mounts must stay soft."
    ]


def upper_board_words(build: Build, place: ScrewPlace) -> str:
    """What goes on the screws of a stack with its upper board; '' for a place without one."""
    parted = with_each_board(build, place)
    if parted is None:
        return ""
    into = f"into the {place.screw.into}" if place.screw.into else ""
    locked = _LOCKED[place.screw.lock]
    said = [f"On the same screws, in order: {', '.join(parted[1])}."]
    return " ".join((*said, *_sentence_of(into, locked), *_kept_soft(place)))


def _laid_out(build: Build) -> str:
    """Screws by their place, with what goes onto them there."""
    by_place: dict[str, list[str]] = {}
    for place in build.screws:
        here = by_place.setdefault(place.screw.place, [])
        here.append(f"{place.screw.count} × {place.part.name}")
    driven = {p.screw.use for p in build.screws}
    for f in build.of_kind(Hardware):
        if f.part.form in SORTED_BEFORE and f.key not in driven:
            by_place.setdefault(home_of(build, f), []).append(f"{f.count} × {f.part.name}")
    rows = []
    for name, things in by_place.items():
        begin = f"For {name}" if name else "With them"
        rows.append(f"{begin}: {'; '.join(things)}.")
    rows += [
        f"For {where}: the list has no {layer} that is said to be {mm(high)} high. Measure yours: a"
        " lower one lets the boards touch."
        for where, layer, high in spacers_not_listed(build)
    ]
    return " ".join(rows)


def with_screws(build: Build, steps: list[WorkStep]) -> list[WorkStep]:
    """The steps with the screws that they drive."""
    names = [s.id for s in steps]
    said: dict[str, list[str]] = {}
    for place in build.screws:
        target = goes_to(build, place, names)
        motor = target.removeprefix("mount ") in {f.key for f in build.of_kind(Motor)}
        said.setdefault(target, []).append(screw_words(build, place, lock=not motor))
        for board in build.of_kind(FlightController):
            upper = upper_board_words(build, place)
            said.setdefault(f"mount {board.key}", []).extend(filter(None, (upper,)))
    if build.screws:
        said.setdefault("screws", []).append(_laid_out(build))
    out = []
    for step in steps:
        words = said.get(step.id) or said.get(step.id.split(".")[0], [])
        if step.id == "close" and not words:
            out.append(replace(step, text=_closed(build)))
            continue
        text = told(step.text, "".join(f" {w}" for w in words)) if words else step.text
        out.append(replace(step, text=text))
    return out


def _closed(build: Build) -> str:
    """The last look before the frame counts as closed, where no screws are listed for it: a cover is
    on by then, by a step of its own.
    """
    covers = [f.part.name for f in late_parts(build)]
    if covers:
        it, sits = ("it", "sits") if len(covers) == 1 else ("they", "sit")
        return (
            f"Look at {' and '.join(covers)} from all sides: {it} {sits} tight. No wire is pinched."
        )
    held = f" What holds it shut {NOT_LISTED}" if build.of_kind(Frame) else ""
    return f"Close the frame. Pinch no wire.{held}"
