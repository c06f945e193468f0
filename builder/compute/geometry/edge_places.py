"""Where the edges of a placed board lie, and what is on them."""

from math import cos, sin

from builder.model.build import Fitted
from builder.model.source.electrical import EdgeName

EDGES: tuple[EdgeName, ...] = ("left", "right", "front", "rear")


def on_edge(fitted: Fitted, edge: EdgeName, share: float) -> tuple[float, float] | None:
    """A place on an edge from the middle of a board, forward and left in m, seen from above as it
    lies. `share` counts left and right edges from the top, the others from the left. None where
    size or turn is not known.
    """
    part, yaw = fitted.part, fitted.use.yaw
    if part.size is None or yaw is None or getattr(part, "arrow", None) not in (None, "forward"):
        return None
    long, wide = part.size.along[:2]
    side = long if edge in ("left", "right") else wide
    along = side / 2 - side * share
    sign = 1 if edge in ("left", "front") else -1
    x, y = along, sign * wide / 2
    if edge in ("front", "rear"):
        x, y = sign * long / 2, along
    y = -y if fitted.use.face == "down" else y
    c, s = cos(yaw.value), sin(yaw.value)
    return x * c + y * s, y * c - x * s
