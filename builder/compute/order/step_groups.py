"""What is one step for the hand: like things and the harness of one device, each with its boxes.

One major operation a step, like fastenings together, an explicit order: Agrawala and others,
'Designing effective step-by-step assembly instructions', ACM Transactions on Graphics 22 (2003),
828 to 837. The most boxes of a step are common practice, no source.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace

from builder.compute.joints.bench_pieces import is_centre
from builder.compute.joints.common_iron import common_iron
from builder.compute.joints.joints import Joint
from builder.compute.order.group_words import group_words
from builder.compute.order.steps.joint_steps import tin_id
from builder.compute.order.steps.work_step import Phase, StepGroup, WorkStep
from builder.model.build import Build
from builder.model.kinds import Connector, Motor

MOST_BOXES = 8
_Key = tuple[str, str, int]  # action, device, stage


def device_of(build: Build, joint: Joint) -> str:
    """The piece whose harness a joint belongs to: a load's own, else what its wires lead to; at
    battery contacts the connector.
    """
    if not is_centre(build, joint.contact.part):
        return joint.board
    leads = [c for c in joint.others if isinstance(build.parts[c.part].part, Connector)]
    return (leads or list(joint.others))[0].board


def _of_joint(build: Build, step: WorkStep, joint: Joint) -> _Key:
    device = device_of(build, joint)
    under = " underside" if joint.side == "under" else ""
    at = f" at {joint.board}" if device != joint.board else ""
    return "solder", f"{device}{at}{under}", step.stage


def _of_tin(build: Build, step: WorkStep, steps: Mapping[str, WorkStep]) -> _Key | None:
    """The harness that a board is tinned for, where it is one; else the board's own group."""
    place = (step.board, step.side, step.stage)
    keys = {
        _of_joint(build, s, s.joint)
        for s in steps.values()
        if s.joint is not None and (s.board, s.side, s.stage) == place
    }
    if len(keys) == 1:
        return keys.pop()
    under = " underside" if step.side == "under" else ""
    return ("tin", f"{step.board}{under}", step.stage) if step.board else None


def _part_of(build: Build, name: str) -> str:
    """The key of the part that a step's name ends in; '' where it names none."""
    key = name.split(".")[0]
    return key if key in build.parts else ""


def _of_motor(build: Build, action: str, name: str, step: WorkStep) -> _Key | None:
    part = _part_of(build, name)
    if not part or not isinstance(build.parts[part].part, Motor):
        return None
    return action, part, step.stage


def _of_load(build: Build, action: str, name: str, step: WorkStep) -> _Key | None:
    if action in ("cut", "slide"):
        return "prepare", _part_of(build, name) or name, step.stage
    if action == "antenna":
        return "fit", "antennas", step.stage
    if action == "fit" and step.phase == Phase.LOADS and step.part:
        return "mount", "small parts", step.stage
    if action == "lay" or (action == "mount" and step.phase == Phase.LOADS):
        return "place", "loads", step.stage
    if step.phase == Phase.COVER and action == "cover":
        return "cover", "radios", step.stage
    if step.phase == Phase.COVER and action in ("mount", "tie"):
        return "tie", "down", step.stage
    return None


def _key(build: Build, step: WorkStep, steps: Mapping[str, WorkStep]) -> _Key | None:
    """What a step is grouped by; None for one that stands alone."""
    if step.own is not None or step.gate or step.power:
        return None
    if step.joint is not None:
        return _of_joint(build, step, step.joint)
    action, _, name = step.id.partition(" ")
    if action == "tin":
        return _of_tin(build, step, steps)
    if action in ("ring", "phases") and is_centre_name(build, name):
        return "check", name, step.stage
    if action in ("ring", "plug") and f"ring {name}" in steps:
        return "join", name, step.stage
    if action in ("spin", "mount", "trim", "plug"):
        found = _of_motor(build, action, name, step)
        if found is not None:
            return found
    return _of_load(build, action, name, step)


