"""What of a screw lies on which board: its head, and the nuts, washers and spacers among its layers."""

from collections.abc import Iterator
from dataclasses import dataclass

from builder.compute.geometry.screw_layers import layers_of
from builder.diagnostics.where import Where
from builder.model.build import Build, FittedAs, ScrewPlace
from builder.model.kinds import CombinedBoard, FlightController, Hardware, SpeedController

ScrewedBoard = FittedAs[SpeedController | FlightController]
_PIECES = ("nut", "washer", "spacer", "post")


@dataclass(frozen=True)
class OnBoard:
    """A head or a small piece that lies on a board; None for one that nobody can tell apart.

    `name` and `layer` say what the screw list calls them, `shelf_where` is where the piece is listed.
    """

    name: str
    piece: Hardware | None
    layer: str
    board: ScrewedBoard | None
    where: Where
    shelf_where: Where


def _boards(build: Build, layer: str) -> tuple[ScrewedBoard, ...]:
    """The boards that a layer can be, by its words."""
    every: tuple[ScrewedBoard, ...] = build.of_kind(SpeedController, FlightController)
    words = layer.casefold()
    if "speed" in words:
        return tuple(b for b in every if isinstance(b.part, SpeedController))
    if "control" in words or "flight" in words:
        return tuple(b for b in every if isinstance(b.part, FlightController | CombinedBoard))
    return tuple(b for b in every if b.key in words.split()) or every


def _is_board(build: Build, layer: str) -> bool:
    words = layer.casefold()
    keys = {b.key for b in build.of_kind(SpeedController, FlightController)}
    return "board" in words or "controller" in words or not keys.isdisjoint(words.split())


def _piece(build: Build, place: ScrewPlace, words: str) -> tuple[FittedAs[Hardware], ...]:
    """Small pieces that the words of a layer can mean: by their form, on the screw's own thread."""
    own = place.part.thread if isinstance(place.part, Hardware) else None
    forms = [form for form in _PIECES if form in words.casefold()]
    found = []
    for hardware in build.of_kind(Hardware):
        other = own is not None and hardware.part.thread not in (None, own)
        if hardware.part.form in forms and not other:
            found.append(hardware)
    return tuple(found)


def _beside(build: Build, place: ScrewPlace, at: int) -> Iterator[OnBoard]:
    """What lies on the two faces of the board that is layer `at`."""
    layers = layers_of(place)
    found = _boards(build, layers[at])
    board = found[0] if len(found) == 1 else None
    whole = ("", *layers, place.screw.into or "")
    below = whole[at]
    above = whole[at + 2]
    if at == 0 and isinstance(place.part, Hardware) and place.part.head != "none":
        screw = build.parts.get(place.screw.use)
        where = screw.shelf_where if screw is not None else place.where
        name = f"the head of {place.screw.use}"
        yield OnBoard(name, place.part, layers[at], board, place.where, where)
    for words in (below, above):
        if not any(form in words.casefold() for form in _PIECES):
            continue
        pieces = _piece(build, place, words)
        if len(pieces) == 1:
            one = pieces[0]
            yield OnBoard(one.key, one.part, layers[at], board, place.where, one.shelf_where)
        else:
            yield OnBoard(words, None, layers[at], board, place.where, place.where)


def on_boards(build: Build) -> tuple[OnBoard, ...]:
    """Every head, nut, washer, spacer and post of the screw list that lies on a board."""
    found: list[OnBoard] = []
    for place in build.screws:
        for at, layer in enumerate(layers_of(place)):
            if _is_board(build, layer):
                found.extend(_beside(build, place, at))
    return tuple(found)
