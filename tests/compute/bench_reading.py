"""Reads a printed order of work as somebody does who knows nothing of the planner: by the words and the
cautions of its steps, and by what the build's file says.

No step is known by its name, no constraint and no phase. What arises where is common practice, no
source, where nothing else is said; the order of signal words is that of ANSI Z535.6.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from builder.compute.results import Results
from builder.model.build import Build
from builder.pages.blocks import GateBar, Step
from builder.pages.page_text import words
from builder.pages.sheet_input import SheetInput
from builder.pages.work.plan_items import plan_items
from builder.rules.cautions import cautions_for
from builder.rules.judge import Verdict

SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")


@dataclass(frozen=True)
class Read:
    """A step or a gate as it is read: its cautions with their signal words, then its words."""

    number: str
    cautions: tuple[tuple[str, str], ...]
    text: str
    boxes: tuple[str, ...] = ()

    @property
    def all(self) -> str:
        """All its words, without its cautions."""
        return " ".join((self.text, *self.boxes))


def _of(item: Step | GateBar) -> Read:
    if isinstance(item, GateBar):
        return Read(item.title, (), f"{item.title} {item.text}")
    parts = [words(p.text) for p in item.parts]
    told = tuple((str(n.signal), n.title) for n in item.cautions)
    assert not any(p.cautions for p in item.parts), (
        "a caution is read before the step that it is for"
    )
    return Read(item.number, told, words(item.text), tuple(parts))


def read(sheet: SheetInput, *, paper: bool = True) -> list[Read]:
    """The order of work from the first line to the last."""
    return [_of(item) for item in plan_items(sheet, paper=paper)]


def unjudged(build: Build, results: Results) -> SheetInput:
    """A sheet of a made-up build, without a verdict."""
    return SheetInput(build, results, Verdict((), (), ()))


# Where a person first meets a hazard: what the words tell the hand to do.
_MEETS = {
    "iron": r"\b(tin|solder)(?! (takes|nothing))\b",
    "fumes": r"\b(tin|solder)(?! (takes|nothing))\b",
    "lead": r"\b(tin|solder)(?! (takes|nothing))\b",
    "eyes": r"\b(cut|strip|trim|tin|solder)(?! (takes|nothing))\b",
    "carbon": r"\bput everything together\b|\bput [^.]* together as\b|\b(file|drill) ",
    "solvents": r"\b(clean the flux|coat the|glue what)\b",
    "violet": r"\bcoat the\b",
    "pack": r"\bplug in (one of )?the (first |\d+ )?batter(y|ies)|\bcharge each battery",
}
_NOT_MET = re.compile(r"without solder|\bwhat a tie\b", re.I)


def hazards_told_late(build: Build, steps: Sequence[Read]) -> Iterator[str]:
    """Hazards whose caution stands elsewhere than at the first step in which they are met."""
    known = {c.key: c for c in cautions_for(build)}
    for key, meets in _MEETS.items():
        if key not in known:
            continue
        title = known[key].title
        told = [s.number for s in steps if title in [t for _, t in s.cautions]]
        met = [s.number for s in steps if re.search(meets, _NOT_MET.sub("", s.all), re.I)]
        if told != met[:1]:
            yield f"{key}: told at {told}, met first at {met[:1]}"


def graver_below(steps: Iterable[Read]) -> Iterator[str]:
    """Steps whose cautions do not stand in the order of their level."""
    for step in steps:
        levels = [SIGNALS.index(signal) for signal, _ in step.cautions]
        if levels != sorted(levels):
            yield f"step {step.number}: {[signal for signal, _ in step.cautions]}"


_UNDER_IT = re.compile(
    r"\b(solder|tin|usb|bind|plug in|connect|coat|antenna|tie|trim|measure|look over|sleeve)\b",
    re.I,
)


def reached_under_a_cover(steps: Sequence[Read], cover: str) -> Iterator[str]:
    """What is still to be reached after a cover lies over the boards; and that it is fitted at all."""
    on = [
        i
        for i, s in enumerate(steps)
        if re.search(rf"\b(fit|mount|put) {re.escape(cover)}", s.all, re.I)
    ]
    if len(on) != 1:
        yield f"{cover} is fitted by {len(on)} steps"
        return
    for step in steps[on[0] + 1 :]:
        own_last = step.number.startswith("Gate") or re.search(
            r"propeller|weigh|close", step.all, re.I
        )
        if _UNDER_IT.search(step.all) and not own_last:
            yield f"step {step.number} reaches below {cover}: {step.text[:60]}"


def motors_without_a_place(build: Build, steps: Sequence[Read]) -> Iterator[str]:
    """Motors that are mounted without their corner and turn, as the file says both, or 'not known'."""
    plan = build.source.setup.rotation
    lines = [line for s in steps if s.text.startswith("Mount ") for line in (s.text, *s.boxes)]
    motors = [f for f in build.parts.values() if f.part.KIND == "motor"]
    for fitted in motors:
        for piece in fitted.pieces:
            number = str(piece or 1)
            name = (
                rf"{re.escape(fitted.key)}[. ]{piece}\b" if piece else rf"{re.escape(fitted.key)}\b"
            )
            mine = [x for x in lines if re.search(name, x, re.I)]
            said = " ".join(mine)
            known = plan is not None and len(motors) == 1
            corner = plan.corners.get(number) if known and plan is not None else None
            turns = plan.turns.get(number) if known and plan is not None else None
            if (corner or "not known") not in said:
                yield f"{fitted.key} {number}: corner {corner or 'not known'} is not in {said!r}"
            if not re.search(rf"(^|[ ,]){re.escape(turns or 'not known')}\b", said):
                yield f"{fitted.key} {number}: turn {turns or 'not known'} is not in {said!r}"


def frames_unbuilt(build: Build, steps: Sequence[Read]) -> Iterator[str]:
    """Frames that no step puts together before something is mounted on them, or whose screws are
    neither listed nor said to be not known.
    """
    first = next((i for i, s in enumerate(steps) if s.text.startswith("Mount ")), len(steps))
    for fitted in build.parts.values():
        if fitted.part.KIND != "frame":
            continue
        name = re.escape(fitted.part.name)
        puts = rf"\bput {name} together"
        found = [i for i, s in enumerate(steps) if re.search(puts, s.text, re.I)]
        if len(found) != 1 or found[0] > first:
            yield f"{fitted.key} is put together at {found}, the first thing is mounted at {first}"
        elif not re.search(r"screws: (not known|\d+ ×)", steps[found[0]].text, re.I):
            yield f"{fitted.key}: nothing is said of its screws"


_PLACE = re.compile(
    r"([^\s,]+(?: and [^\s,]+)*) to (\S+) (at|of) ([\w.-]+?) reads? under 1 V", re.I
)
_INSIDE = r"(?:[^.;]|\.(?=\S))*"  # a point within a name ends no sentence
_WAIT = re.compile(_INSIDE + r"\bunder 1 V\b")
# Of batteries in series, plus and minus are on two plugs.
_ENDS = re.compile(r"plus to minus at (\S+) and (\S+) reads? under 1 V", re.I)


def waits_without_a_place(build: Build, text: str) -> Iterator[str]:
    """Waits for under 1 V that do not say between which contacts, or name one that is not there."""
    for found in _WAIT.finditer(text):
        said = " ".join(found[0].split())
        if re.search(r"\b(it|red to black) reads? under 1 V", said):
            continue  # the end of the supply's own lead, or the contact that was just named
        if ends := _ENDS.search(said):
            poles = [
                build.pad(build.by_name[c]).polarity if c in build.by_name else None
                for c in ends.groups()
            ]
            if poles != ["plus", "minus"]:
                yield f"not plus and minus: {said!r}"
            continue
        place = _PLACE.search(said)
        if place is None:
            yield f"no place: {said!r}"
            continue
        plus, minus, how, where = place.groups()
        part = build.parts.get(where.split(".")[0])
        if part is None:
            yield f"no such part {where!r}: {said!r}"
        elif how == "of":
            named = [*plus.split(" and "), minus]
            if not set(named) <= set(part.part.pads) or part.part.pads[minus].role != "ground":
                yield f"not contacts of {where}: {named}"
        elif (plus.casefold(), minus) != ("plus", "minus"):
            yield f"not plus to minus: {said!r}"
