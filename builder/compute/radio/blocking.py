"""What a control receiver gets of the picture that is sent beside it, on another band."""

from dataclasses import dataclass
from itertools import product
from math import dist

from builder.compute.figures.figure import MaybeFigure, apply, constant
from builder.compute.figures.sloped_formula import formula
from builder.compute.formulas.radio import free_space_loss, power_level, received_level
from builder.compute.geometry.clearances import control_antennas, point, video_antennas
from builder.compute.radio.link import Link
from builder.model.build import Build, Fitted


@dataclass(frozen=True, eq=False)
class StrongNeighbour:
    """The antenna of a receiver, the nearest one of the picture, the way between them (m) and the level
    that arrives (dBm), without any loss by polarisation.
    """

    antenna: Fitted
    sender: Fitted
    distance: float
    level: MaybeFigure


def _nearest(build: Build) -> tuple[Fitted, Fitted, float] | None:
    pairs = product(control_antennas(build), video_antennas(build))
    placed = [(a, b, point(a.use.at), point(b.use.at)) for a, b in pairs]
    ways = [(a, b, dist(p, q)) for a, b, p, q in placed if p is not None and q is not None]
    return min(ways, key=lambda w: w[2], default=None)


def strong_neighbour(build: Build, video: Link, control: Link) -> StrongNeighbour | None:
    """The picture at the control receiver's antenna; None without a place of both antennas."""
    nearest = _nearest(build)
    if nearest is None:
        return None
    antenna, sender, way = nearest
    key = f"{build.name}/radio/beside"
    distance = constant(f"{key}/distance", "Way between both antennas", way, "m")
    label = "Loss from antenna to antenna"
    loss = apply(f"{key}/loss", label, formula(free_space_loss), video.frequency, distance)
    none = constant(f"{key}/polarisation", "Loss by polarisation that is counted on", 0.0, "dB")
    sent = apply(f"{key}/sent", "Radiated level", formula(power_level), video.radiated)
    arriving = sent, loss, none, control.gain_there
    level = apply(f"{key}/level", "Picture at the receiver", formula(received_level), *arriving)
    return StrongNeighbour(antenna, sender, way, level)
