"""What to take care of at one step, where it is done."""

from collections.abc import Callable, Mapping

from builder.compute.order.steps import WorkStep
from builder.compute.order.work_order import Plan
from builder.diagnostics.finding import Signal
from builder.pages.blocks import Notice, Span
from builder.rules.cautions import Caution

# Where a hazard of the bench first arises: its caution, word for word as at the start of the page.
_FIRST: Mapping[str, Callable[[WorkStep], bool]] = {
    "carbon": lambda s: s.id == "dry fit",
    "eyes": lambda s: s.id.startswith(("cut ", "trim ", "legs ")),
    "iron": lambda s: s.do == "tin",
    "fumes": lambda s: s.do == "solder",
    "solvents": lambda s: s.id.startswith(("inspect ", "look over ")),
    "violet": lambda s: s.id == "coat",
}

_AT_STEP = {
    "first pack": (
        (
            "If a joint is wrong, the battery delivers its full current, and a motor can start"
            " by itself."
        ),
        (
            "Take the propellers off. Check red to plus and black to minus again. Then push the"
            " plug in."
        ),
    ),
    "propellers": (
        "A motor that starts by itself cuts to the bone.",
        "Unplug the battery and put it aside before you touch a propeller.",
    ),
}


def first_cautions(plan: Plan, known: Mapping[str, Caution]) -> dict[str, Notice]:
    """By step, the caution of a hazard that arises there for the first time. `known` are those of
    the build by their key.
    """
    out: dict[str, Notice] = {}
    for key, arises in _FIRST.items():
        caution = known.get(key)
        free = (s.id for s in plan.steps if arises(s) and s.id not in out)
        first = next(free, None)
        if caution is not None and first is not None:
            out[first] = Notice(caution.signal, caution.title, (Span(caution.text),))
    return out


def step_caution(step: WorkStep) -> Notice | None:
    """The caution of one step of its own; None where it has none."""
    if step.id not in _AT_STEP:
        return None
    title, text = _AT_STEP[step.id]
    return Notice(Signal.WARNING, title, (Span(text),))
