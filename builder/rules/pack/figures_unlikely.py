"""Figures of a battery that no cell has.

Checks: its energy against its weight. The current on its label is held against its resistance: a
full cell has to stay above the volts that harm it. It is held against its capacity too: no cell is
empty in 18 s.
Why: a capacity or a rating that is too good makes the time in the air and the limits too good.
Example: 2600 mAh of six cells in 214 g, or a label of 300C.
Mend: read the label and the charger again; by the scale and the charge put back the true one shows.
Source: Ohm's law for the label; cell data sheets: 100 to 200 Wh/kg lithium-polymer, up to 270 Wh/kg
lithium-ion (from memory); 200C common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.pack_volts import PackVolts
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed, assumed_list
from builder.model.build import FittedPack
from builder.model.kinds import Pack
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import given, made, rate, say

SEVERITY = Severity.REMARK
YIELDS_TO = ("pack/discharge-limit", "pack/watt-hours")
_POLYMER = assumed("battery/most-energy-polymer")
_ION = assumed("battery/most-energy-ion")
_LEAST = assumed("battery/least-energy")
_MOST_RATE = assumed("battery/most-rate")
_ALIKE = assumed("battery/written-alike")
_FULL = {
    "lithium-polymer": assumed_list("battery/lithium-polymer")[0],
    "high-voltage lithium-polymer": assumed_list("battery/high-voltage-lithium-polymer")[0],
    "lithium-ion": assumed_list("battery/lithium-ion")[0],
}
_HARMED = assumed("battery/lithium-polymer-lowest")
_ION_HARMED = assumed("battery/lithium-ion-lowest")
_LABEL = "Read the label again, and weigh the battery."


def _energy(pack: FittedPack, volts: PackVolts) -> Iterator[Outcome]:
    part, at = pack.part, pack.shelf_where
    mass = part.mass.value if part.mass is not None else None
    if not mass or volts.capacity is None or part.chemistry is None:
        return
    held = volts.nominal * volts.capacity / pack.joined
    most = _ION if part.chemistry == "lithium-ion" else _POLYMER
    if _LEAST <= held / mass <= most:
        yield Judged()
        return
    energy = made(held, "J", f"shelf/{pack.shelf}/capacity")
    text = say("Battery {} holds {} in {}, unlike any cell.", pack.key, energy, given(mass, "kg"))
    yield clash(text, _LABEL, at.at("capacity"), at.at("mass"))


def _spare(part: Pack) -> float:
    """Volts between a full cell and one that its load harms; the wider where nobody says which."""
    full = part.full.value if part.full is not None else None
    usual = _FULL.get(part.chemistry or "", _FULL["lithium-ion"])
    polymer = "lithium-polymer" in (part.chemistry or "")
    return (full or usual) - (_HARMED if polymer else _ION_HARMED)


def _sag(pack: FittedPack, allowed: float) -> Iterator[Outcome]:
    """What the current on the label does to a full cell, by its resistance."""
    part, at = pack.part, pack.shelf_where
    cell = part.resistance.value if part.resistance is not None else None
    if cell is None:
        return
    lost = allowed * cell
    if lost <= _spare(part):
        yield Judged()
        return
    text = say(
        "A full cell of battery {} would lose {} at the {} on its label.",
        pack.key,
        made(lost, "V"),
        made(allowed, "A", f"shelf/{pack.shelf}/discharge"),
    )
    hint = "Read its resistance again, and trust the label less."
    yield clash(text, hint, at.at("discharge"), at.at("resistance"))


def _rating(pack: FittedPack) -> Iterator[Outcome]:
    part, at = pack.part, pack.shelf_where
    if part.discharge is None or part.capacity is None:
        return
    charge, key = part.capacity.value, f"shelf/{pack.shelf}/discharge"
    allowed = part.discharge.current(charge)
    times = allowed * 3600.0 / charge
    if times <= _MOST_RATE * _ALIKE:
        yield from _sag(pack, allowed)
        return
    empty = made(charge / allowed, "s", key)
    text = say("Battery {} is marked {}; that empties it in {}.", pack.key, rate(times, key), empty)
    hint = "Read the label again. Plan with what its resistance allows."
    yield clash(text, hint, at.at("discharge"), at.at("capacity"))


def check(case: Case) -> Iterator[Outcome]:
    by_key = {p.key: p for p in case.results.power.packs}
    for key, pack in case.build.packs.items():
        if key in by_key:
            yield from _energy(pack, by_key[key])
        yield from _rating(pack)
