"""What is saved, calibrated and tried on the bench before the first flight, as a list to tick off."""

from builder.compute.loops.matching import joined_packs
from builder.compute.loops.plugging import every_battery
from builder.compute.power_up.emptied import battery_empty, control_board, wait_for_rails
from builder.diagnostics.finding import Signal
from builder.model.build import Build
from builder.model.kinds import Compass, SatelliteReceiver, VideoTransmitter
from builder.pages.blocks import Block, Bullets, Facts, Notice, Section, Span, Tick
from builder.pages.numbers import cell
from builder.pages.sheet_input import SheetInput
from builder.pages.work.lost_link import at_bench, builder_note, in_air
from builder.pages.work.meter_tests import meter_tests
from builder.rounding import rounded

_Line = tuple[str, str]


def _empty(sheet: SheetInput) -> str:
    return battery_empty(sheet.build, sheet.results.gates)


def _ticked(lines: list[_Line]) -> Bullets:
    return Bullets(tuple((Tick(f"setup-{key}"), Span(line)) for key, line in lines))


def _north(build: Build) -> str:
    """What a compass must show, where there is one."""
    on_it = any(f.part.compass for f in build.of_kind(SatelliteReceiver))
    return " The compass must show north as north." if on_it or build.of_kind(Compass) else ""


def _armed_once(sheet: SheetInput) -> _Line:
    """That it arms at all: else each refusal that follows proves nothing."""
    outdoors = ""
    if sheet.build.of_kind(SatelliteReceiver):
        outdoors = (
            "Go outdoors for this and for what follows: where arming waits for satellites, indoors"
            " all is refused. "
        )
    text = (
        f"{outdoors}Put all as it has to be, then arm: the motors must idle. Switch to safe. Only now"
        " does a refusal tell anything. For each line that follows, change that one thing."
    )
    return ("arm-once", text)


def _left_in(build: Build) -> str:
    return "every battery" if joined_packs(build) else "battery"


def _board(sheet: SheetInput) -> list[_Line]:
    found = sheet.results.settings
    sits = " How the board sits is not known: this sheet does not say."
    if found.board_yaw is not None:
        sits = f" Board setting: {rounded(found.board_yaw, 0)}°, face {found.board_face}."
    lines = [
        (
            "nose",
            (f"Hold it level, then tip the nose down. The attitude shown must tip down too.{sits}"),
        ),
        ("side", "Tip the right side down. The attitude shown must tip to the right too."),
        (
            "turn",
            (
                "Turn it to the right on the bench. The heading shown must grow by as much as it was"
                " turned."
            ),
        ),
    ]
    if sheet.build.of_kind(SatelliteReceiver):
        lines.append(
            (
                "fix",
                f"Outdoors, propellers off: wait for a position.{_north(sheet.build)}",
            )
        )
    return lines


def _throttle(sheet: SheetInput) -> list[_Line]:
    """That full throttle is held back, where it takes, or may take, more than a carrier is rated for."""
    limits = sheet.results.flight.limits
    over = list(dict.fromkeys(f"{r.what} ({r.pack})" for r in limits if r.over or r.close))
    if not over:
        return []
    return [
        (
            "throttle",
            (
                "Check that the settings limit full throttle. Without that it takes, or may take, too"
                " much of:"
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
                    "Turn each motor alone. Check its number, its corner and its direction with a strip"
                    " of paper."
                ),
            )
        ]
    lines = []
    for m in motors:
        way = (
            f"It must turn {m.turns}."
            if m.turns
            else "Which way it must turn is not known: write down which way it does."
        )
        lines.append(
            (
                f"motor-{m.number}",
                f"Turn motor {m.number} alone. It must be the one at the {m.corner}. {way}",
            )
        )
    return lines


