"""Findings that the builder leaves as they are: which of them an `accept` covers, and which accepts
cover nothing any more.

An accept names rule and place, and holds only up to the figure that it names.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from builder.diagnostics.finding import Finding, Severity
from builder.diagnostics.sentence import Amount, amounts_of
from builder.diagnostics.where import Where
from builder.model.build import Build
from builder.model.source.build_source import Accept
from builder.model.values.quantities import parse_any
from builder.model.values.units import DIMENSIONS
from builder.rules.places import names_of_place

_EXACT = 1e-3  # share: a figure is copied from the finding as it was rounded there
_WRITTEN = {"°": " deg"}  # a unit that stands right behind its number


@dataclass(frozen=True)
class Accepted:
    """A finding that the builder accepted, with the reason."""

    finding: Finding
    reason: str


def _is_there(build: Build, accept: Accept, finding: Finding) -> bool:
    places = [w for w in (finding.where, *finding.see) if w is not None]
    return any(accept.at.strip("/") in names_of_place(build, where) for where in places)


def _figure(accept: Accept, finding: Finding) -> Amount | None:
    """The finding's first figure of the dimension that is accepted; its very first where none is."""
    bound = accept.up_to or accept.down_to
    amounts = amounts_of(finding.message)
    if bound is None:
        return amounts[0] if amounts else None
    unit = DIMENSIONS[bound.dimension].si
    return next((a for a in amounts if a.unit in (unit, _ALSO.get(unit))), None)


_ALSO = {"ohm": "Ω", "rad/s/V": "rad/(V.s)"}


def _less_is_worse(finding: Finding, figure: Amount) -> bool | None:
    """Whether the finding is that there is too little: its figure is below the next one of its kind,
    which it is held against. None where it names no other.
    """
    amounts = amounts_of(finding.message)
    others = [a for a in amounts if a is not figure and a.unit == figure.unit]
    return figure.value < others[0].value if others else None


def _word(accept: Accept, finding: Finding, figure: Amount) -> str:
    """The key by which this finding is accepted."""
    less = _less_is_worse(finding, figure)
    if less is None:
        return "down_to" if accept.down_to is not None else "up_to"
    return "down_to" if less else "up_to"


def _written(figure: Amount) -> str:
    """The figure as it is to be written: without 'at least', its unit as a source has it."""
    return "".join(_WRITTEN.get(letter, letter) for letter in replace(figure, prefix="").text)


def _holds(accept: Accept, finding: Finding) -> bool:
    figure = _figure(accept, finding)
    if accept.up_to is None and accept.down_to is None:
        return figure is None
    if figure is None:
        return False
    word = _word(accept, finding, figure)
    if getattr(accept, word) is None:
        return False
    above = accept.up_to is not None and figure.value > accept.up_to.value + _room(figure)
    below = accept.down_to is not None and figure.value < accept.down_to.value - _room(figure)
    return not above and not below


def _room(figure: Amount) -> float:
    """As much as the figure was rounded by where it was shown."""
    try:
        half = (parse_any(_written(figure)).step or 0.0) / 2
    except ValueError:
        half = 0.0
    return max(_EXACT * abs(figure.value), half)


def _stale(build: Build, i: int, accept: Accept, near: Sequence[Finding]) -> Finding:
    """An accept that covers nothing: what it would take to cover what is there."""
    where = build.where("accept", i)
    there = [f for f in near if _is_there(build, accept, f)]
    worse = next((f for f in there if amounts_of(f.message)), None)
    figure = _figure(accept, worse) if worse is not None else None
    if worse is not None and figure is not None:
        word = _word(accept, worse, figure)
        said = next((w for w in ("up_to", "down_to") if getattr(accept, w) is not None), None)
        at = where.at(said) if said is not None else where
        text = f"{accept.rule} at {accept.at} is accepted to another figure than {figure.text}."
        if said is not None and said != word:
            text = f"{accept.rule} at {accept.at} is accepted by {said}, and it grows worse the other way."
        hint = f"Fix it, or look at it again and write '{word}: {_written(figure)}'."
        return _remark(build, text, hint, at)
    if near and not there:
        text = f"The build accepts {accept.rule!r} at {accept.at!r}, and it is found elsewhere."
        cited = near[0].where
        steps = cited.path if cited is not None else ()
        place = "/".join(str(s + 1) if isinstance(s, int) else s for s in steps)
        hint = f"Look at it again; the place is now {place!r}."
        return _remark(build, text, hint, where.at("at"))
    text = f"The build accepts {accept.rule!r}, which no longer finds anything."
    return _remark(build, text, "Take the entry out of accept.", where)


def _remark(build: Build, text: str, hint: str, where: Where) -> Finding:
    return Finding("data/accepts-nothing", Severity.REMARK, text, hint, where, build.name)


def accept_findings(
    build: Build, found: Sequence[Finding]
) -> tuple[tuple[Accepted, ...], tuple[Finding, ...]]:
    """What is accepted, and a remark for each accept that covers nothing."""
    accepted: dict[Finding, str] = {}
    stale: list[Finding] = []
    for i, accept in enumerate(build.source.accept):
        near = [f for f in found if f.code == accept.rule]
        covered = [f for f in near if _is_there(build, accept, f) and _holds(accept, f)]
        accepted.update({f: accept.because for f in covered if f not in accepted})
        if not covered:
            stale.append(_stale(build, i, accept, near))
    return tuple(Accepted(f, reason) for f, reason in accepted.items()), tuple(stale)
