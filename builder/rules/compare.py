"""Two statements about one quantity: how a rule holds them against each other and says both places."""

from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.rules.rule import Found, Judged, Outcome
from builder.rules.say import given, say

_SLIP = "One of the two is a slip: check both."
SAME = assumed("statements/rounded")
EXACT = 1e-9  # what is written alike differs by less


def clash(
    message: str, hint: str, where: Where, other: Where, severity: Severity | None = None
) -> Found:
    """A contradiction: it stands at what has to be changed, and shows the other place as well."""
    return Found(message, hint, where, severity=severity, see=(other,))


def alike(one: float, two: float, share: float = SAME) -> bool:
    """Whether two statements of one value agree as far as rounding lets them."""
    return abs(one - two) <= share * max(abs(one), abs(two))


def not_above(
    what: str, low: tuple[str, float | None], high: tuple[str, float | None], unit: str, at: Where
) -> Outcome | None:
    """The first of two fields of one group is not above the second; None where one is not said."""
    (name, small), (other, large) = low, high
    if small is None or large is None:
        return None
    if small <= large * (1 + EXACT):
        return Judged()
    text = say(
        "{}: {} {} is above {} {}.", what, name, given(small, unit), other, given(large, unit)
    )
    return clash(text, _SLIP, at.at(name), at.at(other), Severity.REMARK)


def same_value(
    what: str,
    one: tuple[str, float | None, Where],
    two: tuple[str, float | None, Where],
    unit: str,
    share: float = SAME,
) -> Outcome | None:
    """Two fields say one value; None where one of them is not said."""
    (name, first, where), (other, second, there) = one, two
    if first is None or second is None:
        return None
    if alike(first, second, share):
        return Judged()
    text = say(
        "{}: {} says {}, and {} says {}.",
        what,
        name,
        given(first, unit),
        other,
        given(second, unit),
    )
    return clash(text, _SLIP, where, there, Severity.REMARK)
