"""Figures of a battery that no cell has.

Checks: its energy against its weight, and the volts that a cell would lose at the current that the
label allows, by its resistance.
Why: a capacity or a rating that is too good makes the time in the air and the limits too good.
Example: 2600 mAh of six cells in 214 g.
Mend: read the label and the charger again; by the scale and the charge put back the true one shows.
Source: cell data sheets: 100 to 200 Wh/kg lithium-polymer, up to 270 Wh/kg lithium-ion (from memory)
"""

from collections.abc import Iterator

from builder.compute.circuit.pack_volts import PackVolts
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.build import FittedPack
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.REMARK
YIELDS_TO = ("pack/discharge-limit", "pack/watt-hours")
_POLYMER = assumed("battery/most-energy-polymer")
_ION = assumed("battery/most-energy-ion")
_LEAST = assumed("battery/least-energy")
_SAG = assumed("battery/sag-as-rated")
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


def _rating(pack: FittedPack) -> Iterator[Outcome]:
    part, at = pack.part, pack.shelf_where
    cell = part.resistance.value if part.resistance is not None else None
    if cell is None or part.discharge is None or part.capacity is None:
        return
    allowed = part.discharge.current(part.capacity.value)
    lost = allowed * cell
    if lost <= _SAG:
        yield Judged()
        return
    text = say(
        "A cell of battery {} would lose {} at the {} on its label.",
        pack.key,
        made(lost, "V"),
        made(allowed, "A", f"shelf/{pack.shelf}/discharge"),
    )
    hint = "Read its resistance again, and trust the label less."
    yield clash(text, hint, at.at("discharge"), at.at("resistance"))


def check(case: Case) -> Iterator[Outcome]:
    by_key = {p.key: p for p in case.results.power.packs}
    for key, pack in case.build.packs.items():
        if key in by_key:
            yield from _energy(pack, by_key[key])
        yield from _rating(pack)
