"""A wire too thin for its current.

Checks: each supply wire, each strand of a harness, each lead that joins batteries, and each way back
with the sum of what returns there. Where a current has several ways, each is checked by its share. Full throttle against
the current that melts it (Onderdonk): in three seconds is a fault, in ten a remark. Its
steady current against the bundle ratings of FAA AC 43.13-1B, table 11-9. Above them a heat balance
in still air: a remark from 60 K of warming, a fault from 150 K. A way back that is as thin as its
supply is found with it.
Why: a lead that glows sets the battery alight.
Example: 24 AWG as a battery lead of a 4-cell build.
Mend: take thicker wire and keep it short; the minus as thick as the plus.
Source: Onderdonk; FAA AC 43.13-1B CHG 1, table 11-9; ASTM B258; 60 K and 150 K are common practice,
no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure, Unknown
from builder.compute.formulas.electric.conductor import bundle_rating
from builder.compute.formulas.electric.conductor_heat import (
    onderdonk_current,
    wire_temperature_rise,
)
from builder.compute.loops.shares import cable_by
from builder.compute.power.path_wires import SupplyWire
from builder.compute.weight.wire_mass import copper_area, outer_diameter
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.load.assumed import assumed, assumed_list
from builder.model.kinds import Cable
from builder.model.values.measures import Gauge
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.FAULT
AMBIENT = assumed("wires/air")
_FILM = assumed("wires/film")
_WARM, _HOT = assumed("wires/warm"), assumed("wires/hot")
_THICKEST, _THINNEST = assumed_list("wires/bundle-gauges")
_MELTS_WITHIN = assumed_list("wires/melts-within")
_Named = tuple[str, Where]  # a conductor in words, and where it stands
_THICKER = "Take thicker wire, the way back as thick as the way out."


def rated_steady(gauge: Gauge) -> float | None:
    """Current below which no further look is needed; None outside the table."""
    if gauge.awg is None or not _THICKEST <= gauge.awg <= _THINNEST:
        return None
    return bundle_rating(float(gauge.awg))


def _rise(gauge: Gauge, current: float) -> float:
    """Steady warming in K, in still air; without bound where the balance finds none."""
    try:
        return wire_temperature_rise(
            current, copper_area(gauge), outer_diameter(gauge), _FILM, AMBIENT
        )
    except ValueError:
        return float("inf")


def _steady(one: _Named, gauge: Gauge, current: Figure) -> Found | None:
    name, where = one
    rated = rated_steady(gauge)
    if rated is not None and current.value <= rated:
        return None
    rise = _rise(gauge, current.value)
    if rise < _WARM:
        return None
    how = say("by {}", made(rise, "K", decimals=0)) if rise < 1000 else "without end"
    text = say(
        "{} carries {} for long; {} warms {} in still air.",
        name,
        current,
        gauge.label,
        how,
    )
    if rise >= _HOT:
        return Found(text, _THICKER, where, signal=Signal.WARNING)
    return Found(text, "Take thicker wire, or give it air.", where, severity=Severity.REMARK)


def _short(where: Where, gauge: Gauge, current: Figure) -> Found | None:
    """Full throttle for three seconds, and held for ten. Only motors make peaks that last."""
    three, ten = (onderdonk_current(copper_area(gauge), t, AMBIENT) for t in _MELTS_WITHIN)
    if current.value > three:
        text = say(
            "Full throttle takes {}; {} melts at {} within 3 s.",
            current,
            gauge.label,
            made(three, "A"),
        )
        return Found(text, _THICKER, where, signal=Signal.WARNING)
    if current.value > ten:
        text = say(
            "Full throttle takes {}; {} melts at {} within 10 s.",
            current,
            gauge.label,
            made(ten, "A"),
        )
        return Found(
            text,
            "Take thicker wire; until then never hold full throttle.",
            where,
            severity=Severity.REMARK,
        )
    return None


def _found(wire: SupplyWire, gauge: Gauge) -> Found | None:
    """What one wire is found at; a lead that a maker fitted raises remarks only."""
    found: Found | None = None
    if wire.motors and isinstance(wire.short, Figure):
        found = _short(wire.run.where, gauge, wire.short)
    if found is None and isinstance(wire.steady, Figure):
        one = f"{wire.run.start} to {wire.run.end}", wire.run.where
        found = _steady(one, gauge, wire.steady)
    if found is None or wire.run.wire.lead is None:
        return found
    return Found(found.message, found.hint, found.where, Severity.REMARK)


def _key(wire: SupplyWire, gauge: Gauge) -> tuple[object, ...]:
    """What a wire and its way back have in common if they are alike: both pieces and the gauge."""
    return frozenset({wire.run.start.board, wire.run.end.board}), gauge.label


def _one(wire: SupplyWire, found: Found | None) -> Iterator[Outcome]:
    lacking = [m for f in (wire.steady, wire.short) if isinstance(f, Unknown) for m in f.missing]
    if found is not None:
        yield found
    elif lacking:
        yield from (NotJudged(m, wire.run.where) for m in dict.fromkeys(lacking))
    else:
        yield Judged()


def _strands(case: Case) -> Iterator[Outcome]:
    """Each strand of a plugged harness by its own current; one whose gauge nobody says is judged by
    its contacts (power/contact-overloaded). One as thin as the one before it is the same mistake.
    """
    said: set[tuple[object, ...]] = set()
    for load in case.results.path.plugs:
        cable = cable_by(case.build, load.join)
        if cable is None or cable.part.gauge is None:
            continue
        if isinstance(load.steady, Unknown):
            yield from (NotJudged(m, load.join.where) for m in load.steady.missing)
            continue
        one, found = (f"{load.join.a} to {load.join.b}", load.join.where), None
        if load.motors and isinstance(load.short, Figure):
            found = _short(load.join.where, cable.part.gauge, load.short)
        found = found or _steady(one, cable.part.gauge, load.steady)
        key = (cable.key, load.join.a.board, load.join.b.board)
        if found is None:
            yield Judged()
        elif key not in said:
            said.add(key)
            yield found


def _joining(case: Case) -> Iterator[Outcome]:
    """Leads outside the aircraft that join batteries: all of their current goes through the end."""
    for pack in case.build.packs.values():
        flown = case.results.flight.packs[pack.key]
        for lead in (c for c in case.build.of_kind(Cable) if c.key in pack.use.through):
            gauge, at = lead.part.gauge, lead.where
            if gauge is None:
                yield NotJudged(f"gauge of {lead.key}", lead.shelf_where)
                continue
            found = None
            if isinstance(flown.peak_current, Figure):
                found = _short(at, gauge, flown.peak_current)
            if found is None and isinstance(flown.styled_current, Figure):
                found = _steady((lead.key, at), gauge, flown.styled_current)
            currents = (flown.peak_current, flown.styled_current)
            lacking = [m for c in currents if isinstance(c, Unknown) for m in c.missing]
            if found is None and lacking:
                yield from (NotJudged(m, pack.where) for m in dict.fromkeys(lacking))
            else:
                yield found or Judged()


def check(case: Case) -> Iterator[Outcome]:
    path = case.results.path
    said: set[tuple[object, ...]] = set()
    for wire in (*path.wires, *path.returns):
        gauge = wire.run.wire.gauge
        if gauge is None:
            if wire.run.wire.lead is None:
                yield NotJudged(f"gauge of {wire.run.start} to {wire.run.end}", wire.run.where)
            continue
        found = _found(wire, gauge)
        fault = found is not None and found.severity is None
        key = (*_key(wire, gauge), fault)
        if found is not None and key in said and wire in path.returns:
            continue  # as thin as the wire that it is the way back of: one mistake
        said.update({key} if found is not None else ())
        yield from _one(wire, found)
    yield from _strands(case)
    yield from _joining(case)
