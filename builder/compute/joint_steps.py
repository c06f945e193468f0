"""Steps of cutting, tinning and soldering: the connector with its cups, then every contact of every board."""

from collections.abc import Iterable, Iterator

from builder.compute.bench_pieces import cuts, is_centre, mm, pieces
from builder.compute.contacts import Join
from builder.compute.joints import Joint
from builder.compute.steps import Measure, Phase, WorkStep
from builder.model.build import Build, Contact, WireRun
from builder.model.kinds import Capacitor, Connector, SpeedController


def cut_step(build: Build, board: str, runs: list[WireRun], joints: Iterable[Joint]) -> WorkStep:
    """Wires that belong to one piece, cut and stripped together."""
    one = len(runs) == 1
    kinds: dict[str, list[str]] = {}
    for run in runs:
        gauge = run.wire.gauge.label if run.wire.gauge is not None else "wire"
        length = mm(run.wire.length.value) if run.wire.length is not None else "as long as it lies"
        kinds.setdefault(f"{gauge}, {length}", []).append(run.wire.colour or "any colour")
    words = "; ".join(f"{k}: {', '.join(c)}" for k, c in kinds.items())
    mine = [j for j in joints if any(w.wire is r.wire for w in j.wires for r in runs)]
    bare = sorted({j.heat.strip for j in mine})
    strip = f" Strip {' or '.join(mm(b) for b in bare)}." if bare else ""
    connector = isinstance(build.parts[board.split(".")[0]].part, Connector)
    sleeve = f" Slide {'its sleeve' if one else 'a sleeve'} onto {'it' if one else 'each'}." if connector else ""
    text = f"Cut the {'wire' if one else f'{len(runs)} wires'} of {board} ({words}).{strip}{sleeve}"
    phase = Phase.CONNECTOR if connector else min([phase_of(build, j) for j in mine] + [Phase.LEADS])
    return WorkStep(f"cut {board}", "fit", text, phase, board)


def battery_steps(build: Build, joints: tuple[Joint, ...]) -> Iterator[WorkStep]:
    """The connector, the capacitor and the battery contacts."""
    groups = cuts(build)
    for f in build.of_kind(Connector):
        cups = [j for j in joints if j.cup and j.contact.part == f.key]
        for board in pieces(f):
            if board in groups:
                yield cut_step(build, board, groups[board], joints)
        if cups:
            text = f"Plug a mate into {f.key}: it keeps the contacts in line while the cups are hot."
            yield WorkStep(f"mate {f.key}", "plug", text, Phase.CONNECTOR, f.key)
            yield from (joint_step(build, j, Phase.CONNECTOR) for j in cups)
            text = f"Draw the sleeves over the cups of {f.key}, shrink them, and take the mate off when it is cold."
            yield WorkStep(f"sleeve {f.key}", "cover", text, Phase.CONNECTOR, f.key)
    for capacitor in build.of_kind(Capacitor):
        legs = [r for r in build.wires if capacitor.key in (r.start.part, r.end.part) and r.wire.trim_to is not None]
        to = f" to {mm(legs[0].wire.trim_to.value)}" if legs and legs[0].wire.trim_to is not None else ""
        text = f"Cut the legs of {capacitor.key}{to} and sleeve them. The stripe on its side marks minus."
        yield WorkStep(f"legs {capacitor.key}", "fit", text, Phase.BATTERY, capacitor.key)
    for esc in build.of_kind(SpeedController):
        text = f"Look at the polarity at the battery contacts of {esc.key} and measure between them."
        reading = (Measure("plus to minus", "no steady ring", "Ω"),)
        yield WorkStep(f"ring {esc.key}", "check", text, Phase.BATTERY, esc.key, measures=reading)


def _wire_words(build: Build, joint: Joint, join: Join, other: Contact) -> str:
    """One wire as it lies in the hand: by its far end, or by where that will go."""
    wire = join.wire
    fitted = wire is not None and wire.lead == "fitted"
    colour = f"{wire.colour} " if wire is not None and wire.colour else ""
    what = f"{colour}{'lead' if fitted else 'wire'}"
    mine = not fitted and any(
        joint.board == board for board, runs in cuts(build).items() for r in runs if r.wire is wire
    )
    return f"the {what} for {other}" if mine else f"the {what} of {other}"


def joint_words(build: Build, joint: Joint) -> str:
    """What is soldered to what, with colours."""
    ends = [_wire_words(build, joint, join, other) for join, other in zip(joint.wires, joint.others, strict=True)]
    together = " in one heating" if len(ends) > 1 else ""
    return f"Solder {' and '.join(ends)} to {joint.contact}{together}."


def joint_step(build: Build, joint: Joint, phase: int) -> WorkStep:
    """One heating."""
    heat = joint.heat
    return WorkStep(
        joint.key, "solder", joint_words(build, joint), phase, joint.board, joint.side, heat.tip, heat.setting, joint
    )


def phase_of(build: Build, joint: Joint) -> Phase:
    """When a joint is usually made."""
    pad = build.pad(joint.contact)
    if joint.side == "under" and is_centre(build, joint.contact.part):  # out of reach once the board is mounted
        return Phase.BATTERY if isinstance(build.parts[joint.contact.part].part, SpeedController) else Phase.LEADS
    if isinstance(build.parts[joint.contact.part].part, SpeedController):
        if pad.battery:
            return Phase.BATTERY
        if pad.role == "phase":
            return Phase.MOTORS
    return Phase.LOADS if is_centre(build, joint.contact.part) else Phase.LEADS


def joint_steps(build: Build, joints: tuple[Joint, ...]) -> Iterator[WorkStep]:
    """Tinning and joints, grounds first on each board."""
    on_boards = sorted((j for j in joints if not j.cup), key=lambda j: not j.ground)
    tinned = dict.fromkeys((j.board, j.side, j.tip) for j in on_boards)
    for board, side, tip in tinned:
        mine = [j for j in on_boards if (j.board, j.side, j.tip) == (board, side, tip)]
        where = " on the underside" if side == "under" else ""
        pads = ", ".join(j.contact.pad for j in mine)
        text = f"Tin {pads} of {board}{where}."
        phase = min(phase_of(build, j) for j in mine)
        iron = min(j.heat.setting for j in mine)
        yield WorkStep(tin_id(mine[0]), "tin", text, phase, board, side, tip, iron)
    yield from (joint_step(build, j, phase_of(build, j)) for j in on_boards)


def tin_id(joint: Joint) -> str:
    """The name of the step that tins a joint's pad."""
    return f"tin {joint.board} {joint.tip}" + (" under" if joint.side == "under" else "")
