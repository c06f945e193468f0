"""An alarm that warns too late, or always.

Checks: for each battery, the volts of a cell at which the pilot is warned. Below the landing
volts, or above a full cell, is a fault. Landing volts that follow from a share of the charge are
known to 0.08 V a cell. The charge used: above what the battery holds is a fault,
above four fifths of it a remark.
Why: who lands by an alarm that never comes flies the battery empty; the cells are harmed, and the
motors stop in the air.
Example: an alarm at 900 mAh on a battery that holds 650 mAh.
Mend: set the volts at the landing volts or above. Set the charge at 80 % of each battery or less.
Source: 80 % is common practice, no source; full volts of a cell: cell data sheets
"""

from collections.abc import Iterator

from builder.compute.circuit.landing_choice import RECOVERY, Chosen, chosen_landing
from builder.compute.circuit.pack_volts import PackVolts
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.source.setup_source import Alarm
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say, share

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_MOST = assumed("battery/alarm-at-most")
_EXACT = 1e-6  # shares and volts that are written alike are alike


def _volts(volts: float, pack: PackVolts, chosen: Chosen, where: Where) -> Outcome:
    # volts under load that are worked out from a share are as unsure as what a cell recovers
    written = chosen.volts is not None and chosen.state == "loaded"
    slack = _EXACT if written else RECOVERY[1]
    cell, landing, full = (v / pack.series for v in (volts, pack.landing, pack.full))
    below, most = given(volts, "V"), made(pack.full, "V")
    if cell < landing - slack:
        return Found(
            say(
                "The alarm of battery {} warns below {}, {} a cell; it lands at {}.",
                pack.key,
                below,
                made(cell, "V"),
                made(landing, "V"),
            ),
            say("Set it to {} or above.", made(pack.landing, "V")),
            where,
        )
    if cell >= full - _EXACT:
        return Found(
            say(
                "The alarm of battery {} warns below {}; full it has {}, so it always warns.",
                pack.key,
                below,
                most,
            ),
            say(
                "Set it between {} and {}; who is always warned looks away.",
                made(pack.landing, "V"),
                most,
            ),
            where,
        )
    return Judged()


def _used(used: float, pack: PackVolts, capacity: float, where: Where) -> Outcome:
    part = used / capacity
    text = say(
        "The alarm of battery {} warns above {} used; it holds {}",
        pack.key,
        given(used, "C"),
        made(capacity, "C"),
    )
    hint = say("Set it to {} or less.", made(_MOST * capacity, "C"))
    if part >= 1.0 - _EXACT:
        return Found(say("{}.", text), hint, where)
    if part > _MOST + _EXACT:
        return Found(
            say("{}, and this is {} of it.", text, share(part)),
            hint,
            where,
            severity=Severity.REMARK,
        )
    return Judged()


def _one(alarm: Alarm, pack: PackVolts | None, chosen: Chosen, where: Where) -> Iterator[Outcome]:
    if pack is None:
        yield NotJudged(f"cells of battery {alarm.pack}", where)
        return
    if alarm.volts is None and alarm.used is None:
        yield NotJudged(f"volts or charge at which battery {alarm.pack} warns", where)
    if alarm.volts is not None:
        yield _volts(alarm.volts.value, pack, chosen, where.at("volts"))
    if alarm.used is not None and pack.capacity is None:
        yield NotJudged(f"capacity of battery {alarm.pack}", where)
    elif alarm.used is not None and pack.capacity is not None:
        yield _used(alarm.used.value, pack, pack.capacity, where.at("used"))


def check(case: Case) -> Iterator[Outcome]:
    alarms = case.build.source.setup.alarms
    packs = {p.key: p for p in case.results.power.packs}
    for i, alarm in enumerate(alarms):
        where = case.build.where("setup", "alarms", i)
        if alarm.pack in case.build.packs:
            chosen = chosen_landing(case.build, case.build.packs[alarm.pack])
            yield from _one(alarm, packs.get(alarm.pack), chosen, where)
        else:
            yield NotJudged(
                f"which battery the alarm of {alarm.pack!r} is for: this build has none of that name",
                where,
            )
    named = {a.pack for a in alarms}
    for key in case.build.packs if alarms else ():
        if key not in named:
            yield NotJudged(
                f"volts or charge at which battery {key} warns", case.build.where("setup", "alarms")
            )
