"""Thread lock on plastic.

Checks: each place of the screw list with thread lock: the material of its screws, and the frame under
screws that go into a motor.
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


def _frame(build: Build, place: ScrewPlace) -> Iterator[Outcome]:
    """Screws into a motor pass through the frame."""
    into = build.parts.get(place.screw.into or "")
    if into is None or not isinstance(into.part, Motor):
        return
    for frame in build.of_kind(Frame):
        if frame.part.material is None:
            yield NotJudged(
                f"material of {frame.key}, on which thread lock goes", frame.shelf_where
            )
        elif is_plastic(frame.part.material):
            text = f"Thread lock goes on {place.screw.place}, and {frame.key} is of {frame.part.material}."
            yield clash(text, _MEND, place.where.at("lock"), frame.shelf_where.at("material"))
        else:
            yield Judged()


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for place in build.screws:
        if not place.screw.lock:
            continue
        part = place.part
        fitted = build.parts.get(place.screw.use)
        if isinstance(part, Hardware) and fitted is not None and is_plastic(part.material or ""):
            text = f"Thread lock goes on {fitted.key}, which is of {part.material}."
            yield clash(text, _MEND, place.where.at("lock"), fitted.shelf_where.at("material"))
        else:
            yield from _frame(build, place)
