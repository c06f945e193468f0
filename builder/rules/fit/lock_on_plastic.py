"""Thread lock on plastic.

Checks: each place of the screw list with thread lock: the frame under screws that go into a motor, and
the material of all other screws. Plastic screws in a motor are worse, and found by themselves.
Why: thread lock does not cure on plastic and cracks it; the arm or the screw breaks later, in the
air.
Example: locked motor screws in a frame of moulded nylon.
Mend: leave it out there: plastic grips the screw by itself. Look at the screws after each flying day.
Source: data sheets of anaerobic thread lock (from memory)
"""

from collections.abc import Iterator

from builder.compute.geometry.plastics import is_plastic
from builder.diagnostics.finding import Severity
from builder.model.build import Build, ScrewPlace
from builder.model.kinds import Frame, Hardware, Motor
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome

SEVERITY = Severity.REMARK
_MEND = "Leave the thread lock out there."


def _into_motor(build: Build, place: ScrewPlace) -> bool:
    into = build.parts.get(place.screw.into or "")
    return into is not None and isinstance(into.part, Motor)


def _frame(build: Build, place: ScrewPlace) -> Iterator[Outcome]:
    """Screws into a motor pass through the frame."""
    at = place.where.at("lock")
    for frame in build.of_kind(Frame):
        material = frame.part.material
        if material is None:
            yield NotJudged(
                f"material of {frame.key}, on which thread lock goes", frame.shelf_where
            )
        elif is_plastic(material):
            text = f"Thread lock goes on {place.screw.place}, and {frame.key} is of {material}."
            yield clash(text, _MEND, at, frame.shelf_where.at("material"))
        else:
            yield Judged()


def _screws(build: Build, place: ScrewPlace) -> Iterator[Outcome]:
    fitted, part = build.parts.get(place.screw.use), place.part
    if fitted is None or not isinstance(part, Hardware) or not is_plastic(part.material or ""):
        return
    text = f"Thread lock goes on {fitted.key}, which is of {part.material}."
    yield clash(text, _MEND, place.where.at("lock"), fitted.shelf_where.at("material"))


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for place in build.screws:
        if place.screw.lock:
            look = _frame if _into_motor(build, place) else _screws
            yield from look(build, place)
