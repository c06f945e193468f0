"""Steps of cutting, tinning and soldering: the connector with its cups, then every contact of every
board.
"""

from collections.abc import Iterable, Iterator, Sequence

from builder.compute.circuit.contacts import Join
from builder.compute.joints.bench_pieces import cuts, hanging_loads, is_centre, mm
from builder.compute.joints.joints import Joint, touches
from builder.compute.joints.strips import before_power, hidden, in_place, on_battery, strip_words
from builder.compute.order.steps.work_step import Measure, Phase, WorkStep
from builder.model.build import Build, Contact, WireRun, piece_names
from builder.model.kinds import Capacitor, Connector, SpeedController


def _ends(build: Build, board: str, mine: list[Joint]) -> str:
    """Which ends of cut wires are stripped and tinned at once; those that are trimmed in place are
    not.
    """
    now = [j for j in mine if not in_place(build, j)]
    if not now:
        return " Strip nothing yet: the ends are trimmed in place."
    if len({j.heat.strip for j in now}) == 1:
        ends = "both ends" if len(now) == len(mine) else f"the ends for {board}"
        words = f" {strip_words(now)} at {ends}"
    else:
        sides = {j.board == board: j.board for j in now}
        said = [
            (to, [j for j in now if (j.board == board) == near])
            for near, to in sorted(sides.items(), reverse=True)
        ]
        words = ": " + "; ".join(f"towards {to} {strip_words(some)}" for to, some in said)
    wait = (
        ""
        if len(now) == len(mine)
        else f" {_waiting(now, mine)} wait until they are trimmed in place."
    )
    return f" Strip, twist and tin{words}.{wait}"


def _waiting(now: Sequence[Joint], mine: Sequence[Joint]) -> str:
    """Which ends are trimmed in place: by their contacts where only some of a board's are."""
    later = [j for j in mine if j not in now]
    if {j.board for j in now}.isdisjoint(j.board for j in later):
        return "The other ends"
    return f"The ends for {', '.join(str(j.contact) for j in later)}"


def _sleeves_for_cups(runs: Sequence[WireRun], joints: Iterable[Joint]) -> str:
    """A sleeve for each end that goes into a cup, on the wire before that end is soldered. A wire
    from cup to cup takes two; '' where no wire ends in a cup.
    """
    cups = {j.contact for j in joints if j.cup}
    by_count: dict[int, list[WireRun]] = {}
    for run in runs:
        by_count.setdefault(len({run.start, run.end} & cups), []).append(run)
    none, single, double = (by_count.get(n, []) for n in range(3))
    if len(runs) == 1 and single:
        return " Slide its sleeve onto it."
    if len(runs) == 1 and double:
        return " Slide two sleeves onto it, one for the cup at each end."
    said = []
    if single:
        each = f"onto {_wires_by_end(single)}" if none or double else "onto each"
        said.append(f" Slide a sleeve {each}.")
    if double:
        each = f"onto {_wires_by_end(double)}" if none or single else "onto each"
        said.append(f" Slide two sleeves {each}, one for the cup at each end.")
    return "".join(said)


def _wires_by_end(runs: Sequence[WireRun]) -> str:
    """Wires by their colour and both ends."""
    named = (f"{r.wire.colour or ''} wire from {r.start} to {r.end}".strip() for r in runs)
    return " and ".join(f"the {name}" for name in named)


def cut_step(
    build: Build, board: str, runs: Sequence[WireRun], joints: Iterable[Joint]
) -> WorkStep:
    """Wires that belong to one piece, cut together; ends that are not trimmed in place are stripped
    and tinned.
    """
    one = len(runs) == 1
    kinds: dict[str, list[str]] = {}
    for run in runs:
        gauge = run.wire.gauge.label if run.wire.gauge is not None else "wire"
        length = mm(run.wire.length.value) if run.wire.length is not None else "as long as it lies"
        kinds.setdefault(f"{gauge}, {length}", []).append(run.wire.colour or "any colour")
    words = "; ".join(f"{k}: {', '.join(c)}" for k, c in kinds.items())
    mine = [j for j in joints if any(w.wire is r.wire for w in j.wires for r in runs)]
    connector = isinstance(build.parts[board.split(".")[0]].part, Connector)
    sleeve = _sleeves_for_cups(runs, mine)
    ends = _ends(build, board, mine) if mine else ""
    cut = "wire" if one else f"{len(runs)} wires"
    text = f"Cut the {cut} of {board} ({words}).{ends}{sleeve}"
    phase = (
        Phase.CONNECTOR if connector else min([phase_of(build, j) for j in mine] + [Phase.LEADS])
    )
    return WorkStep(f"cut {board}", "fit", text, phase, board)


