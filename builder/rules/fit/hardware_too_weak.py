"""Screws or nuts of a material that does not hold.

Checks: the material of screws that go into a motor or hold a propeller, and of nuts on a propeller.
Nylon and other plastics, rubber and wood do not hold there. Brass does not hold on a propeller.
Why: the screw shears at full throttle, and a propeller or a motor leaves the aircraft.
Example: nylon screws under the motors.
Mend: take steel, or what the motor's maker names.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.model.build import Build, Fitted
from builder.model.kinds import Hardware, Propeller
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_WEAK = ("nylon", "plastic", "silicone", "rubber", "polyolefin", "wood")


def _holds(fitted: Fitted, what: str, material: str | None, where: Where) -> Outcome:
    at = fitted.shelf_where.at("material")
    if material is None:
        return NotJudged(f"material of {fitted.key}, which holds {what}", fitted.shelf_where)
    if material.startswith("other:"):
        return NotJudged(f"whether {material.removeprefix('other:').strip()} holds {what}", at)
    if material not in _WEAK:
        return Judged()
    text = f"{fitted.key} holds {what} and is of {material}."
    return Found(text, "Take steel, or what the maker names.", where, see=(at,))


def _nuts(build: Build) -> Iterator[tuple[Fitted, str | None]]:
    """Nuts of the thread that a propeller names."""
    threads = {f.part.nut.casefold() for f in build.of_kind(Propeller) if f.part.nut is not None}
    for fitted in build.of_kind(Hardware):
        part = fitted.part
        if part.thread is not None and part.thread.casefold() in threads and part.length is None:
            yield fitted, part.material


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    propellers = {f.key for f in build.of_kind(Propeller)}
    for place, row in zip(build.screws, case.results.screws, strict=True):
        fitted, part = build.parts.get(place.screw.use), place.part
        if fitted is None or not isinstance(part, Hardware) or not row.motor:
            continue
        hub = any(
            what.casefold().split()[0] in ("propeller", *propellers) for what, _ in row.through
        )
        what = "a propeller" if hub else "a motor"
        yield _holds(fitted, what, part.material, place.where.at("use"))
    for nut, material in _nuts(build):
        yield _holds(nut, "a propeller", material, nut.where)
