"""A part weighs what its kind hardly ever weighs.

Checks: the weight of each part that flies and of each pack against wide bounds of its kind.
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

SEVERITY = Severity.REMARK
SIGNAL = None

# Lightest and heaviest, g, of a piece as it is sold for small electric multirotors: common practice, no source. Wide on
# purpose, about three times beyond what is met; a kind that is not named may weigh anything.
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


def _outcome(part: Part, where: Where) -> Outcome | None:
    bounds = _BOUNDS.get(part.kind)
    mass = part.mass.value if part.mass is not None else None
    if bounds is None or mass is None:
        return None
    grams = 1000 * mass
    if bounds[0] <= grams <= bounds[1]:
        return Judged()
    much = f"more than {bounds[1]:g}" if grams > bounds[1] else f"less than {bounds[0]:g}"
    kind = part.kind.replace("-", " ")
    text = f"{part.name} weighs {grams:g} g, {much} g, which is unusual for one {kind}."
    return Found(
        text, "Check the unit and the point of its mass, and whether it is that of one piece.", where.at("mass")
    )


def check(case: Case) -> Iterator[Outcome]:
    """Each entry of the shelf that the build uses, once."""
    used: dict[str, tuple[Part, Where]] = {f.shelf: (f.part, f.shelf_where) for f in case.build.parts.values()}
    used.update({p.shelf: (p.part, p.shelf_where) for p in case.build.packs.values()})
    for part, where in used.values():
        outcome = _outcome(part, where)
        if outcome is not None:
            yield outcome
