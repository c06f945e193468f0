"""What it takes at the bench to turn one build into another: joints, and hours by the usual times."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from builder.compute.compare.part_changes import PartChange
from builder.compute.compare.wiring_difference import JoinChange
from builder.compute.joints.joints import Joint
from builder.compute.order.effort import WorkKind, kind_of_work, time_of_work
from builder.compute.order.work_order import Cycle, Plan
from builder.model.build import Build, WireRun


@dataclass(frozen=True, eq=False)
class TurningWork:
    """Wires to take off the first and to put on the second, joints to heat for each, parts to take off
    and to mount, gates and steps under power to go through again, and the time in s from least to
    most; None where the second has no order of work.
    """

    loose: tuple[str, ...]
    made: tuple[str, ...]
    joints_off: int
    joints_on: int
    parts_off: int
    parts_on: int
    gates: int
    powered: int
    time: tuple[float, float] | None


def ends_of_wire(run: WireRun) -> tuple[str, str]:
    """The two contacts of a wire by name, so that one written from its other end is the same."""
    low, high = sorted((str(run.start), str(run.end)))
    return low, high


def _touched(
    build: Build, keys: set[str], changed: set[tuple[str, str]]
) -> tuple[tuple[str, str], ...]:
    """Wires that end at a part that is changed, and wires that the other build lacks or has
    otherwise.
    """
    runs = (
        r for r in build.wires if {r.start.part, r.end.part} & keys or ends_of_wire(r) in changed
    )
    return tuple(dict.fromkeys(ends_of_wire(r) for r in runs))


def _heated(joints: tuple[Joint, ...], wires: tuple[tuple[str, str], ...]) -> int:
    """Joints at which one of these wires ends."""
    return sum(not set(wires).isdisjoint(heated_at(j)) for j in joints)


def heated_at(joint: Joint) -> tuple[tuple[str, str], ...]:
    """The wires of a joint by their ends, those that end at its contact."""
    pairs = (sorted((str(j.a), str(j.b))) for j in joint.wires)
    return tuple((low, high) for low, high in pairs if str(joint.contact) in (low, high))


def again_in(plan: Plan | Cycle) -> Mapping[str, int] | None:
    """Gates and steps under power of an order of work."""
    if isinstance(plan, Cycle):
        return None
    kinds = Counter(map(kind_of_work, plan.steps))
    return {"gates": kinds["gate"], "powered": kinds["powered"]}


def turning_work(
    builds: tuple[Build, Build],
    joints: tuple[tuple[Joint, ...], tuple[Joint, ...]],
    parts: tuple[PartChange, ...],
    wiring: tuple[JoinChange, ...],
    plan: Plan | Cycle,
) -> TurningWork:
    """The work from the first to the second; all gates are gone through again where a part or a wire
    differs.
    """
    off = {p.keys[0] for p in parts if p.how in ("swapped", "dropped")}
    on = {p.keys[1] for p in parts if p.how in ("swapped", "added")}
    changed = {c.ends for c in wiring if c.differs}
    loose = _touched(builds[0], off, changed)
    made = _touched(builds[1], on, changed)
    joints_off, joints_on = _heated(joints[0], loose), _heated(joints[1], made)
    flying = [p for p in parts if p.grams is not None]
    fitted_off = sum(p.how != "same" and p.keys[0] in off for p in flying)
    fitted_on = sum(p.how != "same" and p.keys[1] in on for p in flying)
    again = again_in(plan)
    counts = again if again is not None and (loose or made or off or on) else {}
    gates, powered = counts.get("gates", 0), counts.get("powered", 0)
    heated, fitted = joints_off + joints_on, fitted_off + fitted_on
    work: dict[WorkKind, int] = {"joint": heated, "step": fitted, "gate": gates, "powered": powered}
    time = time_of_work(work) if again is not None else None
    off_words = tuple(f"{low} to {high}" for low, high in loose)
    on_words = tuple(f"{low} to {high}" for low, high in made)
    counted = joints_off, joints_on, fitted_off, fitted_on, gates, powered
    return TurningWork(off_words, on_words, *counted, time)
