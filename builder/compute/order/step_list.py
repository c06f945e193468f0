"""The steps of a build, derived from what it holds. The builder's own steps are in own_steps.py."""

from collections.abc import Iterator

from builder.compute.figures.told import PlainSpan, PlainValue, Told, WordsOrTold, told
from builder.compute.geometry.seat_words import seat_words
from builder.compute.joints.bench_pieces import CENTRES, coating_steps, frame_of, gate_letters
from builder.compute.joints.joints import Joint
from builder.compute.loops.matching import matching_words
from builder.compute.loops.plugging import every_battery, first_plugged_in
from builder.compute.order.joint_steps import battery_steps, joint_steps
from builder.compute.order.load_steps import load_steps
from builder.compute.order.mounting_steps import control_steps, motor_steps, plug_steps
from builder.compute.order.part_steps import (
    carried_covers,
    frame_steps,
    has_strap,
    loose_parts,
    with_screws,
)
from builder.compute.order.propeller_step import direction_readings, propeller_steps
from builder.compute.order.steps import LAST_GATE, Gathered, Measure, Phase, WorkStep
from builder.compute.power_up.emptied import battery_empty, control_board, wait_for_rails
from builder.compute.power_up.power_gates import Gate
from builder.model.build import Build, Fitted, piece_names
from builder.model.kinds import (
    Antenna,
    Capacitor,
    CombinedBoard,
    FlightController,
    Motor,
    Payload,
    Receiver,
)


def _off(build: Build, gates: tuple[Gate, ...]) -> str:
    """How a step under power from the battery ends."""
    return f"unplug {every_battery(build)} and wait until {battery_empty(build, gates)}."


def _usb_off(board: Fitted | None) -> str:
    """How a step under power from USB ends."""
    return f"unplug USB and {wait_for_rails(board)}."


def _accept(build: Build) -> Iterator[WorkStep]:
    at = Phase.ACCEPT
    yield WorkStep("weigh", "check", "Weigh and photograph every part as it came.", at)
    for f in build.of_kind(FlightController, CombinedBoard):
        yield WorkStep(
            f"usb {f.key}",
            "check",
            f"Connect {f.part.name} by USB alone: no battery, no supply. Check that the computer"
            f" finds it. Then {_usb_off(f)}",
            at,
            f.key,
            power="usb",
        )
    readings = (
        Measure("three pairs of phases", "about equal", "Ω"),
        Measure("phase to base", "open", "Ω"),
    )
    for f in build.of_kind(Motor):
        for board in piece_names(f):
            yield WorkStep(
                f"spin {board}",
                "check",
                f"Spin {board} by hand and measure its phases.",
                at,
                board,
                measures=readings,
            )
    text = (
        "Put everything together without solder, propellers or battery. Mark the arrow, the upper"
        " side and where the battery leads leave."
    )
    yield WorkStep("dry fit", "fit", text, Phase.DRY, frame_of(build))
    if build.screws:
        text = "Choose the screws of each place and write place and length on their bag."
        yield WorkStep("screws", "fit", text, Phase.DRY, frame_of(build))


def _gates(build: Build, gates: tuple[Gate, ...]) -> Iterator[WorkStep]:
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


def _powered(build: Build, gates: tuple[Gate, ...]) -> Iterator[WorkStep]:
    """Set-up, the first battery, and what turns: all under power, before anything wet goes on. Each
    ends without it.
    """
    off = _off(build, gates)
    yield from _software(build)
    text = (
        "Do the set-up over USB, battery and supply unplugged: ports, orientation, fail-safe."
        " Connect USB together with a battery or supply only if the board's maker allows it. Then"
        f" {_usb_off(control_board(build))}"
    )
    yield WorkStep("setup", "check", text, Phase.SET, power="usb")
    motors = build.of_kind(Motor)
    matching = matching_words(build)
    if matching is not None:
        yield WorkStep("match", "check", matching, Phase.SET)
    if gates or motors:
        which = f"the first battery{f' ({smallest_pack(build)})' if len(build.packs) > 1 else ''}"
        plug_in = told(
            first_plugged_in(build.packs.get(smallest_pack(build)), which, _limiter(gates)),
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
            " Check each motor's direction with a strip of paper, then all else under 'To try before the first"
            f" flight'. At the end: {off}"
        )
        readings = direction_readings(build)
        yield WorkStep("rotation", "check", text, Phase.SET, measures=readings, power="battery")
    if gates or motors:
        text = (
            f"Check that {every_battery(build)}, supply and USB are unplugged at the aircraft. Put"
            f" what was plugged in aside. Check that {battery_empty(build, gates)}."
        )
        yield WorkStep("unplug", "check", text, Phase.SET)
    yield from _charging(build)


