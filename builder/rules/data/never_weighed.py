"""An aircraft that flies was never weighed.

Checks: a build whose status is flying has a reading of the scale, dry or flying weight.
Why: a sum of the parts leaves out what nobody listed; only a scale sees all of it.
Example: status flying and no 'weighed'.
Mend: put it on a scale and write the reading with the scale's resolution.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.REMARK
SIGNAL = None


def check(case: Case) -> Iterator[Outcome]:
    """The build as a whole."""
    source = case.build.source
    if source.status != "flying":
        return
    if source.weighed:
        yield Judged()
        return
    hint = "Add it: 'weighed: [{what: dry, mass: 154.5 g, scale: 0.1 g}]'."
    yield Found(
        "This aircraft flies, and no reading of a scale is given.", hint, case.build.where("status")
    )
