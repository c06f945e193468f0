"""How much of a wire's end is stripped: no more than lies on its pad, as deep as its cup.

A wire comes over the edge of a board and lies on its pad square to the edge, so its bare end may be
as long as the pad is deep there; what stands out beyond reaches for the neighbour. Where nobody
says how large the pad is, its width follows from pitch and gap, and no pad is taken for longer than
it is wide (common practice, no source). Where nobody says anything of it, it is as usual for its
kind.
"""

from dataclasses import dataclass
from math import floor

from builder.compute.circuit.usual_pads import pad_area
from builder.load.assumed import assumed
from builder.model.build import Build, Contact
from builder.model.source.electrical import EdgeName, Pad

EDGES: tuple[EdgeName, ...] = ("front", "left", "right", "rear")
_STEP = assumed("soldering/strip-step")
_FINE = assumed("soldering/strip-step-fine")
_SMALL = assumed("soldering/small-pad")
_PLAIN = assumed("soldering/pad-side")
_OF_PITCH = assumed("soldering/pad-of-pitch")
_NO_SOURCE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class BareEnd:
    """A bare end in m, and what it rests on where that is not the pad's own size ('' where it is)."""

    length: float
    basis: str = ""


def _on_edge(build: Build, contact: Contact) -> bool:
    edges = build.parts[contact.part].part.edges
    return any(
        contact.pad in getattr(sides, edge) for sides in (edges, edges.under) for edge in EDGES
    )


def width_left(pad: Pad) -> float | None:
    """The width along the edge that pitch and gap leave for a pad; None where nobody says both."""
    return (
        pad.pitch.value - pad.gap.value if pad.pitch is not None and pad.gap is not None else None
    )


def pad_depth(build: Build, contact: Contact) -> float | None:
    """How deep a pad or cup is where a wire lies in it, in m; None where its size is not said.

    Of a pad in a row it is the side that pitch and gap do not leave for it; else the shorter side,
    for the wire may come from anywhere.
    """
    pad = build.pad(contact)
    if pad.pad_size is None:
        return None
    sides = pad.pad_size.along[:2]
    width = width_left(pad)
    if len(sides) < 2 or width is None or not _on_edge(build, contact):
        return min(sides)
    off = [abs(side - width) for side in sides]
    if abs(off[0] - off[1]) < _PLAIN:
        return min(sides)
    return sides[1] if off[0] < off[1] else sides[0]


def _whole(length: float) -> float:
    """Down to a step that can be stripped."""
    step = _STEP if length >= _SMALL else _FINE
    return round(floor(length / step + 1e-6) * step, 7)


def bare_end(build: Build, contact: Contact, most: float, *, cup: bool) -> BareEnd:
    """The bare end of the wires at a contact; `most` is what practice strips for the tip, in m."""
    depth = pad_depth(build, contact)
    if cup:
        if depth is None:
            return BareEnd(most, "cup's depth not known: " + _NO_SOURCE)
        return BareEnd(_whole(depth))
    if depth is not None:
        return BareEnd(_whole(min(most, depth)))
    pad = build.pad(contact)
    width = width_left(pad)
    if width is not None and width > 0:
        return BareEnd(
            _whole(min(most, width)),
            f"pad's size not known, width from pitch and gap: {_NO_SOURCE}",
        )
    if pad.pitch is not None:
        length = _whole(min(most, _OF_PITCH * pad.pitch.value))
        return BareEnd(length, f"pad's size not known, from its pitch: {_NO_SOURCE}")
    area = pad_area(build, contact)
    return BareEnd(_whole(min(most, area.shorter)), f"pad's size not known, {area.basis}")
