"""What the screws of a stack go through, parted by the board with which each layer goes on."""

from collections.abc import Iterator, Sequence
from math import isclose

from builder.model.build import Build, FittedAs, ScrewPlace
from builder.model.kinds import FlightController, Hardware, Propeller, SpeedController

_SOFT = ("soft mount", "grommet")
_APART = ("nut", "spacer", "standoff", "post")


def layers_of(place: ScrewPlace) -> tuple[str, ...]:
    """What the screws of a place go through, from their heads on."""
    return tuple(layer.what for layer in place.screw.through)


def named_layers(place: ScrewPlace) -> str:
    """The name of a place of screws and all that they go through."""
    return " ".join((place.screw.place, *layers_of(place))).casefold()


def is_stack(place: ScrewPlace) -> bool:
    """Whether the screws of a place hold boards."""
    layers = named_layers(place)
    return "board" in layers or "stack" in layers


def _is_soft(layer: str) -> bool:
    return any(word in layer.casefold() for word in _SOFT)


def with_each_board(
    build: Build, place: ScrewPlace
) -> tuple[tuple[str, ...], tuple[str, ...]] | None:
    """The layers that go on with the lower board and those that wait for the upper one; None where
    they hold one board, or nobody can tell which is which.

    The speed controller is the lower one. What lies between, but for a soft mount, goes on with it.
    """
    layers = layers_of(place)
    boards = [at for at, layer in enumerate(layers) if "board" in layer.casefold()]
    two = bool(build.of_kind(SpeedController)) and bool(build.of_kind(FlightController))
    if not two or len(boards) != 2 or "speed" in layers[boards[1]].casefold():
        return None
    cut = boards[0] + 1
    while cut < boards[1] and not _is_soft(layers[cut]):
        cut += 1
    return layers[:cut], layers[cut:]


def _names(place: ScrewPlace, small: Hardware) -> bool:
    """Whether a place of the screw list names something by its form; a nut goes on screws of its
    own thread.
    """
    words = " ".join((*layers_of(place), place.screw.into or "")).casefold()
    thread = place.part.thread if isinstance(place.part, Hardware) else None
    other = thread is not None and small.thread is not None and thread != small.thread
    fits = small.form != "nut" or not other
    return small.form is not None and small.form in words and fits


def home_of(build: Build, small: FittedAs[Hardware]) -> str:
    """The one place of the screw list that a nut, a spacer or a soft mount belongs to; propellers,
    for a nut of their shafts; '' where nobody can tell.
    """
    found = [place.screw.place for place in build.screws if _names(place, small.part)]
    if len(found) == 1:
        return found[0]
    shafts = {f.part.nut for f in build.of_kind(Propeller)} - {None}
    on_shafts = small.part.form == "nut" and small.part.thread in shafts
    return "the propellers" if on_shafts and not found else ""


def spacers_not_listed(build: Build) -> Iterator[tuple[str, str, float]]:
    """Layers that keep boards apart and that no part of the list is as high as: the place, the
    layer, its height (m). An ordinary nut in their stead lets one board come down on the other.
    """
    listed = [f.part for f in build.of_kind(Hardware) if f.part.form in _APART]
    high = [p.length.value for p in listed if p.length is not None]
    said = set[tuple[str, str, float]]()
    for place in build.screws:
        for layer in place.screw.through:
            apart = any(word in layer.what.casefold() for word in _APART)
            if not apart or _is_soft(layer.what):
                continue
            found = (place.screw.place, layer.what, layer.thick.value)
            if found not in said and not any(
                isclose(layer.thick.value, x, abs_tol=1e-6) for x in high
            ):
                said.add(found)
                yield found


def stays_soft(layers: Sequence[str]) -> bool:
    """Whether a soft mount is among these layers, which a tight nut would crush."""
    return any(map(_is_soft, layers))
