"""Cells, chemistry and volts of a battery that do not go together.

Checks: full and nominal volts of a cell against the chemistry that the shelf names. The volts at
which a flight ends are compared with the least and the most that such a cell bears. Volts on the
label that rested would be below what harms the cell are a remark, even where the setup lands by
another word. The contacts of the balance connector are compared with the cells.
Why: a cell that is charged above its own full volts burns, and one that is landed too low is spoilt.
Example: a lithium-polymer battery that says full at 4.35 V a cell.
Mend: read the label of the battery, and correct the one that is wrong.
Source: cell data sheets (from memory): lithium-polymer and lithium-ion full at 4.20 V, high-voltage
cells at 4.35 V or 4.45 V
"""

import re
from collections.abc import Iterator

from builder.compute.circuit.landing_choice import RECOVERY, chosen_landing, loaded_volts
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build, FittedPack
from builder.rules.compare import clash
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say, span

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
YIELDS_TO = (
    "power/motor-cells",
    "power/speed-controller-cells",
    "pack/landing-too-low",
)
# V a cell by chemistry: least and most
_FULL = {
    "lithium-polymer": assumed_list("battery/full-lithium-polymer"),
    "lithium-ion": assumed_list("battery/full-lithium-ion"),
    "high-voltage lithium-polymer": assumed_list("battery/full-high-voltage"),
}
_NOMINAL = {
    "lithium-polymer": assumed_list("battery/nominal-lithium-polymer"),
    "lithium-ion": assumed_list("battery/nominal-lithium-ion"),
    "high-voltage lithium-polymer": assumed_list("battery/nominal-high-voltage"),
}
_LANDING = {
    "lithium-polymer": assumed_list("battery/landing-lithium-polymer"),
    "lithium-ion": assumed_list("battery/landing-lithium-ion"),
    "high-voltage lithium-polymer": assumed_list("battery/landing-high-voltage"),
}
_FLOOR = {
    "lithium-polymer": assumed("battery/lithium-polymer-floor"),
    "high-voltage lithium-polymer": assumed("battery/lithium-polymer-floor"),
}
_EXACT = 1e-6


def _label_low(pack: FittedPack, at: Where, kind: str, volts: float) -> Iterator[Outcome]:
    """Landing volts that such a cell bears, and that harm it all the same: of other cells."""
    rested = volts + RECOVERY[0]
    floor = _FLOOR[kind]
    if rested >= floor - _EXACT:
        yield Judged()
        return
    text = say(
        "Battery {} says landing at {} a cell under load; rested, {} is harmed under {}.",
        pack.key,
        given(volts, "V"),
        kind,
        given(floor, "V"),
    )
    hint = "Read the label, and correct the volts or the chemistry."
    yield clash(text, hint, at, pack.shelf_where.at("chemistry"), Severity.REMARK)


def _volts(pack: FittedPack) -> Iterator[Outcome]:
    part, kind = pack.part, pack.part.chemistry
    for name, volts, bounds in (
        ("full", part.full, _FULL),
        ("nominal", part.nominal, _NOMINAL),
        ("landing", part.landing, _LANDING),
    ):
        if volts is None:
            continue
        at = pack.shelf_where.at(name)
        if kind is None:
            yield NotJudged(f"chemistry of battery {pack.key}", pack.shelf_where)
            continue
        low, high = bounds[kind]
        if low - _EXACT <= volts.value <= high + _EXACT:
            if name == "landing" and kind != "lithium-ion":
                yield from _label_low(pack, at, kind, volts.value)
            else:
                yield Judged()
            continue
        text = say(
            "Battery {} says {} at {} a cell; {} has {}.",
            pack.key,
            name,
            given(volts.value, "V"),
            kind,
            span(low, high, "V"),
        )
        hint = "Read the label, and correct the volts or the chemistry."
        yield clash(text, hint, at, pack.shelf_where.at("chemistry"))


def _ends_at(build: Build, pack: FittedPack) -> Iterator[Outcome]:
    """Where this build ends a flight on the battery, if it says so itself."""
    kind, chosen = pack.part.chemistry, chosen_landing(build, pack)
    at = chosen.where
    if chosen.volts is None or at is None or kind is None or at == pack.shelf_where.at("landing"):
        return
    low, high = _LANDING[kind]
    volts = loaded_volts(chosen, kind)
    if low - _EXACT <= volts <= high + _EXACT:
        yield Judged()
        return
    below = volts < low
    text = say(
        "A flight on pack {} ends at {} a cell; {} cells bear {} under load.",
        pack.key,
        given(volts, "V") if chosen.state == "loaded" else made(volts, "V"),
        kind,
        span(low, high, "V"),
    )
    hint = "Land earlier." if below else "Set the volts at which the flight ends lower."
    milder = None if below else Severity.REMARK
    yield clash(text, hint, at, pack.shelf_where.at("chemistry"), milder)


def _balance(pack: FittedPack) -> Iterator[Outcome]:
    said = re.match(r"\s*(\d+)", pack.part.balance or "")
    if said is None or pack.part.cells is None:
        return
    ways, wanted = int(said[1]), pack.part.cells.high + 1
    if ways == wanted or (pack.part.cells.high == 1 and ways in (1, 2)):
        yield Judged()
        return
    yield Found(
        f"The balance connector of battery {pack.key} has {ways} contacts; {pack.part.cells.label}"
        f" wants {wanted}.",
        "Count the wires of the balance lead: one more than cells in series.",
        pack.shelf_where.at("balance"),
        see=(pack.shelf_where.at("cells"),),
    )


def check(case: Case) -> Iterator[Outcome]:
    for pack in case.build.packs.values():
        yield from _volts(pack)
        yield from _ends_at(case.build, pack)
        yield from _balance(pack)
