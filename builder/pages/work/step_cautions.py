"""What to take care of at one step, where it is done."""

import re
from collections.abc import Callable, Iterator, Mapping

from builder.compute.order.steps.work_step import StepGroup, WorkStep
from builder.compute.order.work_order import Plan
from builder.diagnostics.finding import Signal
from builder.pages.blocks import Notice, Span
from builder.pages.told_words import told_words
from builder.rules.cautions import Caution


def _tells(*deeds: str) -> Callable[[WorkStep], bool]:
    """Whether the words of a step tell somebody to do one of these."""
    begins = rf"(?:^|[.;:,] |\b(?:and|then|again) )(?:{'|'.join(deeds)})\b"
    told = re.compile(begins, re.IGNORECASE)
    return lambda step: bool(told.search(told_words(step.text)))


_cuts = _tells("cut", "trim", "strip", "snip", "tin", "solder")
_heats = _tells("tin", "solder", "unsolder")
_files = _tells("file", "drill", "sand", "saw", "put everything together", "put the frame together")
_wets = _tells("clean", "coat", "glue", "wipe", "degrease")
_coats = _tells("coat", "cure", r"optional: coat")


def _hot(step: WorkStep) -> bool:
    return step.do in ("tin", "solder") or _heats(step)


# Where a hazard of the bench arises: its caution stands at the first such step, word for word as at
# the start of the page.
_ARISES: Mapping[str, Callable[[WorkStep], bool]] = {
    "pack": lambda s: s.power == "battery" or s.id == "charge",
    "iron": _hot,
    "fumes": _hot,
    "eyes": lambda s: _hot(s) or _cuts(s),
    "lead": _hot,
    "carbon": _files,
    "solvents": _wets,
    "violet": _coats,
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


def _own(group: StepGroup) -> Iterator[Notice]:
    """The cautions that some steps have of their own."""
    for step in group.steps:
        if step.id in _AT_STEP:
            title, text = _AT_STEP[step.id]
            yield Notice(Signal.WARNING, title, (Span(text),))


def _gravity(notice: Notice) -> int:
    return list(Signal).index(notice.signal or Signal.NOTICE)


def group_cautions(plan: Plan, known: Mapping[str, Caution]) -> dict[str, tuple[Notice, ...]]:
    """By group, what to take care of there, the gravest first: its own cautions, and that of each
    hazard that arises there for the first time. `known` are those of the build by their key.
    """
    left = {key: arises for key, arises in _ARISES.items() if key in known}
    out: dict[str, tuple[Notice, ...]] = {}
    for group in plan.groups:
        new = [key for key, arises in left.items() if any(map(arises, group.steps))]
        first = [known[key] for key in new]
        told = [*_own(group), *(Notice(c.signal, c.title, (Span(c.text),)) for c in first)]
        if told:
            out[group.id] = tuple(sorted(told, key=_gravity))
        for key in new:
            del left[key]
    return out
