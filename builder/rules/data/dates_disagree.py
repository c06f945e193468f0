"""Dates and counts of a log that cannot be right together.

Checks: the day of revision against the newest change. Flights are compared with the day on which
their battery was bought and with its cycles. A build that is only planned has no flights and
weighings. The flights that a maintenance names are compared with those in the log before it, and grow
from one to the next. Upkeep before the first flight of the log says so (`flights: 0`). What was
flown, weighed, read, fixed or bought, or a price that was seen, is not later than the day from which
ages count.
Why: who copies the build trusts the log, and the ageing of a battery counts from these days.
Example: a flight on a battery a month before it was bought.
Mend: correct the day that is a slip.
Source: the dates themselves
"""

from collections.abc import Iterator, Sequence
from datetime import date
from itertools import pairwise

from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.model.build import Build, FittedPack
from builder.rounding import counted
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, Outcome

SEVERITY = Severity.REMARK
_SLIP = "One of the two is a slip: check both."


def _revised(build: Build) -> Iterator[Outcome]:
    revised, changes = build.source.revised, build.source.changes
    if revised is None or not changes:
        return
    last = max(range(len(changes)), key=lambda i: changes[i].date)
    newest = changes[last].date
    if newest <= revised:
        yield Judged()
        return
    text = f"It was revised on {revised}, and changed on {newest}."
    yield clash(text, _SLIP, build.where("revised"), build.where("changes", last, "date"))


def _bought(build: Build, pack: FittedPack) -> Iterator[Outcome]:
    flown = [(i, f) for i, f in enumerate(build.source.flights) if f.pack == pack.key]
    bought = pack.part.bought
    for i, flight in flown:
        if bought is None or flight.date >= bought:
            continue
        text = f"Flown on {flight.date} with battery {pack.key}, bought on {bought}."
        at = build.where("flights", i, "date")
        yield clash(text, _SLIP, at, pack.shelf_where.at("bought"))
        return
    if bought is not None and flown:
        yield Judged()
    cycles = pack.part.cycles
    if cycles is None or not flown:
        return
    if len(flown) <= cycles * max(1, pack.use.count):
        yield Judged()
        return
    charged, flights = counted(cycles, "time"), counted(len(flown), "flight")
    text = f"Battery {pack.key} was charged {charged}, and the log has {flights} on it."
    at = pack.shelf_where.at("cycles")
    yield clash(text, "Count its charges again.", at, build.where("flights", flown[0][0]))


def _planned(build: Build) -> Iterator[Outcome]:
    source = build.source
    if source.status != "planned":
        return
    for what, many in (("flights", len(source.flights)), ("weighed", len(source.weighed))):
        if many:
            text = f"It is only planned, and has {counted(many, 'entry', 'entries')} under {what}."
            hint = "Correct the status, or take them out."
            yield clash(text, hint, build.where("status"), build.where(what))
        else:
            yield Judged()


def _maintained(build: Build) -> Iterator[Outcome]:
    flights = build.source.flights
    for i, done in enumerate(build.source.maintenance):
        before = sum(f.date < done.date for f in flights)
        if done.flights is None:
            continue
        if before <= done.flights:
            yield Judged()
            continue
        text = f"Maintained after {done.flights} flights; the log has {before} before {done.date}."
        at = build.where("maintenance", i, "flights")
        yield clash(text, _SLIP, at, build.where("flights"))


def _before_flying(build: Build) -> Iterator[Outcome]:
    """Upkeep follows the first flight, but for what is done on an aircraft that has not flown."""
    source = build.source
    if not source.flights:
        return
    first = min(range(len(source.flights)), key=lambda i: source.flights[i].date)
    flown = source.flights[first].date
    for i, done in enumerate(source.maintenance):
        if done.date >= flown or done.flights == 0:
            yield Judged()
            continue
        text = f"Maintained on {done.date}; the first flight of the log is of {flown}."
        hint = "Correct the day. If it had not flown yet, write 'flights: 0'."
        at = build.where("maintenance", i, "date")
        yield clash(text, hint, at, build.where("flights", first, "date"))


def _counted(build: Build) -> Iterator[Outcome]:
    """From one maintenance to the next, flights are added."""
    done = [(i, m.date, m.flights) for i, m in enumerate(build.source.maintenance)]
    known = [(i, day, many) for i, day, many in done if many is not None]
    known.sort(key=lambda line: line[1])
    for (first, _, before), (later, day, after) in pairwise(known):
        if after >= before:
            yield Judged()
            continue
        text = f"Maintained after {before} flights, and on {day}, later, after {after}."
        at = build.where("maintenance", later, "flights")
        yield clash(text, _SLIP, at, build.where("maintenance", first, "flights"))


def _days(build: Build) -> Iterator[tuple[date, str, Where]]:
    """Each day on which something was done to this aircraft or its parts, what it is, and where."""
    source = build.source
    logs: tuple[tuple[str, Sequence[date | None]], ...] = (
        ("flights", [f.date for f in source.flights]),
        ("weighed", [w.date for w in source.weighed]),
        ("as_built", [r.date for r in source.as_built]),
        ("incidents", [n.date for n in source.incidents]),
        ("maintenance", [m.date for m in source.maintenance]),
    )
    for what, days in logs:
        for i, day in enumerate(days):
            if day is not None:
                yield day, f"An entry under {what}", build.where(what, i, "date")
    for pack in build.packs.values():
        if pack.part.bought is not None:
            yield pack.part.bought, f"Buying battery {pack.key}", pack.shelf_where.at("bought")
    for fitted in build.parts.values():
        price = fitted.part.price
        if price is not None and price.seen is not None:
            yield price.seen, f"The price of {fitted.key}", fitted.shelf_where.at("price", "seen")


def _yet_to_come(build: Build) -> Iterator[Outcome]:
    """Nothing was done on a day that has not come."""
    today = build.site.as_of
    days = list(_days(build)) if today is not None else []
    if today is None or not days:
        return
    newest, what, where = max(days, key=lambda line: line[0])
    if newest <= today:
        yield Judged()
        return
    text = f"{what} is of {newest}, and ages count from {today}."
    hint = "Correct the day, or set as_of in site.yaml to a later one."
    yield clash(text, hint, where, Where("site.yaml", ("as_of",)))


def check(case: Case) -> Iterator[Outcome]:
    yield from _revised(case.build)
    yield from _planned(case.build)
    yield from _maintained(case.build)
    yield from _before_flying(case.build)
    yield from _counted(case.build)
    yield from _yet_to_come(case.build)
    for pack in case.build.packs.values():
        yield from _bought(case.build, pack)