def _software(build: Build) -> Iterator[WorkStep]:
    """What is loaded before the set-up, where the build says it."""
    setup = build.source.setup
    if not setup.software or not build.of_kind(*CENTRES):
        return
    made_for = f", made for {setup.software_for}" if setup.software_for else ""
    text = (
        "Save the settings as they came to a file, over USB, battery and supply unplugged. Then"
        f" load: {setup.software}{made_for}. Do not unplug while it loads. Then"
        f" {_usb_off(control_board(build))}"
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


def _charging(build: Build) -> Iterator[WorkStep]:
    """The first charge, away from the aircraft, with the setting of each battery."""
    if not build.packs:
        return
    rows = [charge_words(build, key) for key in build.packs]
    text = told(
        "Charge each battery for the first flight, away from the aircraft, on ground that cannot"
        " burn. Watch it all the time. Plug its balance lead into its own charger port.",
        *(piece for row in rows for piece in (" Set the charger for ", *row.pieces, ".")),
    )
    yield WorkStep("charge", "check", text, Phase.SET)


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


def _antenna_places(build: Build) -> Iterator[str]:
    """Where each antenna stays, but for one that a step of the builder's own puts there."""
    own = {(s.part or "").split(".")[0] for s in build.source.steps}
    for f in build.of_kind(Antenna):
        where = seat_words(f)
        if where and f.key not in own:
            yield f" Fix {f.part.name}{where}."


def _ends(build: Build) -> Iterator[WorkStep]:
    if build.wires:
        capacitor = ", the capacitor" if build.of_kind(Capacitor) else ""
        antennas = ", antenna leads" if build.of_kind(Antenna) else ""
        text = f"Tie down what may swing: wires clear of propellers and edges{capacitor}{antennas}."
        text += "".join(_antenna_places(build))
        for cover in carried_covers(build):
            text = f"{text} Tape the {cover} aside until it is fitted: it must not reach a motor."
        yield WorkStep("tie", "fit", text, Phase.COVER)
    coats = bool(build.of_kind(*CENTRES))
    if coats:
        text = (
            "Optional: coat the boards. Glue what a tie does not hold. Mask contacts, sockets,"
            " buttons and sensors: they stay bare."
        )
        yield WorkStep("coat", "cover", text, Phase.COAT)
    if coats or coating_steps(build):
        text = (
            "Let coating and glue dry as long as their labels say, overnight where they say"
            " nothing. No power until then."
        )
        yield WorkStep("dry", "check", text, Phase.COAT)
    yield WorkStep(
        "close", "mount", "Close the frame. Pinch no wire.", Phase.CLOSE, frame_of(build)
    )
    yield from propeller_steps(build)
    reading = (Measure("weight", "see the weight table", "g"),)
    carried, then = (" and payload", ", put the payload on") if build.of_kind(Payload) else ("", "")
    holds, clear = "Put each battery in its place", "Keep its leads clear of edges and propellers."
    if has_strap(build):
        holds = "Strap each battery on"
        clear = "Keep the strap off its leads and its balance lead."
    text = (
        f"Weigh the finished aircraft with propellers, without battery{carried}. {holds} without"
        f" plugging it in{then}, weigh, find the balance. {clear}"
    )
    yield WorkStep("balance", "check", text, Phase.LAST, frame_of(build), measures=reading)


def step_list(build: Build, joints: tuple[Joint, ...], gates: tuple[Gate, ...]) -> Gathered:
    """All derived steps in the usual order; ties between orders are broken by it."""
    made = (
        _accept(build),
        frame_steps(build),
        *(steps(build, joints) for steps in (battery_steps, motor_steps, load_steps, joint_steps)),
        plug_steps(build),
        control_steps(build),
        _gates(build, gates),
        _powered(build, gates),
        _ends(build),
    )
    found = with_screws(build, [step for steps in made for step in steps])
    found += loose_parts(build, found)
    plan = Gathered()
    for step in sorted(found, key=lambda s: s.phase):
        plan.add(step)
    return plan
