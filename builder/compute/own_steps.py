"""The builder's own steps with their `before` and `after`, and what a step that covers must come after."""

from builder.compute.order_rules import touches
from builder.compute.steps import Gathered, Measure, Phase, WorkStep
from builder.model.build import Build
from builder.model.build_source import BuildStep

_PHASE = {
    "fit": Phase.DRY,
    "tin": Phase.BATTERY,
    "solder": Phase.BATTERY,
    "cover": Phase.COVER,
    "mount": Phase.LOADS,
    "plug": Phase.CONTROL,
    "check": Phase.SET,
}
_COATING = ("coat", "lacquer", "varnish")


def meant(plan: Gathered, name: str) -> list[str]:
    """Steps that a builder's word means: a step's own name, or all whose name begins with it or that it touches."""
    if name in plan.steps:
        return [name]
    doing, _, part = name.partition(" ")
    if doing == "solder" and part:
        found = [s.id for s in plan.steps.values() if s.joint is not None and touches(s.joint, part)]
    else:
        found = plan.named(f"{name}.", f"{name} ")
    return found or ([part] if part in plan.steps else [])


def _covers(plan: Gathered, own: BuildStep) -> None:
    for name in own.covers:
        for step in list(plan.steps.values()):
            if step.joint is not None and touches(step.joint, name):
                plan.need(step.id, own.id, "a cover that is shrunk first has to be cut off again")
        plan.need(f"antenna {name}", own.id, "leads and antenna go on before the cover")
    if any(word in f"{own.id} {own.text}".casefold() for word in _COATING):
        for gate in plan.named("gate "):
            plan.need(gate, own.id, "coating comes off badly: it goes on what works")


def own_steps(build: Build, plan: Gathered) -> tuple[str, ...]:
    """Adds the builder's own steps and lines; gives the names that no step answers to."""
    unknown = []
    boards = {s.board for s in plan.steps.values()}
    for i, own in enumerate(build.source.steps):
        readings = (Measure("reading", own.expect),) if own.expect else ()
        board, part = own.part if own.part in boards else "", own.part or ""
        plan.add(
            WorkStep(
                own.id,
                own.do,
                own.text,
                _PHASE[own.do],
                board or "",
                own.side or "top",
                measures=readings,
                own=i,
                part=part,
            )
        )
    for own in build.source.steps:
        why = own.reason or "the builder says so"
        for names, comes_before in ((own.before, True), (own.after, False)):
            for name in names:
                found = meant(plan, name)
                unknown += [] if found else [name]
                for other in found:
                    plan.need(*((own.id, other) if comes_before else (other, own.id)), why)
        if own.do == "cover":
            _covers(plan, own)
    _last_of_all(build, plan)
    return tuple(dict.fromkeys(unknown))


def _last_of_all(build: Build, plan: Gathered) -> None:
    """Propellers stay last, unless the builder puts a step behind them."""
    behind = {"propellers", "unplug", "close"}
    grown = True
    while grown:
        new = {c.after for c in plan.constraints if c.before in behind} - behind
        behind |= new
        grown = bool(new)
    for own in build.source.steps:
        if own.id not in behind:
            plan.need(own.id, "close", "a closed frame is not opened again for this")
