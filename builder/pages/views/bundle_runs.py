"""Where bundles of wires run between parts: straight from the edge at which they are soldered to the
edge of the other part, for nobody states their way. In m, forward, left and up.
"""

from collections.abc import Iterator, Sequence
from math import fsum

from builder.compute.circuit.nets import Netlist
from builder.compute.geometry.clearances import SpacePoint
from builder.frozen import value_class
from builder.model.build import Build, Contact, piece_names
from builder.model.kinds import Motor
from builder.pages.drawing import Line
from builder.pages.drawings.boards import drawn_boards
from builder.pages.drawings.ring import EDGES, ring
from builder.pages.views.bodies import Body, bodies, rotor_places


@value_class(frozen=True, slots=True)
class BundleRun:
    """A bundle: the two pieces that it joins, and where it ends at each of them."""

    pieces: tuple[str, str]
    ends: tuple[SpacePoint, SpacePoint]


def _piece_bodies(build: Build) -> dict[str, Body]:
    """Bodies by piece: of parts of which the build has more than one, in the order of their places."""
    found: dict[str, list[Body]] = {}
    for body in bodies(build):
        found.setdefault(body.key, []).append(body)
    out: dict[str, Body] = {}
    for fitted in build.parts.values():
        names = piece_names(fitted)
        places = [b.at for b in found.get(fitted.key, [])]
        for name, at in zip(names, fitted.said_places, strict=False):
            own = (at.x, at.y, at.z)
            if own in places:
                out[name] = found[fitted.key][places.index(own)]
    return out


def _edge_ends(body: Body, edge: str) -> tuple[tuple[float, float], tuple[float, float]]:
    """Corners between which an edge lies, from left to right or from its front to its rear, as its
    contacts are listed: a board that lies face down has its left at its right.
    """
    ahead_left, ahead_right, back_right, back_left = body.floor
    if body.down:
        ahead_left, ahead_right = ahead_right, ahead_left
        back_left, back_right = back_right, back_left
    return {
        "front": (ahead_left, ahead_right),
        "rear": (back_left, back_right),
        "left": (ahead_left, back_left),
        "right": (ahead_right, back_right),
    }[edge]


def _at_edge(build: Build, contact: Contact, body: Body) -> SpacePoint:
    """Where a contact is on its part's rim; the part's middle where nobody says its edge or how the
    part is turned.
    """
    if not body.floor or body.yaw is None:
        return body.at
    around = ring(build.parts[contact.part].part)
    for edge in EDGES:
        names = [p.pad for p in getattr(around, edge)]
        if contact.pad in names:
            (x0, y0), (x1, y1) = _edge_ends(body, edge)
            share = (names.index(contact.pad) + 0.5) / len(names)
            return x0 + share * (x1 - x0), y0 + share * (y1 - y0), body.at[2]
    return body.at


def _middle(points: Sequence[SpacePoint]) -> SpacePoint:
    count = len(points)
    x, y, z = (fsum(p[i] for p in points) / count for i in (0, 1, 2))
    return x, y, z


def _ends(build: Build, nets: Netlist) -> Iterator[tuple[tuple[str, SpacePoint], ...]]:
    """For each wire both pieces, in the order of their names, and where it ends."""
    placed = _piece_bodies(build)
    rotors = rotor_places(build)
    for join in drawn_boards(build, nets).joins:
        found: list[tuple[str, SpacePoint]] = []
        for contact in (join.a, join.b):
            board = contact.board
            body = placed.get(board)
            turns = isinstance(build.parts[contact.part].part, Motor)
            rotor = rotors.get(str(contact.piece or 1)) if turns else None
            if body is not None:
                found.append((board, _at_edge(build, contact, body)))
            elif rotor is not None:
                found.append((board, rotor))
        if len(found) == 2 and found[0][0] != found[1][0]:
            yield tuple(sorted(found))


def bundle_runs(build: Build, nets: Netlist) -> tuple[BundleRun, ...]:
    """The bundles between pieces that have a place."""
    found: dict[tuple[str, str], list[tuple[SpacePoint, SpacePoint]]] = {}
    for (one, start), (other, end) in _ends(build, nets):
        found.setdefault((one, other), []).append((start, end))
    return tuple(
        BundleRun(pieces, (_middle([p[0] for p in ends]), _middle([p[1] for p in ends])))
        for pieces, ends in sorted(found.items())
    )


def run_line(start: tuple[float, float], end: tuple[float, float]) -> Line:
    """A bundle as a dotted line."""
    return Line((start, end), "run", width=0.45)