def _each(build: Build, key: str) -> str:
    return f"each {key}" if build.parts[key].count > 1 else key


def _cups(build: Build, key: str, cups: list[Joint]) -> Iterator[WorkStep]:
    """A connector's cups: a mate, solder in the cups, the joints, the sleeves."""
    text = (
        f"Plug an empty mate into {_each(build, key)}, never a battery. The mate is the other half of"
        " the connector: it keeps the contacts in line while the cups are hot."
    )
    yield WorkStep(f"mate {key}", "plug", text, Phase.CONNECTOR, key)
    text = f"Tin the cups of {_each(build, key)}: flux, then solder until each is half full."
    tip, iron = cups[0].heat.tip, min(j.heat.setting for j in cups)
    yield WorkStep(f"tin {key} cups", "tin", text, Phase.CONNECTOR, key, "top", tip, iron)
    yield from (joint_step(build, j, Phase.CONNECTOR) for j in cups)
    text = (
        f"Draw the sleeves over the cups of {_each(build, key)}, shrink them, and take the mate off"
        " when it is cold."
    )
    yield WorkStep(f"sleeve {key}", "cover", text, Phase.CONNECTOR, key)


def battery_steps(build: Build, joints: tuple[Joint, ...]) -> Iterator[WorkStep]:
    """The connector, the capacitor and the battery contacts."""
    groups = cuts(build)
    for f in build.of_kind(Connector):
        cups = [j for j in joints if j.cup and j.contact.part == f.key]
        for board in piece_names(f):
            if board in groups:
                yield cut_step(build, board, groups[board], joints)
        if cups:
            yield from _cups(build, f.key, cups)
    for capacitor in build.of_kind(Capacitor):
        legs = [
            r
            for r in build.wires
            if capacitor.key in (r.start.part, r.end.part) and r.wire.trim_to is not None
        ]
        to = (
            f" to {mm(legs[0].wire.trim_to.value)}"
            if legs and legs[0].wire.trim_to is not None
            else ""
        )
        mine = [j for j in joints if touches(j, capacitor.key)]
        mark = " The stripe on its side marks minus." if capacitor.part.polarised else ""
        bare = f" but for {strip_words(mine, pads=False)} at their ends; tin those" if mine else ""
        text = f"Cut the legs of {capacitor.key}{to} and sleeve them{bare}.{mark}"
        yield WorkStep(f"legs {capacitor.key}", "fit", text, Phase.BATTERY, capacitor.key)
    stripe = ""
    if any(c.part.polarised for c in build.of_kind(Capacitor)):
        stripe = " The stripe of the capacitor must be at minus: the wrong way round it bursts."
    for esc in build.of_kind(SpeedController):
        text = (
            f"Look at the polarity at the battery contacts of {esc.key} and measure between"
            f" them.{stripe}"
        )
        reading = (Measure("plus to minus", "no beep that stays", "Ω"),)
        yield WorkStep(f"ring {esc.key}", "check", text, Phase.BATTERY, esc.key, measures=reading)
    yield from _tapes(build, joints)


def loose_ends(build: Build, joints: tuple[Joint, ...], board: str) -> list[tuple[Joint, Contact]]:
    """Joints of a board that are made before its first power, with the far ends that hang free
    then.
    """
    keys = {f.key for f in hanging_loads(build)}
    return [
        (j, other)
        for j in joints
        if j.contact.part == board and before_power(build, j)
        for other in j.others
        if other.part in keys
    ]


