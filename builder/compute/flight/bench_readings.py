"""Readings of a bench table in order of thrust; several rows of one thrust are one."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

from builder.diagnostics.where import Where
from builder.model.kinds.drive import BenchRow, BenchTable
from builder.model.values.quantities import Quantity


@dataclass(frozen=True)
class BenchReading:
    """Readings at one thrust (SI); several rows of the same thrust are one, with the mean of their
    readings.
    """

    thrust: float
    current: float
    volts: float
    throttle: float | None
    speed: float | None
    label: str
    where: Where


def _mean(values: list[float]) -> float:
    return fsum(values) / len(values)


def _optional(values: Sequence[Quantity | None]) -> float | None:
    """The mean of what every row says; None where one says nothing."""
    given = [v.value for v in values if v is not None]
    return _mean(given) if len(given) == len(values) else None


def readings_of_table(table: BenchTable, at: Where) -> tuple[BenchReading, ...]:
    """The readings of a table, thrust rising."""
    groups: dict[float, list[tuple[int, BenchRow]]] = {}
    for i, row in enumerate(table.rows):
        groups.setdefault(row.thrust.value, []).append((i, row))
    out = []
    for thrust, alike in sorted(groups.items()):
        numbers, rows = [i + 1 for i, _ in alike], [r for _, r in alike]
        current = _mean([r.current.value for r in rows])
        volts = _mean([(r.volts or table.volts).value for r in rows])
        throttle, speed = _optional([r.throttle for r in rows]), _optional([r.rpm for r in rows])
        place = at.at("rows", alike[0][0])
        label = f"Bench {_row_words(numbers)}"
        out.append(BenchReading(thrust, current, volts, throttle, speed, label, place))
    return tuple(out)


def _row_words(numbers: list[int]) -> str:
    """Which rows of a table: 'row 3', 'rows 3, 4 together'."""
    if len(numbers) == 1:
        return f"row {numbers[0]}"
    return f"rows {', '.join(map(str, numbers))} together"
