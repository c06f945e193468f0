"""How far a part is from what carries the current of one motor. In m."""

from math import dist

from builder.compute.geometry.clearances import Between, motor_places, place_of, point, to_line
from builder.model.build import Build, Fitted


def from_motor_leads(build: Build, what: Fitted) -> Between | None:
    """The nearest motor, or lead of one, to a part; None where no two places are given."""
    at = point(what.use.at)
    if at is None:
        return None
    found = [
        Between(what.key, f"motor {number}", dist(at, middle), what.where)
        for number, middle in motor_places(build).items()
    ]
    for run in build.wires:
        if build.pad(run.start).role != "phase":
            continue
        a, b = place_of(build, run.start), place_of(build, run.end)
        if a is not None and b is not None:
            name = f"{run.start} to {run.end}"
            found.append(Between(what.key, name, to_line(at, a, b), what.where))
    return min(found, key=lambda f: f.distance, default=None)
