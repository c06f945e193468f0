"""Steps of what hangs on the boards: cut, join, lay in place, trim, and after their gate cover and
tie down.
"""

from collections.abc import Iterator

from builder.compute.figures.told import told
from builder.compute.geometry.orientation import load_words
from builder.compute.geometry.plate_words import plate_below
from builder.compute.geometry.seat_words import seat_words
from builder.compute.joints.bench_pieces import (
    CENTRES,
    cuts,
    frame_of,
    hanging_loads,
    radios_of,
    sleeved,
)
from builder.compute.joints.joints import Joint, touches
from builder.compute.joints.strips import hidden_lines, in_place, strip_words
from builder.compute.order.steps.cover_parts import cover_that_carries
from builder.compute.order.steps.hold_words import hold_words
from builder.compute.order.steps.joint_steps import cut_step, phase_of
from builder.compute.order.steps.work_step import Measure, Phase, WorkStep
from builder.model.build import Build, Fitted, piece_names
from builder.model.kinds import Antenna, Buzzer, Part, Receiver

# Grounds beside each other are one net: a beep between them is right.
_NEIGHBOURS = Measure("neighbours on different nets", "no beep")


def _own_cell(part: Part) -> bool:
    """Whether a part has a battery of its own, whose leads a pair of cutters would short."""
    supply = part.supply
    return (supply is not None and supply.own_cell) or (isinstance(part, Buzzer) and part.own_cell)


def _trim(build: Build, joints: tuple[Joint, ...], f: Fitted) -> str:
    """What is done to the leads that are still free once a part lies in its place; '' where none
    is.
    """
    free = [
        j for j in joints if touches(j, f.key) and in_place(build, j) and j.contact.part != f.key
    ]
    if not free:
        return ""
    its = "its" if len(f.pieces) == 1 else "their"
    cover = cover_that_carries(build, f.key)
    where = f" so long that the {cover} can lie beside the frame" if cover else " there"
    first = ""
    if _own_cell(f.part):
        first = (
            " It has a battery of its own: take that out first, or cut one lead at a time and tape"
            " each end at once."
        )
    return f"{first} Trim {its} free leads{where}; strip and tin them: {strip_words(free)}."


def _radio(build: Build, joints: tuple[Joint, ...], f: Fitted) -> Iterator[WorkStep]:
    """A receiver or video transmitter that gets a sleeve: it lies bare until its gate has passed."""
    name, frame = f.part.name, frame_of(build)
    text = (
        f"Slide the sleeve of {name} over all of its leads. Shrink it later, after the gate of the"
        " loads."
    )
    yield WorkStep(f"slide {f.key}", "fit", text, Phase.LEADS, part=f.key)
    text = (
        f"Lay {name} on a strip of tape in its place{seat_words(build, f)}. Nothing bare may touch the"
        f" frame.{_trim(build, joints, f)}"
    )
    yield WorkStep(f"lay {f.key}", "fit", text, Phase.LOADS, frame)
    free = (
        "the antenna lead and the button"
        if isinstance(f.part, Receiver)
        else "antenna lead, button and cooling face"
    )
    text = f"Draw the sleeve over {name} and shrink it; leave {free} free."
    yield WorkStep(f"cover {f.key}", "cover", text, Phase.COVER, f.key)
    yield WorkStep(f"mount {f.key}", "mount", f"Tie {name} down in its place.", Phase.COVER, frame)


def _fitted(build: Build, f: Fitted) -> str:
    """That a part goes to its place; where a step of the builder's own fastens it, it lies there
    first.
    """
    cover = cover_that_carries(build, f.key)
    if cover and cover != plate_below(build, f):
        return f"Fit {f.part.name} into the {cover}"
    own = any((s.part or "").split(".")[0] == f.key and s.do == "fit" for s in build.source.steps)
    pieces = len(f.pieces)
    where = "in its place" if pieces == 1 else f", {pieces} of them, in their places"
    name = f"{f.part.name} {where}".replace(" ,", ",")
    return f"{'Lay' if own else 'Fit'} {name}{seat_words(build, f)}"


def underside_id(key: str) -> str:
    """The name of the step that looks over the underside of a board before it is mounted."""
    return f"look over {key} underside"


def load_steps(build: Build, joints: tuple[Joint, ...]) -> Iterator[WorkStep]:
    """What hangs on the boards."""
    groups, frame = cuts(build), frame_of(build)
    for f in hanging_loads(build):
        for board in piece_names(f):
            if board in groups:
                yield cut_step(build, board, groups[board], joints)
    for f in build.of_kind(Antenna):
        to = " and ".join(r.part.name for r in radios_of(build, f.key))
        text = f"Fit {f.part.name}{f' to {to}' if to else ''}."
        yield WorkStep(f"antenna {f.key}", "fit", text, Phase.LEADS, part=f.key)
    for f in hanging_loads(build):
        if sleeved(build, f):
            yield from _radio(build, joints, f)
        else:
            held = hold_words(build, f)
            trimmed = _trim(build, joints, f)
            fitting = told(_fitted(build, f), load_words(f), f" {held}" if held else "", trimmed)
            yield WorkStep(f"mount {f.key}", "mount", fitting, Phase.LOADS, frame)
    for f in build.of_kind(*CENTRES):
        mine = hidden_lines(build, joints, f.key)
        if mine:
            phase = max(phase_of(build, j) for j in mine)
            yield WorkStep(
                underside_id(f.key),
                "check",
                f"Clean the flux off the underside of {f.key}. Look for bridges under a lens. Pull at"
                " each wire. Beep-test each to its other end.",
                phase,
                f.key,
                "under",
                measures=(
                    _NEIGHBOURS,
                    Measure(
                        "each wire end to end", "beeps to its own; else only wires of one net do"
                    ),
                ),
            )
        if any(j.contact.part == f.key and phase_of(build, j) == Phase.LOADS for j in joints):
            text = (
                f"Clean the flux off {f.key}, look for bridges under a lens, pull at each wire,"
                " beep-test neighbours. Two of one net, such as two grounds, do beep."
            )
            reading = (_NEIGHBOURS,)
            yield WorkStep(
                f"look over {f.key}", "check", text, Phase.LOADS, f.key, measures=reading
            )