def _tapes(build: Build, joints: tuple[Joint, ...]) -> Iterator[WorkStep]:
    """Bare ends that would hang on a board under power."""
    for f in build.parts.values():
        loose = loose_ends(build, joints, f.key) if is_centre(build, f.key) else []
        if loose:
            ends = ", ".join(f"the wire for {other}" for _, other in loose)
            text = (
                f"Tape over the loose ends at {f.key}, each by itself: {ends}. The tape stays on"
                " until each is joined."
            )
            phase = Phase.BATTERY if isinstance(f.part, SpeedController) else Phase.LEADS
            yield WorkStep(f"tape {f.key}", "cover", text, phase)


def _wire_words(build: Build, joint: Joint, join: Join, other: Contact) -> str:
    """One wire as it lies in the hand: by its far end, or by where that will go."""
    wire = join.wire
    fitted = wire is not None and wire.lead == "fitted"
    colour = f"{wire.colour} " if wire is not None and wire.colour else ""
    what = f"{colour}{'lead' if fitted else 'wire'}"
    groups = cuts(build).items()
    boards = {board for board, runs in groups if any(r.wire is wire for r in runs)}
    mine = not fitted and joint.board in boards
    return f"the {what} for {other}" if mine else f"the {what} of {other}"


def joint_words(build: Build, joint: Joint) -> str:
    """What is soldered to what, with colours."""
    ends = [
        _wire_words(build, joint, join, other)
        for join, other in zip(joint.wires, joint.others, strict=True)
    ]
    together = " in one heating" if len(ends) > 1 else ""
    first = ""
    if joint.cup and all(w.wire is None or w.wire.lead == "fitted" for w in joint.wires):
        first = "Slide a sleeve on first. "  # no wire was cut that could bring one
    return f"{first}Solder {' and '.join(ends)} to {joint.contact}{together}."


def joint_step(build: Build, joint: Joint, phase: int) -> WorkStep:
    """One heating."""
    heat = joint.heat
    return WorkStep(
        joint.key,
        "solder",
        joint_words(build, joint),
        phase,
        joint.board,
        joint.side,
        heat.tip,
        heat.setting,
        joint,
    )


def phase_of(build: Build, joint: Joint) -> Phase:
    """When a joint is usually made."""
    drives = isinstance(build.parts[joint.contact.part].part, SpeedController)
    if drives and on_battery(build, joint):
        return Phase.BATTERY
    if hidden(build, joint):  # out of reach once the board is mounted
        if not drives:
            return Phase.LEADS
        return Phase.BATTERY if before_power(build, joint) else Phase.MOTORS
    if drives and build.pad(joint.contact).role == "phase":
        return Phase.MOTORS
    return Phase.LOADS if is_centre(build, joint.contact.part) else Phase.LEADS


def joint_steps(build: Build, joints: tuple[Joint, ...]) -> Iterator[WorkStep]:
    """Tinning and joints, grounds first on each board."""
    on_boards = sorted((j for j in joints if not j.cup), key=lambda j: not j.ground)
    tinned: dict[str, list[Joint]] = {}
    for joint in on_boards:
        tinned.setdefault(tin_id(build, joint), []).append(joint)
    for name, mine in tinned.items():
        board, side, tip = mine[0].board, mine[0].side, mine[0].tip
        where = " on the underside" if side == "under" else ""
        pads = ", ".join(j.contact.pad for j in mine)
        text = f"Tin {pads} of {board}{where}."
        phase = min(phase_of(build, j) for j in mine)
        iron = min(j.heat.setting for j in mine)
        yield WorkStep(name, "tin", text, phase, board, side, tip, iron)
    yield from (joint_step(build, j, phase_of(build, j)) for j in on_boards)


def tin_id(build: Build, joint: Joint) -> str:
    """The name of the step that tins a joint's pad. A pad of the battery is soldered long before the
    others, with a wider tip than they have room for: it is not tinned with them.
    """
    if joint.cup:
        return f"tin {joint.contact.part} cups"
    early = on_battery(build, joint) and joint.tip != "broad"
    side = " under" if joint.side == "under" else ""
    return f"tin {joint.board} {joint.tip}{side}{' battery' if early else ''}"
