"""A screw of another thread than what it goes into.

Checks: the thread of screws that go into a motor against the motor's own thread. Screws that go into a nut are
compared with the nuts of the build.
Why: it does not go in, or strips on the first turn.
Example: M3 screws for a motor with M2 holes.
Mend: take screws of the motor's thread.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.screws import ScrewRow, thread_diameter
from builder.diagnostics.finding import Severity
from builder.model.kinds import Hardware, Motor
from builder.rules.compare import EXACT
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT


def _nuts(case: Case, row: ScrewRow) -> Iterator[Outcome]:
    """A screw into a nut, against the nuts that are listed."""
    nuts = [f for f in case.build.of_kind(Hardware) if f.part.form == "nut"]
    threads = [(f, thread_diameter(f.part.thread)) for f in nuts]
    screw = thread_diameter(row.thread)
    if not nuts or "nut" not in row.into.casefold().split():
        return
    if screw is None or any(t is None for _, t in threads):
        lacks = row.name if screw is None else next(f.key for f, t in threads if t is None)
        yield NotJudged(f"thread of {lacks}", row.where)
    elif any(t is not None and abs(screw - t) <= EXACT for _, t in threads):
        yield Judged()
    else:
        listed = ", ".join(f"{f.key} has {f.part.thread}" for f, _ in threads)
        text = f"{row.name} at {row.place} is {row.thread}; {listed}."
        yield Found(text, "Take nuts of the screw's thread.", row.where, see=(nuts[0].where,))


def check(case: Case) -> Iterator[Outcome]:
    for row in case.results.screws:
        yield from _nuts(case, row)
        if not row.motor or row.into.casefold() not in (row.motor, "motor", "motors"):
            continue  # into the bell, or not into a motor at all: its thread is not the base's
        fitted = case.build.parts[row.motor]
        part = fitted.part
        own = part.thread if isinstance(part, Motor) else None
        if isinstance(part, Motor) and own is None and part.pattern is not None:
            own = part.pattern.thread
        screw, motor = thread_diameter(row.thread), thread_diameter(own)
        if screw is None or motor is None:
            where = row.where if screw is None else fitted.shelf_where
            yield NotJudged(f"thread of {row.name if screw is None else fitted.key}", where)
        elif abs(screw - motor) > EXACT:
            yield Found(
                f"{row.name} at {row.place} is {row.thread}; {row.motor} has {own}.",
                "Take screws of the motor's thread.",
                row.where,
                see=(fitted.shelf_where,),
            )
        else:
            yield Judged()
