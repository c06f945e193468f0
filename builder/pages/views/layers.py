"""What a screw holds, at true length: its layers from the head on, its thread, what stands out."""

from collections.abc import Mapping, Sequence

from builder.compute.geometry.screws import metric_screws, screw_target
from builder.compute.geometry.stack import stacked_boards
from builder.frozen import value_class
from builder.model.build import Build, Fitted, ScrewPlace
from builder.model.kinds import FlightController, Motor, SpeedController
from builder.model.values.bounds_of_bodies import ThreadDepth


@value_class(frozen=True, slots=True)
class Slab:
    """A layer: its words, the board that it is ('' for none), its two faces in mm from the head."""

    what: str
    board: str
    low: float
    high: float


@value_class(frozen=True, slots=True)
class Held:
    """Screws of one place in mm: thread, head, length, the layers, and the depth of the thread that
    takes them (None where nobody says).
    """

    place: str
    count: int
    said: str
    thread: float
    head: str
    length: float
    slabs: tuple[Slab, ...]
    into: str
    depth: float | None
    behind: str

    @property
    def passed(self) -> float:
        """All that the screw goes through."""
        return self.slabs[-1].high if self.slabs else 0.0

    def is_from_above(self, heights: Mapping[str, float]) -> bool:
        """Whether its head is above: its boards lie lower the further they are from the head."""
        found = [heights[s.board] for s in self.slabs if s.board in heights]
        return len(found) > 1 and found[0] > found[-1]


def _is_named(fitted: Fitted, what: str) -> bool:
    """Whether a layer's words may mean this board: one that drives motors is told by 'speed'."""
    words = what.casefold()
    drives = "speed" in words or "esc" in words.split()
    steers = not drives and ("control" in words or "flight" in words)
    if isinstance(fitted.part, SpeedController):
        return not steers
    return not (drives and isinstance(fitted.part, FlightController))


def _agree(boards: Sequence[Fitted], named: Sequence[str]) -> bool:
    return all(_is_named(f, what) for f, what in zip(boards, named, strict=True))


def _boards_in_order(build: Build, place: ScrewPlace) -> list[str]:
    """The boards of a stack from the head of the screw on, where the layers name just so many: lowest
    first, unless only the other way round they are what the layers say.
    """
    named = [layer for layer in place.screw.through if "board" in layer.what.casefold()]
    boards = [f for f in stacked_boards(build) if f.use.at is not None]
    boards.sort(key=lambda f: f.use.at.z if f.use.at is not None else 0.0)
    keys = [f.key for f in boards]
    if len(keys) == len(named):
        words = [layer.what for layer in named]
        if _agree(boards, words):
            return keys
        return keys[::-1] if _agree(boards[::-1], words) else [""] * len(named)
    own = [k for k in keys if k == place.screw.place]
    return own if len(own) == len(named) else [""] * len(named)


def _slabs(build: Build, place: ScrewPlace) -> tuple[Slab, ...]:
    boards = iter(_boards_in_order(build, place))
    washer = place.screw.washer
    at = 0.0
    out: list[Slab] = []
    if washer is not None:
        at = 1000 * washer.value
        out.append(Slab("washer", "", 0.0, at))
    for layer in place.screw.through:
        thick = 1000 * layer.thick.value
        board = next(boards, "") if "board" in layer.what.casefold() else ""
        out.append(Slab(layer.what, board, at, at + thick))
        at += thick
    return tuple(out)


def _thread_depth(build: Build, place: ScrewPlace) -> ThreadDepth | None:
    """How deep the thread is: as the place says, else as the part that takes it says."""
    into = screw_target(build, place.screw.into)
    of_part = into.part.thread_depth if into is not None and isinstance(into.part, Motor) else None
    return place.screw.depth or of_part


def held_places(build: Build) -> tuple[Held, ...]:
    """The places whose screw has a length and a metric thread, those with most layers first."""
    out = []
    for place, part, thread, long in metric_screws(build):
        length = 1000 * long
        screw, depth = place.screw, _thread_depth(build, place)
        said = f"{screw.count} × {part.thread} x {length:g}"
        deep = 1000 * depth.value if depth is not None else None
        own = (part.head or "pan", length, _slabs(build, place), screw.into or "", deep)
        out.append(Held(screw.place, screw.count, said, 1000 * thread, *own, screw.behind or ""))
    return tuple(sorted(out, key=lambda h: -len(h.slabs)))
