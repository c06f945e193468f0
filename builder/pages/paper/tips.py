"""The tip of the iron at scale on the tightest contact that it solders at a board, where that takes no
room of its own.
"""

from collections.abc import Iterator, Sequence

from builder.compute.order.steps.work_step import WorkStep
from builder.model.build import Build
from builder.pages.blocks import Illustration
from builder.pages.drawing import Drawing, Words
from builder.pages.drawings.text_size import close_width
from builder.pages.drawings.tip_on_pad import nearest_tip, tip_on_pad
from builder.pages.paper.work_entries import Entry

_AROUND = 2.0  # mm above and below a drawing


def _by_board(run: Sequence[Entry]) -> dict[tuple[str, str], list[WorkStep]]:
    """What is soldered, by board and tip."""
    found: dict[tuple[str, str], list[WorkStep]] = {}
    for step in (s for e in run for s in e.steps):
        if step.joint is not None:
            found.setdefault((step.joint.board, step.tip), []).append(step)
    return found


def _tip(build: Build, steps: Sequence[WorkStep]) -> Illustration | None:
    """Nothing where nobody says how large the contact is, or how far the next one."""
    tip, contact = nearest_tip(build, steps)
    if tip.face.room(tip.wide) is None:
        return None
    where = f"to scale at {contact}, the tightest"
    shape, bottom = tip_on_pad(tip, f"tip-{contact}", 0.0, (tip.short, where))
    words = [w for w in shape.items if isinstance(w, Words)]
    wide = max(w.x + close_width(w.text, w.size) for w in words) + 1
    drawing = Drawing(shape.name, wide, bottom, shape.items, f"{tip.short}, {where}")
    return Illustration(drawing, "", true_size=True)


def tips_within(build: Build, run: Sequence[Entry], room: float) -> Iterator[Illustration]:
    """Each tip on each board that is soldered in a run, as far as that many mm hold them."""
    for steps in _by_board(run).values():
        shown = _tip(build, steps)
        if shown is None or shown.drawing.height + _AROUND > room:
            continue
        room -= shown.drawing.height + _AROUND
        yield shown