def _switches(sheet: SheetInput) -> list[_Line]:
    setup = sheet.build.source.setup
    lines = []
    for i, s in enumerate(setup.switches, 1):
        what = ", ".join(s.positions) or s.does or "not known, this sheet does not say which"
        lines.append((f"switch-{i}", f"Move the {s.name} through its positions: {what}."))
    if setup.overlay and sheet.build.of_kind(VideoTransmitter):
        lines.append(
            (
                "overlay",
                f"Look at the picture, antenna fitted. It must show:"
                f" {', '.join(o.field for o in setup.overlay)}.",
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
                f"Let the motors idle, then switch the transmitter off. Watch: {limit}"
                f" {at_bench(plan)}.",
            ),
            (
                "link-off",
                (
                    "Motors may speed up. Hold nothing and keep clear. Then switch to safe and unplug"
                    f" the battery. Wait until {_empty(sheet)}."
                ),
            ),
        ]
    return [
        (
            "link-lost",
            f"Let the motors idle, then switch the transmitter off. The motors must stop {limit}.",
        ),
        (
            "link-back",
            "Switch the transmitter on again. The motors must stay still until they are armed again.",
        ),
    ]


def _arming(sheet: SheetInput) -> list[_Line]:
    angles = sheet.build.source.setup.arming
    satellites = bool(sheet.build.of_kind(SatelliteReceiver))
    wait = ", wait for a position as before" if satellites else ""
    lines = [
        ("arm-throttle", "Try to arm with the throttle up. It must refuse."),
        (
            "arm-switch",
            f"Plug the battery in with the arm switch on{wait}. It must refuse until the switch was off once.",
        ),
        ("arm-off", "Arm and let it idle, then switch to safe. The motors must stop at once."),
    ]
    tilted = (
        f"Unplug {every_battery(sheet.build)}. Wait until {_empty(sheet)}. Prop it up, tilted by about 45 degrees: no"
        f" hand holds it under power. Plug in{wait}, try to arm. It must refuse."
    )
    return [
        *lines,
        *(
            (f"arm-{i}", f"Check: it refuses to arm unless this holds: {a}.")
            for i, a in enumerate(angles, 1)
        ),
        ("arm-tilt", tilted),
    ]


def setup_tests(sheet: SheetInput) -> Section:
    """The list in the order of the bench: save, board, motors, switches, meters, fail-safe, arming,
    save again.
    """
    plan = sheet.build.source.setup.fail_safe
    caution = (
        "Do all of these with the propellers off. A motor that starts by itself cuts to the bone."
    )
    before = [
        ("saved-before", "Save the settings as they came to a file, before the first change.")
    ]
    after = [
        (
            "saved-after",
            "Save the settings to a file again, with the date in its name.",
        ),
        ("power-off", f"Unplug USB and {_left_in(sheet.build)}. Check that {_empty(sheet)}."),
    ]
    usb = (
        "power-usb",
        (
            "Power: USB alone. Battery and supply are unplugged. Keep a fan on the boards. Before a"
            f" hand goes to a wire: unplug USB, {wait_for_rails(control_board(sheet.build))}."
        ),
    )
    battery = (
        "power-battery",
        (
            "Power: the battery, once it passed through the limiter; USB with it only if the"
            " board's maker allows it. Keep a fan on the boards. After each group, and before you"
            f" touch a wire, a pad or a motor: unplug {every_battery(sheet.build)}. Wait until {_empty(sheet)}."
        ),
    )
    groups: list[tuple[str, list[Block]]] = [
        ("Before the first change", [_ticked(before)]),
        ("Board: tilt and turn it", [_ticked([usb, *_board(sheet)])]),
        ("Motors", [_ticked([battery, *_throttle(sheet), *_motors(sheet)])]),
        ("Switches and picture", [_ticked(_switches(sheet))] if _switches(sheet) else []),
        ("Volts and current against a meter", [meter_tests(sheet)]),
        ("Lost link", [_ticked([_armed_once(sheet), *_fail_safe(sheet)])]),
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
                        ("On a lost link", cell(f"{in_air(plan)}.{builder_note(plan)}")),
                        ("Tested by the builder of this sheet", cell(plan.tested or "not yet")),
                    )
                )
            )
        if inner:
            anchor = "setup-" + "-".join(w for w in heading.lower().replace(":", "").split())
            blocks.append(Section(anchor, heading, tuple(inner), level=4))
    return Section("setup-tests", "To try before the first flight", tuple(blocks), level=3)