def is_centre_name(build: Build, name: str) -> bool:
    """Whether a name is that of a board that others are wired to."""
    part = _part_of(build, name)
    return bool(part) and is_centre(build, part)


def _rank(step: WorkStep) -> tuple[bool, bool]:
    """Pads are tinned first, then ground is soldered."""
    return step.do != "tin", step.joint is not None and not step.joint.ground


def kindred_steps(build: Build, steps: Mapping[str, WorkStep]) -> tuple[tuple[str, ...], ...]:
    """Names of the steps that are one step for the hand, at most eight together, each in its usual
    order but with the ground first; those that stand alone are left out.
    """
    found: dict[_Key, list[WorkStep]] = {}
    for step in steps.values():
        key = _key(build, step, steps)
        if key is not None:
            found.setdefault(key, []).append(step)
    out = []
    for members in found.values():
        ordered = sorted(members, key=_rank)
        rows = [ordered[i : i + MOST_BOXES] for i in range(0, len(ordered), MOST_BOXES)]
        out += [tuple(s.id for s in row) for row in rows if len(row) > 1]
    return tuple(out)


def _with_iron(
    build: Build, steps: Iterable[WorkStep], joints: Sequence[Joint]
) -> dict[str, WorkStep] | None:
    """Steps of one board with the iron that serves all of their joints; None where none does."""
    iron = common_iron(build, joints)
    if iron is None:
        return None
    return {s.id: replace(s, tip=iron[0], iron=iron[1]) for s in steps}


def _tinned(
    build: Build, names: Collection[str], joints: Sequence[Joint], here: Collection[Joint]
) -> list[Joint]:
    """The joints whose pads are tinned by steps, without those that are soldered here as well."""
    return [j for j in joints if tin_id(build, j) in names and j not in here]


def with_common_irons(
    build: Build, steps: Mapping[str, WorkStep], joints: Sequence[Joint]
) -> dict[str, WorkStep]:
    """The steps with one tip and temperature for all that is soldered on a side of a board in one
    stage; where a narrow row does not allow it, for each harness; else as each joint asks for.
    """
    places: dict[tuple[str, str, int], list[WorkStep]] = {}
    for step in steps.values():
        if step.joint is not None or (step.do == "tin" and step.board and step.own is None):
            places.setdefault((step.board, step.side, step.stage), []).append(step)
    out = dict(steps)
    for mine in places.values():
        ids = {s.id for s in mine}
        here = [s.joint for s in mine if s.joint is not None]
        found = _with_iron(build, mine, [*here, *_tinned(build, ids, joints, here)])
        if found is not None:
            out |= found
            continue
        for row in kindred_steps(build, {s.id: s for s in mine}):
            members = [steps[n] for n in row]
            of_row = [s.joint for s in members if s.joint is not None]
            tinned = _tinned(build, set(row), joints, of_row)
            out |= _with_iron(build, members, [*of_row, *tinned]) or {}
    return out


def _name(build: Build, members: Sequence[WorkStep], steps: Mapping[str, WorkStep]) -> str:
    """The lasting name of a group: its action and its device."""
    key = _key(build, members[-1], steps)
    return f"{key[0]} {key[1]}" if key is not None else members[0].id


def named_groups(
    build: Build, rows: Sequence[Sequence[WorkStep]], steps: Mapping[str, WorkStep]
) -> tuple[StepGroup, ...]:
    """The groups of an order with their names and words. A name that is taken already has the
    first of its steps behind it.
    """
    taken = set(steps)
    out = []
    for row in rows:
        if len(row) == 1:
            out.append(StepGroup(row[0].id, row[0].text, tuple(row)))
            continue
        name = _name(build, row, steps)
        if name in taken:
            name = f"{name}, {row[0].id}"
        taken.add(name)
        out.append(StepGroup(name, group_words(build, name, row), tuple(row)))
    return tuple(out)
