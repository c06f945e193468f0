"""Steps under power, and those before the first flight that belong to them: gates, set-up, the first
battery, binding, directions, charging.
"""

from collections.abc import Iterator

from builder.compute.figures.told import PlainSpan, PlainValue, Told, WordsOrTold, told
from builder.compute.joints.bench_pieces import CENTRES, gate_letters
from builder.compute.loops.matching import joined_packs, matching_words
from builder.compute.loops.plugging import every_battery, first_plugged_in
from builder.compute.order.steps.propeller_step import direction_readings
from builder.compute.order.steps.work_step import LAST_GATE, Measure, Phase, WorkStep
from builder.compute.power_up.emptied import battery_empty, control_board, wait_for_rails
from builder.compute.power_up.gate import Gate
from builder.model.build import Build, Fitted
from builder.model.kinds import Motor, Receiver


def _off(build: Build, gates: tuple[Gate, ...]) -> str:
    """How a step under power from the battery ends."""
    return f"unplug {every_battery(build)} and wait until {battery_empty(build, gates)}."


def usb_off(board: Fitted | None) -> str:
    """How a step under power from USB ends."""
    return f"unplug USB and {wait_for_rails(board)}."


def gate_steps(build: Build, gates: tuple[Gate, ...]) -> Iterator[WorkStep]:
    """The stages of the first power-up, each as a step."""
    feed, rails, load = gate_letters(build, gates)
    for letter, phase in (
        (feed, Phase.GATE_FEED),
        (rails, Phase.GATE_RAILS),
        (load, Phase.GATE_LOADS),
    ):
        if letter and not (letter == rails == feed and phase == Phase.GATE_RAILS):
            yield WorkStep(
                f"gate {letter}",
                "check",
                f"Gate {letter} of the first power-up.",
                phase,
                gate=letter,
            )
    for gate in gates:
        if gate.closing:
            text = f"Gate {gate.letter} of the first power-up."
            yield WorkStep(LAST_GATE, "check", text, Phase.LAST, gate=gate.letter)


def _limiter(gates: tuple[Gate, ...]) -> WordsOrTold:
    """The limiter with its rating, from the gate at which all loads are on."""
    rating = gates[-1].power.limiter if gates else None
    if rating is None:
        return "the series limiter (rating not known)"
    return told("the series limiter (", PlainSpan(*rating, "A"), ")")


def _back_in(gates: tuple[Gate, ...]) -> str:
    """That the limiter, which a motor would trip, goes in again at the last gate."""
    last = [g.letter for g in gates if g.closing]
    return f" (it goes in again at gate {last[0]})" if last else ""


def _volts_of_each(build: Build) -> tuple[Measure, ...]:
    """Room for the volts of each battery that flies joined."""
    named = ((p.key, n) for p in joined_packs(build) for n in range(1, p.joined + 1))
    return tuple(Measure(f"{key}, battery {n}", "see the step", "V") for key, n in named)


def powered_steps(build: Build, gates: tuple[Gate, ...]) -> Iterator[WorkStep]:
    """Set-up, the first battery, and what turns: all under power, before anything wet goes on. Each
    ends without it.
    """
    off = _off(build, gates)
    yield from _software(build)
    text = (
        "Do the set-up over USB, battery and supply unplugged: ports, orientation, fail-safe."
        " Connect USB together with a battery or supply only if the board's maker allows it. Then"
        f" {usb_off(control_board(build))}"
    )
    yield WorkStep("setup", "check", text, Phase.SET, power="usb")
    motors = build.of_kind(Motor)
    matching = matching_words(build)
    if matching is not None:
        yield WorkStep("match", "check", matching, Phase.SET, measures=_volts_of_each(build))
    if gates or motors:
        which = f"the first battery{f' ({smallest_pack(build)})' if len(build.packs) > 1 else ''}"
        first = build.packs.get(smallest_pack(build))
        plug_in = told(
            "Now the battery feeds the boards, at storage charge, on ground that cannot burn. ",
            first_plugged_in(first, which, _limiter(gates)),
            " Keep everything clear of the motors. If the limiter trips, or something warms or"
            f" smells, unplug at once. After 10 s without that: {off}",
        )
        yield WorkStep("first pack", "plug", plug_in, Phase.SET, power="battery")
    if gates or motors:
        yield from _binding(build, off)
    if motors:
        text = (
            f"Propellers off, a fan on the boards. Take the limiter out{_back_in(gates)}, then plug in"
            " the battery."
            " Check each motor's direction with a strip of paper. Then go through what needs the battery"
            f" under 'To try before the first flight'. At the end: {off}"
        )
        readings = direction_readings(build)
        yield WorkStep("rotation", "check", text, Phase.SET, measures=readings, power="battery")
    if gates or motors:
        text = (
            f"Check that {every_battery(build)}, supply and USB are unplugged at the aircraft. Put"
            f" what was plugged in aside. Check that {battery_empty(build, gates)}."
        )
        yield WorkStep("unplug", "check", text, Phase.SET)


