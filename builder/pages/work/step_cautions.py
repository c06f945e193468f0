"""What to take care of at one step, where it is done."""

from builder.compute.order.steps import WorkStep
from builder.diagnostics.finding import Signal
from builder.pages.blocks import Notice, Span

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


def step_caution(step: WorkStep) -> Notice | None:
    """The caution of one step; None where the general ones are enough."""
    if step.id not in _AT_STEP:
        return None
    title, text = _AT_STEP[step.id]
    return Notice(Signal.WARNING, title, (Span(text),))
