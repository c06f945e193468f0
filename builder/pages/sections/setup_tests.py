"""What is saved, calibrated and tried on the bench before the first flight, as a list to tick off."""

from builder.diagnostics.finding import Signal
from builder.model.kinds import SatelliteReceiver, VideoTransmitter
from builder.pages.blocks import Block, Bullets, Facts, Inline, Notice, Section, Span, Tick, WriteIn
from builder.pages.numbers import cell
from builder.pages.sheet_input import SheetInput
from builder.rounding import rounded

_Line = tuple[str, str]


def _ticked(lines: list[_Line]) -> Bullets:
    return Bullets(tuple((Tick(f"setup-{key}"), Span(line)) for key, line in lines))


def _board(sheet: SheetInput) -> list[_Line]:
    found = sheet.results.settings
    sits = " How the board sits is not known: this sheet does not say."
    if found.board_yaw is not None:
        sits = f" Board setting: {rounded(found.board_yaw, 0)}°, face {found.board_face}."
    lines = [
        (
            "nose",
            (
                "Held level, then the nose tilted down: the attitude shown tilts its nose down"
                f" too.{sits}"
            ),
        ),
        ("side", "The right side tilted down: the attitude shown tilts to the right too."),
        (
            "turn",
            (
                "Turned to the right on the bench: the heading shown grows, by as much as it was"
                " turned."
            ),
        ),
    ]
    if sheet.build.of_kind(SatelliteReceiver):
        lines.append(
            (
                "fix",
                "Outdoors, propellers off: a position is found, and the compass shows north as north.",
            )
        )
    return lines


def _throttle(sheet: SheetInput) -> list[_Line]:
    """That full throttle is held back, where it takes more than a carrier is rated for."""
    over = list(
        dict.fromkeys(f"{r.what} ({r.pack})" for r in sheet.results.flight.limits if r.over)
    )
    if not over:
        return []
    return [
        (
            "throttle",
            (
                "Full throttle is limited in the settings. Without that it takes too much of:"
                f" {', '.join(over)}."
            ),
        )
    ]


def _motors(sheet: SheetInput) -> list[_Line]:
    motors = sheet.results.settings.motors
    if not motors:
        return [
            (
                "motors",
                (
                    "Each motor turned alone: right number, right corner, right way (a strip of paper"
                    " shows it)."
                ),
            )
        ]
    lines = []
    for m in motors:
        way = (
            f"it turns {m.turns}"
            if m.turns
            else "which way it must turn is not known: write down which way it does"
        )
        lines.append(
            (
                f"motor-{m.number}",
                f"Motor {m.number} turned alone: it is the one at the {m.corner}, and {way}.",
            )
        )
    return lines


def _switches(sheet: SheetInput) -> list[_Line]:
    setup = sheet.build.source.setup
    lines = []
    for i, s in enumerate(setup.switches, 1):
        what = ", ".join(s.positions) or s.does or "not known, this sheet does not say which"
        lines.append((f"switch-{i}", f"{s.name.capitalize()} moved through its positions: {what}."))
    if setup.overlay and sheet.build.of_kind(VideoTransmitter):
        lines.append(
            (
                "overlay",
                f"In the picture, antenna fitted: {', '.join(o.field for o in setup.overlay)}.",
            )
        )
    return lines


def _fail_safe(sheet: SheetInput) -> list[_Line]:
    plan = sheet.build.source.setup.fail_safe
    limit = (
        f"within {rounded(plan.within.value, 1)} s"
        if plan is not None and plan.within is not None
        else "within the set time"
    )
    if plan is not None and plan.does != "motors stop":
        return [
            (
                "link-lost",
                f"Motors idling, transmitter switched off. Check, {limit}: {plan.in_words}.",
            ),
            (
                "link-off",
                (
                    "Motors may speed up. Hold nothing, keep clear, then switch to safe and unplug"
                    " the battery."
                ),
            ),
        ]
    return [
        ("link-lost", f"Motors idling, transmitter switched off: the motors stop {limit}."),
        (
            "link-back",
            "Transmitter switched on again: the motors stay still until they are armed anew.",
        ),
    ]