def _software(build: Build) -> Iterator[WorkStep]:
    """What is loaded before the set-up, where the build says it."""
    setup = build.source.setup
    if not setup.software or not build.of_kind(*CENTRES):
        return
    made_for = f", made for {setup.software_for}" if setup.software_for else ""
    text = (
        "Save the settings as they came to a file, over USB, battery and supply unplugged. Then"
        f" load: {setup.software}{made_for}. Do not unplug while it loads. Then"
        f" {usb_off(control_board(build))}"
    )
    yield WorkStep("software", "check", text, Phase.SET, power="usb")


def _binding(build: Build, off: str) -> Iterator[WorkStep]:
    """The receiver, on a board or by itself, gets to know its transmitter."""
    on_boards = (f for f in build.of_kind(*CENTRES) if getattr(f.part, "receiver_built_in", False))
    for f in (*build.of_kind(Receiver), *on_boards):
        text = (
            "Propellers off, a fan on the boards. Plug in the battery through the limiter. Bind"
            f" {f.part.name} to the transmitter as its maker says. Each stick must move its own"
            f" channel. At the end: {off}"
        )
        yield WorkStep(f"bind {f.key}", "check", text, Phase.SET, power="battery")


def charging_steps(build: Build) -> Iterator[WorkStep]:
    """The first charge, away from the aircraft, with the setting of each battery: last of all, since
    every gate is passed with batteries at storage charge.
    """
    if not build.packs:
        return
    rows = [charge_words(build, key) for key in build.packs]
    apart = any(p.use.charging is None for p in joined_packs(build))
    text = told(
        "Charge each battery for the first flight, away from the aircraft, on ground that cannot"
        " burn. Watch it all the time. Its main lead goes to the charger, its balance lead into its own"
        " charger port.",
        *((" Batteries that fly joined are charged each by itself, not joined.",) if apart else ()),
        *(piece for row in rows for piece in (" Set the charger for ", *row.pieces, ".")),
    )
    yield WorkStep("charge", "check", text, Phase.LAST)


def charge_words(build: Build, key: str) -> Told:
    """What a charger is set to for one battery: chemistry, cells and amperes; 1C where nobody says
    how fast it may be charged.
    """
    part = build.packs[key].part
    cells = f"{part.cells.low} cells" if part.cells is not None else "cells not known"
    kind = (part.chemistry or "chemistry not known").replace("-", " ")
    if part.capacity is None:
        return Told((f"{key}: {kind}, {cells}, current not known, see its label",))
    least = part.capacity.value / 3600.0
    marked = part.charge.current(part.capacity.value) if part.charge is not None else least
    return Told((f"{key}: {kind}, {cells}, at most ", PlainValue(marked, "A")))


def smallest_pack(build: Build) -> str:
    """The battery with the least charge; '' without one."""
    return min(build.packs, key=lambda k: _charge(build, k), default="")


def _charge(build: Build, pack: str) -> float:
    return build.packs[pack].capacity or 0.0
