"""The builder's own steps with their `before` and `after`, and what a step that covers or ties must
come after.
"""

from collections.abc import Collection, Mapping, Sequence

from builder.compute.joints.bench_pieces import coating_steps, is_centre, radios_of
from builder.compute.joints.joints import touches
from builder.compute.order.constraints.constraint_reach import ConstraintReach, follows, reached
from builder.compute.order.constraints.load_rules import is_cover
from builder.compute.order.steps.cover_parts import late_parts
from builder.compute.order.steps.work_step import LAST_GATE, Gathered, Measure, Phase, Why, WorkStep
from builder.model.build import Build
from builder.model.kinds import Antenna
from builder.model.source.build_source import BuildStep

_PHASE = {
    "fit": Phase.DRY,
    "tin": Phase.BATTERY,
    "solder": Phase.BATTERY,
    "cover": Phase.COVER,
    "mount": Phase.LOADS,
    "plug": Phase.CONTROL,
    "check": Phase.SET,
}
_AT_ITS_PLACE = ("fit", "mount", "cover")
_OVER = "what it covers is reached until then"


def meant(plan: Gathered, name: str) -> list[str]:
    """Steps that a builder's word means: a step's own name, or all whose name begins with it or
    that it touches.
    """
    if name in plan.steps:
        return [name]
    gates = [s.id for s in plan.steps.values() if s.gate and name == f"gate {s.gate}"]
    if gates:
        return gates
    doing, _, part = name.partition(" ")
    if doing == "solder" and part:
        found = [
            s.id for s in plan.steps.values() if s.joint is not None and touches(s.joint, part)
        ]
    else:
        found = plan.named(f"{name}.", f"{name} ")
    return found or ([part] if part in plan.steps else [])


def _covers(plan: Gathered, own: BuildStep, *, coats: bool) -> None:
    for name in (*own.covers, *own.coats):
        for step in list(plan.steps.values()):
            if step.joint is not None and touches(step.joint, name):
                plan.need(step.id, own.id, "a cover that is shrunk first has to be cut off again")
        plan.need(f"antenna {name}", own.id, "leads and antenna go on before the cover")
    if coats:
        for gate in plan.named("gate "):
            plan.need(gate, own.id, "coating comes off badly: it goes on what works")
        for powered in ("setup", "rotation", "unplug"):
            if powered not in own.before:
                plan.need(
                    powered, own.id, "no power goes on while coating or glue is wet", Why.SAFETY
                )
        plan.need(own.id, "dry", "what is wet is left alone")


def own_steps(build: Build, plan: Gathered) -> tuple[str, ...]:
    """Adds the builder's own steps and lines; gives the names that no step answers to."""
    unknown = []
    boards = {s.board for s in plan.steps.values()}
    coats = {i for i, _ in coating_steps(build)}
    late = {f.key for f in late_parts(build)}
    for i, own in enumerate(build.source.steps):
        readings = (Measure("reading", own.expect),) if own.expect else ()
        board, part = own.part if own.part in boards else "", own.part or ""
        phase = _phase(own, coats=i in coats, over=_puts_on(own, late))
        what = own.id, own.do, own.text, phase, board or "", own.side or "top"
        plan.add(WorkStep(*what, measures=readings, own=i, part=part))
    for i, own in enumerate(build.source.steps):
        why = own.reason or "the builder wants it so"
        for names, comes_before in ((own.before, True), (own.after, False)):
            for name in names:
                found = meant(plan, name)
                unknown += [] if found else [name]
                for other in found:
                    plan.need(
                        *((own.id, other) if comes_before else (other, own.id)), why, Why.BUILDER
                    )
        if own.do == "cover":
            _covers(plan, own, coats=i in coats)
    reach, homes = ConstraintReach(plan.steps, plan.constraints), _homes_of_all(build, plan)
    for own in build.source.steps:
        _after_its_part(plan, own, homes, reach)
    _over_all(build, plan, late)
    _last_of_all(build, plan)
    return tuple(dict.fromkeys(unknown))


def _puts_on(own: BuildStep, late: Collection[str]) -> bool:
    """Whether a step of the builder's own fits a cover."""
    return own.do in _AT_ITS_PLACE and (own.part or "").split(".")[0] in late


def _phase(own: BuildStep, *, coats: bool, over: bool) -> Phase:
    if coats:
        return Phase.COAT
    return Phase.CLOSE if over else _PHASE[own.do]


def _over_all(build: Build, plan: Gathered, late: Collection[str]) -> None:
    """A cover comes once nothing below it has to be reached, unless the builder's own lines put it
    elsewhere; his other steps come before it.
    """
    covers = [s.id for s in plan.steps.values() if is_cover(s)]
    owns = [own.id for own in build.source.steps if _puts_on(own, late)]
    last = {"close", LAST_GATE, "propellers", "balance", *covers, *owns}
    for cover in (*covers, *owns):
        reach = ConstraintReach(plan.steps, plan.constraints)
        for step in [s for s in plan.steps if s not in last]:
            if not reach.leads(cover, step):
                plan.need(step, cover, _OVER)


def _homes(build: Build, plan: Gathered, part: str) -> list[str]:
    """The steps that put a part in its place: its own, or those of the boards or radios that it
    hangs on.
    """

    def placed(key: str) -> list[str]:
        mount = f"mount {key}"
        mounted = [s for s in plan.steps if s == mount or s.startswith(f"{mount}.")]
        return plan.named(f"lay {key}") or mounted

    fitted = build.parts.get(part)
    if fitted is None:
        return []
    if placed(part):
        return placed(part)
    if isinstance(fitted.part, Antenna):
        radios = [s for f in radios_of(build, part) for s in placed(f.key)]
        return [*plan.named(f"antenna {part}"), *radios]
    ends = [(r.start.part, r.end.part) for r in build.wires]
    ends += [(p.start[0], p.end[0]) for p in build.plugs]
    boards = dict.fromkeys(
        b for pair in ends if part in pair for b in pair if b != part and is_centre(build, b)
    )
    return [s for b in boards for s in placed(b)]


def _homes_of_all(build: Build, plan: Gathered) -> dict[str, list[str]]:
    """The homes of every part that a step of the builder's own is about."""
    parts = {
        s.part.split(".")[0]
        for s in build.source.steps
        if s.part is not None and s.do in _AT_ITS_PLACE
    }
    return {part: _homes(build, plan, part) for part in sorted(parts)}


def _after_its_part(
    plan: Gathered, own: BuildStep, homes: Mapping[str, Sequence[str]], reach: ConstraintReach
) -> None:
    """A step that ties or leads a part comes once that part sits, unless the builder's own lines
    put it before.
    """
    if own.part is None or own.do not in _AT_ITS_PLACE:
        return
    why = "a part is tied and its leads are laid once it sits in its place"
    for home in homes[own.part.split(".")[0]]:
        if not reach.leads(own.id, home):
            reach.add(home, own.id)
            plan.need(home, own.id, why, Why.EASE)


def _after(plan: Gathered, start: str) -> set[str]:
    """All steps that some line puts after this one."""
    return reached(start, follows(plan.constraints))


def _last_of_all(build: Build, plan: Gathered) -> None:
    """Propellers and the scale stay last, unless the builder puts a step behind them."""
    ends = [s for s in ("close", LAST_GATE, "propellers", "balance") if s in plan.steps]
    behind = {s for last in ends for s in _after(plan, last)}
    for own in build.source.steps:
        if own.id not in behind:
            plan.need(own.id, "close", "a closed frame is not opened again for this")
