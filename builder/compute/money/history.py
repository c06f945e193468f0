"""What broke and what was done since: each with what it cost and what it did to the weight."""

from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from builder.compute.figures.figure import Figure, MaybeFigure, leaf
from builder.compute.figures.sums import total
from builder.compute.money.price_figures import price_figure
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.source.build_log import Incident, Maintenance
from builder.model.source.part import Price
from builder.model.values.measures import Money

_CHANGE_SPREAD = assumed("weight and size/scale-change")


@dataclass(frozen=True, eq=False)
class Event:
    """One line of the history. `broke` sets an incident apart; `mass` is what it did to the weight,
    None where unsaid.

    `replaced` are names as the builder wrote them; `flights` counts the flights until then.
    """

    key: str
    on: date
    broke: bool
    what: str
    note: str
    replaced: tuple[str, ...]
    flights: int | None
    cost: MaybeFigure | None
    mass: Figure | None


@dataclass(frozen=True, eq=False)
class History:
    """All events by date, what they cost together, and what they did to the weight together."""

    events: tuple[Event, ...]
    spent: Figure
    mass: Figure


def _event(build: Build, entry: Incident | Maintenance, kind: str, i: int) -> Event:
    key, where = f"{build.name}/{kind}/{i + 1}", build.where(kind, i)
    label = f"{'Repair' if kind == 'incidents' else 'Upkeep'} of {entry.date.isoformat()}"
    mass = None
    if entry.mass is not None:
        usual = _CHANGE_SPREAD if entry.mass.value else 0.0
        own = entry.mass.spread if entry.mass.spread is not None else usual
        change = f"{label}, change of weight"
        mass = leaf(
            f"{key}/mass",
            change,
            entry.mass.value,
            "kg",
            own=own,
            basis="measured",
            where=where.at("mass"),
        )
    flights = entry.flights if isinstance(entry, Maintenance) else None
    cost = (
        _cost(build, f"{key}/price", label, entry.cost, i, kind) if entry.cost is not None else None
    )
    broke = kind == "incidents"
    return Event(
        key, entry.date, broke, entry.what, entry.note or "", entry.replaced, flights, cost, mass
    )


def _cost(build: Build, key: str, label: str, cost: Money, i: int, kind: str) -> MaybeFigure:
    return price_figure(build, key, label, Price(each=cost), 1, build.where(kind, i, "cost"))


def history(build: Build) -> History:
    """The build's incidents and maintenance, oldest first."""
    events = [_event(build, e, "incidents", i) for i, e in enumerate(build.source.incidents)]
    events += [_event(build, e, "maintenance", i) for i, e in enumerate(build.source.maintenance)]
    costs = [e.cost for e in events if e.cost is not None]
    key, currency = f"{build.name}/history", build.site.currency
    spent = total(f"{key}/spent", "Repairs and upkeep", currency, costs)
    masses = [e.mass for e in events if e.mass]
    mass = total(f"{key}/mass", "Change of weight by repairs", "kg", masses)
    oldest_first = sorted(events, key=lambda e: (e.on, not e.broke))
    return History(tuple(oldest_first), spent, mass)


@lru_cache(maxsize=2)  # asked for every reading of the scale
def _history_of(build: Build) -> History:
    return history(build)


def changes_after(build: Build, day: date | None) -> tuple[Figure, ...]:
    """What repairs did to the weight after a day; nothing where nobody said on which day it was
    weighed.
    """
    if day is None:
        return ()
    return tuple(
        e.mass
        for e in _history_of(build).events
        if e.mass is not None and e.mass.value and e.on > day
    )
