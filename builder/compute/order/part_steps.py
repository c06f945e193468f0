"""That the steps hold all that flies: the screws of each place at the step that drives them, and a
step for each part that no other fits.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

from builder.compute.figures.told import told
from builder.compute.geometry.screw_layers import (
    home_of,
    is_stack,
    layers_of,
    named_layers,
    stays_soft,
    with_each_board,
)
from builder.compute.geometry.seat_words import seat_words
from builder.compute.joints.bench_pieces import frame_of
from builder.compute.order.steps import Phase, WorkStep
from builder.model.build import Build, Fitted, ScrewPlace
from builder.model.kinds import (
    Cable,
    Consumable,
    FlightController,
    Frame,
    GroundGear,
    Hardware,
    Motor,
    Payload,
    SpeedController,
    Tool,
)

_ON_THE_GROUND = (Tool, Consumable, GroundGear)
_SORTED_BEFORE = ("nut", "washer", "spacer", "standoff", "post", "soft mount", "grommet", "screw")
# what lies over the boards (common practice, no source)
_LATE = (
    "canopy",
    "cover",
    "hood",
    "lid",
    "shell",
    "dome",
    "roof",
    "shroud",
    "cowl",
    "fairing",
    "top plate",
    "upper plate",
)
_TOP = ("top", "upper", *_LATE)
_BODY = ("arm", "plate", "post", "standoff", "brace", "frame")
_NOT_LISTED = "is not listed here: see its maker's sheet."


def has_strap(build: Build) -> bool:
    """Whether a strap holds the battery."""
    return any(h.part.form == "strap" for h in build.of_kind(Hardware))


def _goes_to(build: Build, place: ScrewPlace, steps: Iterable[str]) -> str:
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


def _says(text: str, words: Iterable[str]) -> bool:
    return any(re.search(rf"\b{word}s?\b", text) for word in words)


def _frame_step(build: Build, layers: str) -> str:
    """The step that drives screws of the frame itself: what holds its top comes at the end."""
    frames = build.of_kind(Frame)
    if frames and _says(layers, _BODY) and not _says(layers, _TOP):
        return frame_id(frames[0].key)
    return "close"


def frame_id(key: str) -> str:
    """The name of the step that puts a frame together."""
    return f"assemble {key}"


def frame_steps(build: Build) -> Iterator[WorkStep]:
    """The frame, so far that motors and boards can be mounted. Screws that the build lists for it
    are said by `with_screws`; where it lists none, that they are not known.
    """
    listed = {_goes_to(build, place, ()) for place in build.screws}
    for f in build.of_kind(Frame):
        name = frame_id(f.key)
        text = f"Put {f.part.name} together, but leave its top open."
        if name not in listed:
            text = (
                f"If in pieces, put {f.part.name} together by its maker's sheet, top open."
                " Screws: not known."
            )
        yield WorkStep(name, "mount", text, Phase.MOTORS, f.key)


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
    cover = _cover_of(build, place)
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


def _cover_of(build: Build, place: ScrewPlace) -> str:
    """The cover that carries a part, as a canopy its camera: it lies beside the frame while the part
    is wired, so that the boards stay in reach. '' where none does.
    """
    into = (place.screw.into or "").split(".")[0]
    if into not in build.parts or isinstance(build.parts[into].part, Frame):
        return ""
    through = " ".join(x.what for x in place.screw.through).casefold()
    return next((word for word in _LATE if _says(through, (word,))), "")


def cover_that_carries(build: Build, key: str) -> str:
    """The cover to which a part is screwed; '' where none is."""
    mine = (p for p in build.screws if (p.screw.into or "").split(".")[0] == key)
    return next(filter(None, (_cover_of(build, p) for p in mine)), "")


def carried_covers(build: Build) -> tuple[str, ...]:
    """The covers that carry a part which is wired, as a canopy its camera."""
    return tuple(dict.fromkeys(filter(None, (_cover_of(build, p) for p in build.screws))))


def _laid_out(build: Build) -> str:
    """Screws by their place, with what goes onto them there."""
    by_place: dict[str, list[str]] = {}
    for place in build.screws:
        here = by_place.setdefault(place.screw.place, [])
        here.append(f"{place.screw.count} × {place.part.name}")
    driven = {p.screw.use for p in build.screws}
    for f in build.of_kind(Hardware):
        if f.part.form in _SORTED_BEFORE and f.key not in driven:
            by_place.setdefault(home_of(build, f), []).append(f"{f.count} × {f.part.name}")
    rows = []
    for name, things in by_place.items():
        begin = f"For {name}" if name else "With them"
        rows.append(f"{begin}: {'; '.join(things)}.")
    return " ".join(rows)


def with_screws(build: Build, steps: list[WorkStep]) -> list[WorkStep]:
    """The steps with the screws that they drive."""
    names = [s.id for s in steps]
    said: dict[str, list[str]] = {}
    for place in build.screws:
        target = _goes_to(build, place, names)
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
    held = f" What holds it shut {_NOT_LISTED}" if build.of_kind(Frame) else ""
    return f"Close the frame. Pinch no wire.{held}"


def _is_named(build: Build, fitted: Fitted, steps: Iterable[WorkStep]) -> bool:
    """Whether some step fits, joins, plugs or carries a part."""
    part = fitted.part
    if isinstance(part, Frame | Payload):
        return True  # it is what all is mounted on; a payload is put on for the scale
    if isinstance(part, Cable) and any(p.plug.use == fitted.key for p in build.plugs):
        return True
    own = {(s.part or "").split(".")[0] for s in build.source.steps}
    own |= {name for s in build.source.steps for name in (*s.covers, *s.coats)}
    if fitted.key in own or any(p.screw.use == fitted.key for p in build.screws):
        return True
    for step in steps:
        if fitted.key in {token.split(".")[0] for token in step.id.split()}:
            return True
        if step.id == "screws" and getattr(part, "form", None) in _SORTED_BEFORE:
            return True
        if step.id == "propellers" and part.KIND == "propeller":
            return True
        if step.id.startswith("slide ") and getattr(part, "form", None) == "sleeve":
            return True
    return False


def late_parts(build: Build) -> tuple[Fitted, ...]:
    """Covers that lie over the boards, as a canopy: they are fitted once nothing below has to be
    reached again.
    """
    return tuple(f for f in build.parts.values() if _lies_over(f))


def _lies_over(fitted: Fitted) -> bool:
    if isinstance(fitted.part, (*_ON_THE_GROUND, Frame, Payload)):
        return False
    return getattr(fitted.part, "form", None) != "sleeve" and _is_late(fitted.part.name)


def _is_late(name: str) -> bool:
    return _says(name.casefold(), _LATE)


def _fit(build: Build, fitted: Fitted) -> WorkStep:
    """The step of a part that no other step fits."""
    name, count = fitted.part.name, fitted.count
    what = name if count == 1 else f"{count} × {name}"
    late = _lies_over(fitted)
    place = "its place" if count == 1 else "their places"
    text = f"Fit {what} in {place}{seat_words(fitted)}."
    phase = Phase.CLOSE if late else Phase.LOADS
    if isinstance(fitted.part, Hardware) and fitted.part.form == "strap":
        text, phase = f"Thread {what} through the frame, without a battery.", Phase.COVER
    if fitted.use.note:
        text = f"{text} Its builder notes: {fitted.use.note.rstrip('.')}."
    elif late and not _screwed(build):
        text = f"{text} What holds it {_NOT_LISTED}"
    return WorkStep(f"fit {fitted.key}", "mount", text, phase, frame_of(build), part=fitted.key)


def _screwed(build: Build) -> bool:
    """Whether the step that closes the frame says screws of a cover."""
    closing = (p for p in build.screws if _goes_to(build, p, ()) == "close")
    return any(_says(named_layers(p), _LATE) for p in closing)


def loose_parts(build: Build, steps: list[WorkStep]) -> Iterator[WorkStep]:
    """A step for each part that flies and that no step names."""
    for fitted in build.parts.values():
        if isinstance(fitted.part, _ON_THE_GROUND):
            continue
        if not _is_named(build, fitted, steps):
            yield _fit(build, fitted)
