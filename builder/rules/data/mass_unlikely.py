"""A part weighs what its kind hardly ever weighs.

Checks: the weight of each part that flies and of each battery against wide bounds of its kind.
Why: a slip of the unit or the point spoils the total, the balance and the flight time.
Example: a motor of 4 kg, which was 4 g.
Mend: check the unit and the point; a weight that is right may stay.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.load.assumed import assumed_topic
from builder.model.source.part import Part
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK
SIGNAL = None

_BOUNDS = assumed_topic("weight of one part")  # a kind that is not named may weigh anything


def _outcome(shelf: str, part: Part, where: Where) -> Outcome | None:
    bounds = _BOUNDS.get(part.kind)
    mass = part.mass.value if part.mass is not None else None
    if bounds is None or mass is None:
        return None
    least, most = bounds
    if least <= mass <= most:
        return Judged()
    much = say("less than {}", given(least, "kg"))
    if mass > most:
        much = say("more than {}", given(most, "kg"))
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
