"""Fewer nuts, washers, spacers or soft mounts than the screw list uses.

Checks: each layer of a screw that is named as one of these. The nut that it grips and the washer under its
head count too, each times the screws of the place. They are compared with the parts of that form and thread, spares
counted in. Soft mounts that are not among the parts come with their boards.
Why: the copier buys by the list of parts, and the last post of the stack stays without its nut.
Example: four screws with a spacer nut and a nut each, and four nuts in the list.
Mend: count them: one of the two numbers is wrong.
Source: common practice, no source
"""

import re
from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from builder.compute.geometry.screws import thread_diameter
from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.model.build import Build, FittedAs, ScrewPlace
from builder.model.kinds import Hardware
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome

SEVERITY = Severity.REMARK
# A 'spacer nut' is a nut: the first that fits decides.
_NAMED = (
    ("nut", r"\bnuts?\b"),
    ("washer", r"\bwashers?\b"),
    ("soft mount", r"\bsoft mounts?\b|\bgrommets?\b"),
    ("spacer", r"\bspacers?\b|\bstandoffs?\b"),
)
_LIKE = {"soft mount": ("soft mount", "grommet"), "spacer": ("spacer", "post")}
_WITH_BOARDS = "soft mount"


class _Kind(NamedTuple):
    """What is counted: its form, and the thread that it has to fit; '' where it has none."""

    form: str
    thread: str


def _form(words: str) -> str:
    """The form that words of a layer name; '' for a plate or a board."""
    return next((f for f, word in _NAMED if re.search(word, words.casefold())), "")


def _forms(place: ScrewPlace) -> Iterator[str]:
    """What one screw of a place takes, piece by piece."""
    screw = place.screw
    yield from (form for layer in screw.through if (form := _form(layer.what)))
    if _form(screw.into or "") == "nut":
        yield "nut"
    if screw.washer is not None:
        yield "washer"


def _used(build: Build) -> tuple[dict[_Kind, int], dict[_Kind, Where]]:
    """How many the screw list uses, and the first place that does."""
    many: dict[_Kind, int] = defaultdict(int)
    first: dict[_Kind, Where] = {}
    for place in build.screws:
        thread = place.part.thread if isinstance(place.part, Hardware) else None
        for form in _forms(place):
            kind = _Kind(form, thread if thread and form == "nut" else "")
            many[kind] += place.screw.count
            first.setdefault(kind, place.where)
    return many, first


def _fits(part: Hardware, kind: _Kind) -> bool:
    if part.form not in _LIKE.get(kind.form, (kind.form,)):
        return False
    own, wanted = thread_diameter(part.thread), thread_diameter(kind.thread)
    return own is None or wanted is None or own == wanted


def _there(build: Build, kind: _Kind) -> tuple[FittedAs[Hardware], ...]:
    return tuple(f for f in build.of_kind(Hardware) if _fits(f.part, kind))


def check(case: Case) -> Iterator[Outcome]:
    many, first = _used(case.build)
    for kind, used in many.items():
        fitted = _there(case.build, kind)
        words = f"{kind.form}s of {kind.thread}" if kind.thread else f"{kind.form}s"
        there = sum(f.count + f.use.spares for f in fitted)
        if not fitted and kind.form == _WITH_BOARDS:
            continue
        if not fitted:
            yield NotJudged(f"{words} among the parts", first[kind])
        elif used <= there:
            yield Judged()
        else:
            text = f"The screw list uses {used} {words}; the build has {there}."
            hint = "Count them: one of the two numbers is wrong."
            yield clash(text, hint, first[kind], fitted[0].where.at("count"))
