"""The facts of a step: place, wires, bare end, tip and temperature, dwell, heat, contacts at risk
of a bridge.
"""

from collections.abc import Sequence

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.pinout import letters
from builder.compute.joints.bench_pieces import mm
from builder.compute.joints.heating import Heat
from builder.compute.joints.joints import Joint
from builder.compute.joints.strips import in_place
from builder.compute.joints.tips import gauge_of
from builder.compute.order.steps.work_step import WorkStep
from builder.model.build import Build
from builder.pages.blocks import Inline, Span
from builder.pages.drawings.wiring_drawing import colour_of
from builder.pages.numbers import number
from builder.rounding import rounded

WARM = 100  # °C, at which a board may be held while it is soldered (common practice, no source)
_POWER = {"usb": "USB alone; off at the end", "battery": "battery; off at the end"}
StepFacts = tuple[tuple[str, tuple[Inline, ...]], ...]


def _mm(metres: float, places: int = 0) -> str:
    return f"{rounded(1000 * metres, places)} mm"


def _wire(build: Build, join: Join) -> str:
    """Colour with its letters, gauge and length of one wire."""
    wire = join.wire
    if wire is None:
        return ""
    colour, gauge = colour_of(build, join), gauge_of(build, join)
    words = [f"{colour} {letters(colour)}".strip(), gauge.label if gauge is not None else ""]
    if wire.length is not None:
        words.append(_mm(wire.length.value))
    if wire.lead == "fitted":
        words.append(
            "fitted lead" if wire.trim_to is None else f"trimmed to {_mm(wire.trim_to.value)}"
        )
    return " ".join(w for w in words if w)


def _place(joint: Joint) -> str:
    side = "underside (drawn mirrored)" if joint.side == "under" else "top"
    return f"{joint.board}, {side}" + (f", {joint.edge} edge" if joint.edge else "")


def _near(joint: Joint) -> str:
    """Neighbours with the gap to them, which is said once for those that are as near."""
    by_gap: dict[float | None, list[str]] = {}
    for name, gap in joint.neighbours:
        by_gap.setdefault(gap, []).append(name)
    said = {gap: ", ".join(names) for gap, names in by_gap.items()}
    return ", ".join(
        names if gap is None else f"{names} at {1000 * gap:g} mm" for gap, names in said.items()
    )


def _bare(heat: Heat) -> str:
    """The bare end, as the steps that strip say it, and what it rests on where the pad's size is
    not known.
    """
    more = f" ({_basis(heat)})" if heat.strip_basis else ""
    return f"{mm(heat.strip)}{more}"


def _basis(heat: Heat) -> str:
    return f"{heat.strip_basis}; no more than lies on the pad" if heat.strip_basis else ""


def _iron(step: WorkStep) -> str:
    """The iron of the step, which serves all of its joints."""
    return f"{step.tip} tip, {step.iron} °C"


def _dwell(heat: Heat) -> str:
    """How long the iron stays: a broad tip until the solder flows, its long dwell as a limit."""
    first, last = heat.dwell
    span = f"{first} to {last} s" if first < last else f"{last} s"
    return f"until it flows, {span} at most" if heat.tip == "broad" else span


def _harder(build: Build, joint: Joint) -> str:
    """What to do where the usual tip is too little by the figures; '' where it will do."""
    if not joint.heat.warm_first:
        return ""
    if in_place(
        build, joint
    ):  # a mounted board cannot be warmed: its soft mounts and the frame would be too
        return "This pad takes much heat. Add flux. Use the widest tip that does not touch the next pad."
    return (
        "This pad takes much heat. First warm the board from below to about"
        f" {WARM} °C, on a hot plate that shows it."
    )


def _on_paper(build: Build, step: WorkStep, joint: Joint, wires: str) -> StepFacts:
    """The same, short: what the hand needs while the iron is hot."""
    heat = joint.heat
    side = "underside, " if joint.side == "under" else ""
    said = (
        ("", f"{side}{joint.edge} edge" if joint.edge else side.removesuffix(", ")),
        ("", wires),
        ("bare", _bare(heat)),
        ("", f"{_iron(step)}, {_dwell(heat)}"),
        ("", _harder(build, joint)),
        ("beside", _near(joint)),
    )
    return tuple((name, (Span(words),)) for name, words in said if words)


def step_facts(build: Build, step: WorkStep, *, paper: bool = False) -> StepFacts:
    """Facts of a joint; of tinning only the iron; what feeds it of a step under power. Paper leaves
    heat and ranges to the screen.
    """
    joint = step.joint
    if step.power:
        return (("power", (Span(_POWER[step.power]),)),)
    if joint is None:
        return (("iron", (Span(_iron(step)),)),) if step.tip else ()
    heat = joint.heat
    wires = "; ".join(w for w in (_wire(build, j) for j in joint.wires) if w)
    if paper:
        return _on_paper(build, step, joint, wires)
    said: list[tuple[str, tuple[Inline, ...]]] = [
        ("where", (Span(_place(joint)),)),
        ("wire", (Span(wires),)),
        ("bare", (Span(mm(heat.strip)),)),
        ("bare end by", (Span(_basis(heat)),)),
        ("iron", (Span(_iron(step)),)),
        ("held", (Span(_dwell(heat)),)),
        ("loses", (number(heat.flow),)),
    ]
    if step.tip == heat.tip and heat.tip != "fine":
        said.append(("hot in about", (number(heat.least_dwell),)))
    if heat.warm_first:
        said.append(("", (Span(_harder(build, joint)),)))
    near = _near(joint)
    if near:
        said.append(("do not bridge to", (Span(near),)))
    return tuple(f for f in said if f[1] != (Span(""),))


def shared_facts(parts: Sequence[StepFacts]) -> StepFacts:
    """What is said of each of these parts: it is said once, at the step."""
    told = [facts for facts in parts if facts]
    if len(told) < 2:
        return ()
    return tuple(f for f in told[0] if all(f in other for other in told[1:]))
