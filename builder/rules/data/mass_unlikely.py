"""A part weighs what its kind hardly ever weighs.

Checks: the weight of each part that flies and of each battery against wide bounds of its kind.
Why: a slip of the unit or the point spoils the total, the balance and the flight time.
Example: a motor of 4 kg, which was 4 g.
Mend: check the unit and the point; a weight that is right may stay.
Source: common practice, no source
"""

from collections.abc import Iterator, Mapping

from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.model.source.part import Part
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK
SIGNAL = None

# Lightest and heaviest, g, of a piece as it is sold for small electric multirotors: common
# practice, no source. Wide on purpose, about three times beyond what is met; a kind that is not
# named may weigh anything.
_BOUNDS: Mapping[str, tuple[float, float]] = {
    "frame": (1, 3000),
    "motor": (0.4, 500),
    "propeller": (0.05, 150),
    "speed-controller": (0.3, 300),
    "flight-controller": (0.3, 150),
    "combined-board": (0.5, 200),
    "camera": (0.3, 1000),
    "video-transmitter": (0.3, 250),
    "receiver": (0.1, 100),
    "antenna": (0.1, 150),
    "pack": (2, 5000),
    "capacitor": (0.1, 100),
    "satellite-receiver": (0.5, 150),
    "compass": (0.3, 100),
    "buzzer": (0.2, 100),
}


def _outcome(shelf: str, part: Part, where: Where) -> Outcome | None:
    bounds = _BOUNDS.get(part.kind)
    mass = part.mass.value if part.mass is not None else None
    if bounds is None or mass is None:
        return None
    grams = 1000 * mass
    if bounds[0] <= grams <= bounds[1]:
        return Judged()
    bound = given(bounds[1] / 1000, "kg") if grams > bounds[1] else given(bounds[0] / 1000, "kg")
    much = say("{} than {}", "more" if grams > bounds[1] else "less", bound)
    weight = given(mass, "kg", f"shelf/{shelf}/mass")
    text = say(
        "{} weighs {}, {}, which is unusual for one {}.",
        part.name,
        weight,
        much,
        part.kind.replace("-", " "),
    )
    return Found(
        text,
        "Check the unit and the point of its mass, and whether it is that of one piece.",
        where.at("mass"),
    )


def check(case: Case) -> Iterator[Outcome]:
    """Each entry of the shelf that the build uses, once."""
    used: dict[str, tuple[Part, Where]] = {
        f.shelf: (f.part, f.shelf_where) for f in case.build.parts.values()
    }
    used.update({p.shelf: (p.part, p.shelf_where) for p in case.build.packs.values()})
    for shelf, (part, where) in used.items():
        outcome = _outcome(shelf, part, where)
        if outcome is not None:
            yield outcome
