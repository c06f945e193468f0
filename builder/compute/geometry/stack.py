"""Height of each stack of boards against the posts of the frame, with its soft mounts compressed."""

from dataclasses import dataclass

from builder.compute.figures.figure import MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import difference
from builder.compute.formulas.weight.fit import compressed_height, stack_height
from builder.load.assumed import assumed
from builder.model.build import Build, Fitted
from builder.model.kinds import FlightController, Frame, SpeedController, VideoTransmitter
from builder.model.source.part import Part

COMPRESSED = assumed("mounting/soft-mount-left")
_SAME_PLACE = assumed("mounting/one-stack")


@dataclass(frozen=True, eq=False)
class Stack:
    """Boards that stand on one another, lowest first; height, what the posts leave, and the room
    between, in m.
    """

    boards: tuple[str, ...]
    height: MaybeFigure
    posts: MaybeFigure
    room: MaybeFigure


def _height(fitted: Fitted) -> float | None:
    part = fitted.part
    if isinstance(part, FlightController | SpeedController) and part.height is not None:
        return part.height.value
    if part.size is not None and len(part.size.along) == 3:
        return part.size.along[2]
    return None


def stacked_boards(build: Build) -> tuple[Fitted, ...]:
    """What is screwed to a hole pattern: control boards, speed controllers, video units that have
    one.
    """
    return tuple(f for f in build.parts.values() if _stacks(f.part))


def _stacks(part: Part) -> bool:
    """Whether a part is a board with holes to stand on others."""
    if isinstance(part, VideoTransmitter):
        return part.pattern is not None
    return isinstance(part, FlightController | SpeedController)


def groups(build: Build) -> tuple[tuple[Fitted, ...], ...]:
    """Boards by the place where they stand; those without a place stand with the first."""
    out: list[list[Fitted]] = []
    for board in stacked_boards(build):
        at = board.use.at
        for group in out:
            other = group[0].use.at
            near = at is None or other is None
            if near or (
                at is not None and other is not None and _near(at.x - other.x, at.y - other.y)
            ):
                group.append(board)
                break
        else:
            out.append([board])
    return tuple(
        tuple(sorted(g, key=lambda f: f.use.at.z if f.use.at is not None else 0.0)) for g in out
    )


def _near(x: float, y: float) -> bool:
    return bool((x * x + y * y) ** 0.5 < _SAME_PLACE)


def _layers(build: Build, group: tuple[Fitted, ...], key: str) -> list[MaybeFigure]:
    layers: list[MaybeFigure] = []
    for board in group:
        tall = _height(board)
        label, name = f"Height of {board.part.name}", f"shelf/{board.shelf}/height"
        if tall is None:
            layers.append(Unknown(name, label, (f"height of {board.key}",)))
        else:
            layers.append(leaf(name, label, tall, "m", where=board.shelf_where.at("height")))
        soft = getattr(board.part, "soft_mount", None)
        if soft is not None:
            where = board.shelf_where.at("soft_mount")
            free = leaf(
                f"shelf/{board.shelf}/soft_mount",
                f"Soft mounts of {board.part.name}",
                soft.value,
                "m",
                where=where,
            )
            note = "common practice, no source"
            left = constant("stack/compressed", "Height left under a screw", COMPRESSED, "1", note)
            name = f"{key}/{board.key}/soft_mount"
            label = f"Soft mounts of {board.part.name} under their screws"
            layers.append(apply(name, label, formula(compressed_height), free, left))
    return layers


def _stack(build: Build, group: tuple[Fitted, ...], number: int, frame: Fitted) -> Stack:
    key = f"{build.name}/stack/{number}"
    layers = _layers(build, group, key)
    missing = tuple(m for x in layers if isinstance(x, Unknown) for m in x.missing)
    height: MaybeFigure = (
        Unknown(f"{key}/height", "Height of the stack", missing)
        if missing
        else apply(f"{key}/height", "Height of the stack", formula(stack_height), *layers)
    )
    part = frame.part
    given = part.posts if isinstance(part, Frame) else None
    name, label = f"shelf/{frame.shelf}/posts", "Height of the posts"
    posts: MaybeFigure = Unknown(name, label, ("posts of the frame",))
    if given is not None:
        posts = constant(name, label, given.value, "m")
    room = difference(f"{key}/room", "Room above the stack", "m", posts, height)
    return Stack(tuple(f.key for f in group), height, posts, room)


def stacks(build: Build) -> tuple[Stack, ...]:
    """Every stack of a build with a frame."""
    frame = next(iter(build.of_kind(Frame)), None)
    if frame is None:
        return ()
    return tuple(_stack(build, g, i + 1, frame) for i, g in enumerate(groups(build)))
