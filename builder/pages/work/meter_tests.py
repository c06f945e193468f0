"""Volts and current as shown against a meter, and the current sensor's scale by charge: the lines
with room to write in.
"""

from builder.compute.figures.figure import Figure
from builder.compute.loops.plugging import every_battery
from builder.compute.loops.series import ends_of_series
from builder.compute.power_up.emptied import battery_empty
from builder.pages.blocks import Bullets, Inline, Span, Tick, WriteIn
from builder.pages.sheet_input import SheetInput
from builder.pages.work.gate_lines import bleeder_words
from builder.rounding import rounded

# s that the resistor stays on while no meter can say when: twice what is computed, within these; the
# longest where the capacitance is not known (common practice, no source)
_SHORTEST, _LONGEST = 10.0, 60.0
_CHARGE = ("charge", "capacity", "mah")


def meter_tests(sheet: SheetInput) -> Bullets:
    """Volts and current as shown against a meter, to write in."""
    setup = sheet.build.source.setup
    told = []
    if setup.current_sensitivity is not None:
        told.append(
            f"set now: {rounded(1000 * setup.current_sensitivity.value, 1)} mV for each ampere"
        )
    if setup.volts_divider:
        told.append(f"divider of the volts now: {setup.volts_divider}")
    now = f" ({'; '.join(told)})" if told else ""
    empty = battery_empty(sheet.build, sheet.results.gates)
    battery, ends, plus = every_battery(sheet.build), "battery plus and minus", ""
    poles = ends_of_series(sheet.results.netlist)
    if poles is not None:
        ends, plus = f"{poles[0]} and {poles[1]}", f" at {poles[0]}"
    volts: tuple[Inline, ...] = (
        Tick("setup-volts"),
        Span(
            f"Volts: unplug {battery}. Wait until {empty}. Fix the meter's leads on {ends} with two"
            " insulated clips that cannot slip or touch. Plug in through the limiter,"
            f" read, unplug. Wait until {empty}. Take the meter off: "
        ),
        WriteIn("setup-volts-shown", "shown", "V"),
        Span(" "),
        WriteIn("setup-volts-meter", "meter", "V"),
    )
    current: tuple[Inline, ...] = (
        Tick("setup-current"),
        Span(
            f"Current{now}: the load is what the boards draw, motors still; the meter must be made for it."
            f" It goes in by an adapter: two plugs of the battery's kind, its plus wire open. Without one"
            f" leave this out, and cut no wire. Unplug {battery}."
            f" Wait until {empty}. Put the meter into the plus lead{plus}. Plug in, read, unplug."
            f" {_emptied_without_meter(sheet)} Take the meter out and put its red lead back to volts."
            f" Check that {empty}: "
        ),
        WriteIn("setup-current-shown", "shown", "A"),
        Span(" "),
        WriteIn("setup-current-meter", "meter", "A"),
    )
    care = (
        f"Before you join or move the meter: unplug {battery}, wait until {empty}."
        " Put it into one lead, never across both: a meter set to amperes is a short there. Stay"
        " within its range."
    )
    rough = (
        "That reading is a check alone. Do not calibrate by it: near idle a small offset hides a"
        " wrong scale."
    )
    return Bullets((volts, (Span(care),), current, (Span(rough),), *_by_charge(sheet)))


def _emptied_without_meter(sheet: SheetInput) -> str:
    """How the capacitor is emptied while the meter is set to amperes and cannot say when."""
    gates = sheet.results.gates
    if not gates:
        return "Wait a minute."
    found = gates[-1].discharge
    computed = 2 * found.time.value if isinstance(found.time, Figure) else _LONGEST
    hold = rounded(max(_SHORTEST, computed), 0)
    where = f" at {gates[-1].plug}" if gates[-1].plug else ""
    return (
        f"Hold the insulated {bleeder_words(found)} resistor across plus and minus{where} for"
        f" {hold} s."
    )


def shown_charge(sheet: SheetInput) -> str:
    """Where the charge used is read; '' where nothing of the build is said to show it."""
    for field in sheet.build.source.setup.overlay:
        name = field.field.casefold()
        if any(word in name for word in _CHARGE):
            at = f" ({field.at})" if field.at else ""
            return f"read '{field.field}' in the picture{at}"
    return ""


_UNSHOWN = (
    "No figure in the picture shows the charge used, and this sheet names no other place. Leave the"
    " scale as it is until one is set. Write down minutes and what the charger puts back: "
)


def _by_charge(sheet: SheetInput) -> tuple[tuple[Inline, ...], ...]:
    """The current sensor's scale by the charge that the charger puts back: an average over a
    flight, where idle is one small reading.
    """
    shown = shown_charge(sheet)
    if not shown:
        back = WriteIn("setup-charge-back", "put back", "mAh")
        return ((Tick("setup-charge"), Span(_UNSHOWN), back),)
    flown: tuple[Inline, ...] = (
        Tick("setup-charge"),
        Span(
            "Calibrate after the first flights. Take a battery that the charger filled. Fly it. Land,"
            f" disarm, and {shown} with the battery still on. Then fill it again: "
        ),
        WriteIn("setup-charge-shown", "shown used", "mAh"),
        Span(" "),
        WriteIn("setup-charge-back", "put back", "mAh"),
    )
    rule = (
        "New millivolts for each ampere = old × shown used / put back. Check it with the next"
        " flight."
    )
    return flown, (Span(rule),)