def _arming(sheet: SheetInput) -> list[_Line]:
    angles = sheet.build.source.setup.arming
    lines = [
        ("arm-throttle", "Arming with the throttle up: refused."),
        (
            "arm-switch",
            "Battery plugged in with the arm switch already on: refused, until it was off once.",
        ),
        ("arm-tilt", "Arming while it is held tilted: refused."),
        ("arm-off", "Armed and idling, switch to safe: the motors stop at once."),
    ]
    return [*lines, *((f"arm-{i}", f"Arming needs, as set: {a}.") for i, a in enumerate(angles, 1))]


def _meters(sheet: SheetInput) -> Bullets:
    """Volts and current as shown against a meter, to write in."""
    setup = sheet.build.source.setup
    told = []
    if setup.current_scale is not None:
        told.append(f"current scale now {rounded(1000 * setup.current_scale.value, 1)} mV/A")
    if setup.volts_scale:
        told.append(f"volts scale now {setup.volts_scale}")
    now = f" ({'; '.join(told)})" if told else ""
    volts: tuple[Inline, ...] = (
        Tick("setup-volts"),
        Span(
            "Volts: battery unplugged, clip the meter to the battery pads. Plug in, read, unplug, take the meter off: "
        ),
        WriteIn("setup-volts-shown", "shown", "V"),
        Span(" "),
        WriteIn("setup-volts-meter", "meter", "V"),
    )
    current: tuple[Inline, ...] = (
        Tick("setup-current"),
        Span(
            f"Current at a steady load, at most what the meter is made for{now}: battery unplugged, put the meter into its "
            "plus lead. Plug in, read, unplug, take the meter out: "
        ),
        WriteIn("setup-current-shown", "shown", "A"),
        Span(" "),
        WriteIn("setup-current-meter", "meter", "A"),
    )
    care = (
        "Unplug the battery before you join or move the meter. It goes into one lead, never across"
        " both: a meter set to amperes is a short there. Stay within its range."
    )
    rule = "New scale of the current = old scale × shown / meter. Read again after the change."
    return Bullets((volts, (Span(care),), current, (Span(rule),)))


def setup_tests(sheet: SheetInput) -> Section:
    """The list in the order of the bench: save, board, motors, switches, meters, fail-safe, arming,
    save again.
    """
    plan = sheet.build.source.setup.fail_safe
    caution = (
        "All of these are done with the propellers off. A motor that starts by itself cuts to the"
        " bone."
    )
    before = [
        ("saved-before", "Settings as they came are saved to a file, before the first change.")
    ]
    after = [
        (
            "saved-after",
            "Settings are saved to a file again, with the date in its name, now that all is done.",
        ),
        ("power-off", "USB and battery are unplugged, and plus to minus reads under 1 V."),
    ]
    usb = (
        "power-usb",
        (
            "Power: USB alone. Battery and supply are unplugged. Keep a fan on the boards. "
            "Unplug USB before a hand goes to a wire."
        ),
    )
    battery = (
        "power-battery",
        (
            "Power: the battery, once it passed through the limiter; USB with it only if the"
            " board's maker allows it. Keep a fan on the boards. Unplug the battery after each"
            " group, and before you touch a wire, a pad or a motor."
        ),
    )
    groups: list[tuple[str, list[Block]]] = [
        ("Before the first change", [_ticked(before)]),
        ("Board: tilt and turn it", [_ticked([usb, *_board(sheet)])]),
        ("Motors", [_ticked([battery, *_throttle(sheet), *_motors(sheet)])]),
        ("Switches and picture", [_ticked(_switches(sheet))] if _switches(sheet) else []),
        ("Volts and current against a meter", [_meters(sheet)]),
        ("Lost link", [_ticked(_fail_safe(sheet))]),
        ("Arming", [_ticked(_arming(sheet))]),
        ("When all is done", [_ticked(after)]),
    ]
    blocks: list[Block | Section] = [
        Notice(Signal.WARNING, "Propellers off for all of these.", (Span(caution),))
    ]
    for heading, inner in groups:
        if heading == "Lost link" and plan is not None:
            inner.append(
                Facts(
                    (
                        ("On a lost link", cell(plan.in_words)),
                        ("Tested", cell(plan.tested or "not yet")),
                    )
                )
            )
        if inner:
            anchor = "setup-" + "-".join(w for w in heading.lower().replace(":", "").split())
            blocks.append(Section(anchor, heading, tuple(inner), level=4))
    return Section("setup-tests", "To try before the first flight", tuple(blocks), level=3)
