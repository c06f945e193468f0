"""What one pad or contact carries of supply currents: all that comes in by its wires and plugs, or
all that goes out, whichever is more. What goes in at one pad of a board and out at another is in the
copper between them, which a maker's limit of either pad is for.
"""

from dataclasses import dataclass
from math import fsum

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from builder.compute.power.path_wires import PlugLoad, SupplyWire
from builder.compute.power.power_path import PowerPath
from builder.model.build import Contact


@dataclass(frozen=True, eq=False)
class PadCurrent:
    """Currents through a pad in one direction, and where they come from or go to."""

    steady: tuple[MaybeFigure, ...]
    short: tuple[MaybeFigure, ...]
    boards: tuple[str, ...]
    motors: bool

    @property
    def missing(self) -> tuple[str, ...]:
        """What is not known of them."""
        unknown = (f for f in (*self.steady, *self.short) if isinstance(f, Unknown))
        return tuple(dict.fromkeys(m for f in unknown for m in f.missing))

    @property
    def lasting(self) -> float:
        """What is known of their steady sum (A)."""
        return fsum(f.value for f in self.steady if isinstance(f, Figure))

    @property
    def peak(self) -> float:
        """What is known of their sum at full throttle, or with all peaks (A)."""
        return fsum(f.value for f in self.short if isinstance(f, Figure))


_Way = SupplyWire | PlugLoad


def _ends(way: _Way) -> tuple[Contact, Contact]:
    if isinstance(way, PlugLoad):
        return way.join.a, way.join.b
    return way.run.start, way.run.end


def _together(pad: Contact, ways: list[_Way]) -> PadCurrent:
    far = [end for way in ways for end in _ends(way) if end != pad]
    boards = tuple(dict.fromkeys(end.board for end in far))
    steady, short = tuple(w.steady for w in ways), tuple(w.short for w in ways)
    return PadCurrent(steady, short, boards, any(w.motors for w in ways))


def current_through(path: PowerPath, pad: Contact) -> PadCurrent | None:
    """What a pad carries; None where no supply current goes through it. A way whose direction is not
    known counts in both.
    """
    ways: tuple[_Way, ...] = (*path.wires, *path.returns, *path.plugs)
    found = [w for w in ways if pad in _ends(w)]
    if not found:
        return None
    into = _together(pad, [w for w in found if w.towards in (pad, None)])
    out = _together(pad, [w for w in found if w.towards != pad])
    return max(into, out, key=lambda c: (c.peak, len(c.missing)))
