"""Motor screws or propeller nuts that nothing keeps from turning.

Checks: screws of metal into the base of a motor have thread lock or hold by themselves (`locking`). A frame
of plastic grips their heads. Plastic screws are left out. Nuts that hold propellers hold by
themselves.
Why: motors shake. A screw or nut that turns out of its thread loses the motor or the propeller in the air.
Example: steel screws through carbon arms with `lock: no`.
Mend: put medium thread lock on the threads of the screws. Take nuts with a ring of nylon.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.plastics import is_plastic
from builder.compute.geometry.screws import ScrewRow, thread_diameter
from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Build, FittedAs, ScrewPlace
from builder.model.kinds import Frame, Hardware, Propeller
from builder.rules.fit.nut_unlike_propeller import is_nut
from builder.rules.fit.screws_unlike_frame import into_base
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.REMARK
SIGNAL = Signal.WARNING
_ON_THREADS = "Put medium thread lock on their threads, and keep it off plastic."
_TAKE_LOCKING = "Take nuts with a ring of nylon, and fit new ones once they turn by hand."


def _unlocked(build: Build, place: ScrewPlace) -> Iterator[Outcome]:
    """Screws of metal without thread lock: a frame of plastic holds them all the same."""
    frames: tuple[FittedAs[Frame], ...] = build.of_kind(Frame)
    unknown = [f for f in frames if f.part.material is None]
    if any(is_plastic(f.part.material or "") for f in frames):
        yield Judged()
    elif unknown:
        yield NotJudged(f"material of {unknown[0].key}", unknown[0].shelf_where)
    else:
        text = f"Nothing keeps the screws at {place.screw.place} from turning."
        yield Found(text, _ON_THREADS, place.where.at("lock"))


def _screws(build: Build, place: ScrewPlace, row: ScrewRow) -> Iterator[Outcome]:
    part = place.part
    if not into_base(build, row) or not isinstance(part, Hardware):
        return
    if place.screw.lock or part.locking:
        yield Judged()
    elif part.material is None:
        yield NotJudged(f"material of {place.screw.use}", build.parts[place.screw.use].shelf_where)
    elif is_plastic(part.material):
        return
    elif place.screw.lock is None:
        missing = f"whether thread lock goes on the screws at {place.screw.place}"
        yield NotJudged(missing, place.where)
    else:
        yield from _unlocked(build, place)


def _nuts(build: Build, propeller: FittedAs[Propeller]) -> Iterator[Outcome]:
    across = thread_diameter(propeller.part.nut)
    for nut in build.of_kind(Hardware):
        if across is None or not is_nut(nut) or thread_diameter(nut.part.thread) != across:
            continue
        if nut.part.locking is None:
            yield NotJudged(f"whether {nut.key} holds by itself (locking)", nut.shelf_where)
        elif nut.part.locking:
            yield Judged()
        else:
            text = f"Nothing keeps {nut.key} on {propeller.key} from turning."
            yield Found(text, _TAKE_LOCKING, nut.shelf_where.at("locking"))


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for place, row in zip(build.screws, case.results.screws, strict=True):
        yield from _screws(build, place, row)
    for propeller in build.of_kind(Propeller):
        yield from _nuts(build, propeller)
