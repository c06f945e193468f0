"""One figure on two bases that lie far apart.

Checks: masses and resistances that a maker states and somebody measured, and what the pieces of a
build weighed against the shelf. One mass is at most 1.5 times the other, one resistance at most
three times.
Why: the measured one wins, and a slip of the digits or the point goes into every sum.
Example: a camera of 2.6 g by its maker and 26 g measured.
Mend: measure it again, and correct the one that is wrong.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Fitted
from builder.model.source.part import Part
from builder.model.values.quantities import Quantity
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK
_APART = assumed("statements/bases-apart")
_OHMS_APART = assumed("statements/resistances-apart")
_UNITS = {"mass": "kg", "resistance": "ohm"}


def _field(key: str, part: Part, name: str, at: Where) -> Iterator[Outcome]:
    both = getattr(part, name, None)
    said, read = getattr(both, "maker", None), getattr(both, "measured", None)
    if not isinstance(said, Quantity) or not isinstance(read, Quantity):
        return
    small, large = sorted((said.value, read.value))
    most = _OHMS_APART if name == "resistance" else _APART
    if large <= most * small:
        yield Judged()
        return
    unit = _UNITS[name]
    first, second = given(said.value, unit), given(read.value, unit)
    text = say(
        "{} of {} is {} by its maker, and {} measured.", name.capitalize(), key, first, second
    )
    yield clash(text, "Measure it again.", at.at(name, "measured"), at.at(name, "maker"))


def _pieces(fitted: Fitted) -> Iterator[Outcome]:
    """Pieces that were weighed one by one, against what the shelf has for one."""
    part, at = fitted.part, fitted.shelf_where
    if part.mass is None or not part.mass.value:
        return
    shelf = part.mass.value
    for i, reading in enumerate(fitted.use.each_weighed):
        small, large = sorted((reading.value, shelf))
        if large <= _APART * small:
            yield Judged()
            continue
        read, said = given(reading.value, "kg"), given(shelf, "kg", f"shelf/{fitted.shelf}/mass")
        text = say("A piece of {} weighed {}, and the shelf has {}.", fitted.key, read, said)
        yield clash(text, "Weigh it again.", fitted.where.at("each_weighed", i), at.at("mass"))


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    placed = [(f.key, f.part, f.shelf_where) for f in build.parts.values()]
    packs: list[tuple[str, Part, Where]] = [
        (p.key, p.part, p.shelf_where) for p in build.packs.values()
    ]
    for key, part, at in (*placed, *packs):
        for name in _UNITS:
            yield from _field(key, part, name, at)
    for fitted in build.parts.values():
        yield from _pieces(fitted)
