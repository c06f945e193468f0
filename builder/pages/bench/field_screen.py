"""On the field: the checks before a flight, arming, the alarms of each battery for the timer, and
what is noted of a flight.
"""

from builder.compute.power_up.emptied import battery_empty
from builder.model.kinds import Propeller
from builder.pages.blocks import Block, Bullets, Paragraph, Section, Span, Tick, WriteIn
from builder.pages.paper.field_words import after_lines, before_lines, emergency_lines
from builder.pages.sheet_input import SheetInput

_TIMER = (
    "The transmitter's timer is the first one. A phone can fall silent when it is locked, so this"
    " one only helps. It is right again when you come back to it."
)


def _ticked(name: str, lines: list[str]) -> Bullets:
    return Bullets(tuple((Tick(f"field-{name}-{i}"), Span(line)) for i, line in enumerate(lines)))


def alarms_of(sheet: SheetInput) -> dict[str, dict[str, float]]:
    """By battery: after how many seconds the timer sounds, the volts to land at, the charge used
    then (mAh). What is not known is left out.
    """
    planned = {a.pack: a for a in sheet.build.source.setup.alarms}
    found: dict[str, dict[str, float]] = {}
    for pack, flight in sheet.results.flight.packs.items():
        reserve, own = flight.reserve, planned.get(pack)
        said = {
            "seconds": getattr(reserve.timer, "value", None),
            "volts": getattr(reserve.volts, "value", None),
            "used": getattr(reserve.used, "value", None),
        }
        if own is not None and own.volts is not None:
            said["volts"] = own.volts.value
        if own is not None and own.used is not None:
            said["used"] = own.used.value
        if said["used"] is not None:
            said["used"] = said["used"] / 3.6
        found[pack] = {k: v for k, v in said.items() if v is not None}
    return found


def _arming(sheet: SheetInput) -> list[str]:
    lines = ["Throttle up: it must refuse to arm.", "Switch to safe: the motors stop at once."]
    return lines + [f"Arms only if: {a}." for a in sheet.build.source.setup.arming]


def field_section(sheet: SheetInput) -> Section:
    """The section; without blocks for a build that does not fly."""
    build = sheet.build
    if not build.of_kind(Propeller):
        return Section("field", "On the field", ())
    before = before_lines(build)
    empty = battery_empty(build, sheet.results.gates)
    noted = (
        WriteIn("field-landed", "Volts as it lands", "V"),
        WriteIn("field-used", "Charge put back", "mAh"),
        WriteIn("field-air", "Air", "degC"),
    )
    blocks: tuple[Block | Section, ...] = (
        Section("field-1", "1. Before each flight", (_ticked("before", before),), 3),
        Section("field-2", "2. Arming check", (_ticked("arming", _arming(sheet)),), 3),
        Section("field-3", "3. Timer", (Paragraph((Span(_TIMER),)),), 3),
        Section("field-4", "4. After each flight", (_ticked("after", after_lines(empty)),), 3),
        Section("field-5", "5. Note the flight", (Paragraph(noted),), 3),
        Section("field-6", "If something goes wrong", (_plain(emergency_lines(build)),), 3),
    )
    return Section("field", "On the field", blocks)


def _plain(lines: list[str]) -> Bullets:
    return Bullets(tuple((Span(line),) for line in lines))
