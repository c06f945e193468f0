"""A reading of the scale from before the aircraft was what it is.

Checks: the day of each reading. A battery that lay on the scale was bought by then. The reading is not
older than all else in the log by half a year. A variant is weighed after the changes of its base
that it takes over. What each later change did to the weight is said (`mass` or `added`).
Why: such a reading is of another aircraft. Margins to the limits of the law rest on it.
Example: a variant weighed a month before its base got a buzzer.
Mend: correct the day, or weigh it again.
Source: the dates themselves
"""

from collections.abc import Iterator
from datetime import date

from builder.compute.weight.reconcile import PARTS
from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.source.build_log import Change, Weighed
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome

SEVERITY = Severity.REMARK
_ALONE = assumed("weight and size/weighed-alone")
_DAY = 86_400
_SLIP = "One of the two is a slip: check both, and weigh again if in doubt."


def _at(build: Build, i: int) -> Where:
    return build.where("weighed", i, "date")


def _bought(build: Build, i: int, weighed: Weighed, day: date) -> Iterator[Outcome]:
    """The batteries that lay on the scale were there."""
    for name in dict.fromkeys((weighed.what, *weighed.parts)):
        pack = build.packs.get(name)
        if pack is None or pack.part.bought is None:
            continue
        bought = pack.part.bought
        if any(f.pack == name and f.date < bought for f in build.source.flights):
            continue  # data/dates-disagree says that it flew before
        if bought <= day:
            yield Judged()
            continue
        text = f"Weighed on {day} with battery {name}, bought on {bought}."
        yield clash(text, _SLIP, _at(build, i), pack.shelf_where.at("bought"))


def _logged(build: Build, but: int) -> list[tuple[date, Where]]:
    """The other days of the log, and where each is said."""
    source = build.source
    days: list[tuple[str, int, date | None]] = []
    days += [("weighed", i, w.date) for i, w in enumerate(source.weighed) if i != but]
    days += [("flights", i, f.date) for i, f in enumerate(source.flights)]
    days += [("changes", i, c.date) for i, c in enumerate(source.changes)]
    days += [("as_built", i, r.date) for i, r in enumerate(source.as_built)]
    days += [("incidents", i, n.date) for i, n in enumerate(source.incidents)]
    days += [("maintenance", i, m.date) for i, m in enumerate(source.maintenance)]
    return [(day, build.where(what, i, "date")) for what, i, day in days if day is not None]


def _alone(build: Build, i: int, day: date) -> Iterator[Outcome]:
    """A reading long before all else of the log has a slip in its year."""
    others = _logged(build, i)
    if not others:
        return
    next_day, where = min(others, key=lambda line: line[0])
    if (next_day - day).days * _DAY <= _ALONE:
        yield Judged()
        return
    text = f"Weighed on {day}; all else in the log is of {next_day} or later."
    yield clash(text, _SLIP, _at(build, i), where)


def _taken_over(build: Build, base: Build, change: Change) -> bool:
    """Whether a variant has what its base was changed to: not where it fits another part instead."""
    mine, its = build.parts, base.parts
    kept = [k for k in change.added if k in mine and k in its and mine[k].shelf == its[k].shelf]
    return bool(kept) or not change.added


def _of_bases(build: Build, i: int, day: date) -> Iterator[Outcome]:
    base = build.base
    while base is not None:
        for n, change in enumerate(base.source.changes):
            where = base.where("changes", n)
            if change.date <= day or not _taken_over(build, base, change):
                yield Judged()
            elif change.added or change.mass is not None:
                text = f"Weighed on {day}; {base.name} was changed on {change.date}."
                yield clash(text, "Weigh it again.", _at(build, i), where)
            else:
                yield NotJudged(f"what the change of {change.date} did to the weight", where)
        base = base.base


def _not_told(case: Case) -> Iterator[Outcome]:
    """Later changes and repairs of the build's own, of which nobody noted what they weigh."""
    for reading in case.results.mass.readings:
        for said in reading.unsure:
            day = said.partition(":")[0]
            missing = f"what the change of {day} did to the weight"
            yield NotJudged(missing, reading.weighed.where)


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for i, weighed in enumerate(build.source.weighed):
        day = weighed.date
        if day is None:
            continue
        yield from _bought(build, i, weighed, day)
        yield from _alone(build, i, day)
        if weighed.what != PARTS:
            yield from _of_bases(build, i, day)
    yield from _not_told(case)
