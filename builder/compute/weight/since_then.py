"""What happened to an aircraft after the day on which it was weighed: repairs, parts fitted since,
and changes of which nobody noted what they weigh.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from builder.compute.figures.figure import MaybeFigure, leaf
from builder.compute.money.history import changes_after
from builder.compute.weight.mass_lines import MassLine
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.source.build_log import Change, Incident, Maintenance

CHANGE_SPREAD = assumed("weight and size/scale-change")


@dataclass(frozen=True, eq=False)
class Since:
    """`grams` are to be added to an older reading, `words` say for what; `added` are keys of rows
    that were not there yet. `unsure` are changes that may have changed the weight, or not.
    """

    grams: tuple[MaybeFigure, ...] = ()
    words: tuple[str, ...] = ()
    added: frozenset[str] = frozenset()
    unsure: tuple[str, ...] = ()


def _of_change(
    build: Build, i: int, change: Change, lines: Mapping[str, MassLine], have: set[str]
) -> list[MaybeFigure]:
    """What a line of the change log did to the weight: as it says, else the parts fitted that day."""
    if change.mass is None:
        return [lines[k].line for k in change.added if k in lines and k not in have]
    own = change.mass.spread if change.mass.spread is not None else CHANGE_SPREAD
    label = f"Change of weight of {change.date.isoformat()}"
    where, key = build.where("changes", i, "mass"), f"{build.name}/changes/{i + 1}/mass"
    return [leaf(key, label, change.mass.value, "kg", own=own, basis="measured", where=where)]


def since(build: Build, day: date | None, lines: Mapping[str, MassLine]) -> Since:
    """All that is written of the time after a day; nothing where the day was not noted."""
    if day is None:
        return Since()
    mended = changes_after(build, day)
    grams: list[MaybeFigure] = list(mended)
    words = [f.label for f in mended]
    unsure: list[str] = []
    added: set[str] = set()
    for i, change in enumerate(build.source.changes):
        said = f"{change.date.isoformat()}: {change.text}"
        if change.date > day and (change.added or change.mass is not None):
            grams += _of_change(build, i, change, lines, added)
            added.update(change.added)
            words.append(said)
        elif change.date > day:
            unsure.append(said)
    events: tuple[Incident | Maintenance, ...] = build.source.incidents
    for event in (*events, *build.source.maintenance):
        if event.date > day and event.replaced and event.mass is None:
            unsure.append(f"{event.date.isoformat()}: {event.what}")
    return Since(tuple(grams), tuple(words), frozenset(added), tuple(sorted(unsure)))
