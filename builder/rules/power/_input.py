"""What feeds a rail's converter: another rail of its board, what its board is fed from, or the
battery.
"""

from dataclasses import dataclass

from builder.compute.circuit.rails import RailRow
from builder.rules.rule import Case


@dataclass(frozen=True)
class Fed:
    """Lowest, nominal and highest volts at the input, and from what."""

    lowest: float
    nominal: float
    highest: float
    source: str


def input_of(case: Case, row: RailRow) -> Fed | None:
    """The volts at a rail's input; None where they are not known."""
    power, rail = case.results.power, row.source.rail
    above = rail.fed_from if rail is not None else None
    for other in power.rails:
        if other.source.part == row.source.part and other.source.name == above and other is not row:
            return Fed(other.low, other.volts, other.high, other.source.label)
    for s in (*power.on_pack, *(s for r in power.rails for s in r.supplied)):
        known = s.lowest is not None and s.nominal is not None and s.highest is not None
        if s.load.part == row.source.part and known and s.load.source is not None:
            return Fed(s.lowest or 0.0, s.nominal or 0.0, s.highest or 0.0, s.load.source.label)
    if not power.packs:
        return None
    packs = power.packs
    nominal = min(p.nominal for p in packs)
    return Fed(min(p.least_fed for p in packs), nominal, max(p.full for p in packs), "the battery")
