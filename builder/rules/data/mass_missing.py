"""A part that flies has no weight.

Checks: every part that flies, and every battery, has a mass on any basis.
Why: a total without it reads 'at least', and no limit can be said to be kept.
Example: a camera without mass.
Mend: weigh it, or write the maker's figure or an estimate.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Unknown
from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.REMARK
SIGNAL = None


def _where(case: Case, key: str) -> Where | None:
    fitted = case.build.parts.get(key)
    if fitted is not None:
        return fitted.shelf_where
    pack = case.build.packs.get(key.removeprefix("pack-"))
    return pack.shelf_where if pack is not None else None


def check(case: Case) -> Iterator[Outcome]:
    """Each line of the weight table."""
    mass = case.results.mass
    for line in (*mass.lines, *mass.payload, *mass.packs.values()):
        if isinstance(line.each, Unknown):
            text = f"{line.label} has no weight."
            yield Found(
                text, "Weigh it, or write the maker's figure: 'mass: 12 g'.", _where(case, line.key)
            )
        else:
            yield Judged()
