"""Fields that a step has at the bench besides its own readings: what parts weigh as they come, what
the finished aircraft weighs, and how long a wire was cut.
"""

from collections.abc import Iterator
from dataclasses import replace

from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.order.steps.work_step import StepGroup, WorkStep
from builder.frozen import value_class
from builder.load.assumed import assumed
from builder.model.build import WireRun
from builder.pages.bench.step_measures import measures_of
from builder.pages.blocks import Step, WriteIn
from builder.pages.sheet_input import SheetInput
from builder.pages.work.reading_words import measured_words
from builder.rounding import rounded

_WIDE = assumed("at the bench/spreads")
_CUT = assumed("at the bench/cut")
_LEAST = assumed("at the bench/scale")
_MILLI = 1000.0  # g in a kg, mm in a m


@value_class(frozen=True, slots=True)
class ExtraField:
    """A field of a step: its key, what it is called, the unit, what is expected in it, and where a
    reading belongs in the build: `weighed` names what lay on the scale.
    """

    key: str
    label: str
    unit: str
    low: float
    high: float
    step: str
    weighed: str = ""
    parts: tuple[str, ...] = ()

    def write_in(self) -> WriteIn:
        """The field as the page shows it."""
        low, high = (rounded(x, 1 if self.unit == "g" else 0) for x in (self.low, self.high))
        return WriteIn(self.key, self.label, self.unit, f"{low} to {high} {self.unit}")


def _weight(step: str, what: str, label: str, found: MaybeFigure) -> ExtraField | None:
    if not isinstance(found, Figure) or found.lacks:
        return None
    room = max(_WIDE * found.spread, _LEAST)
    low, high = max(found.value - room, 0.0), found.value + room
    return ExtraField(f"weigh-{what}", label, "g", _MILLI * low, _MILLI * high, step, what)


def _finished(sheet: SheetInput, step: str) -> Iterator[ExtraField]:
    """The scale with the finished aircraft: dry, and with each battery."""
    mass = sheet.results.mass
    dry = "dry, without payload" if mass.payload else "dry"
    named = [("dry", dry, mass.dry)]
    named += [(pack, f"with {mass.flown_with(pack)}", f) for pack, f in mass.all_up.items()]
    for what, label, figure in named:
        field = _weight(step, what, label, figure)
        if field is not None:
            yield field


def _as_they_come(sheet: SheetInput, step: str) -> Iterator[ExtraField]:
    """Every part of the list before it is fitted, all its pieces together."""
    for line in sheet.results.mass.lines:
        if line.key not in sheet.build.parts:
            continue
        label = f"{line.key}, {line.count} together" if line.count > 1 else line.key
        field = _weight(step, line.key, label, line.line)
        if field is not None:
            yield replace(field, key=f"weigh-part-{line.key}", weighed="parts", parts=(line.key,))


def _cut(sheet: SheetInput, step: WorkStep) -> Iterator[ExtraField]:
    """Wires that are cut in a step, by the part that it names."""
    board = step.id.removeprefix("cut ")
    for run in sheet.build.wires:
        if run.wire.lead == "fitted" or board not in (run.start.board, run.end.board):
            continue
        field = _length(run, board, step.id)
        if field is not None:
            yield field


def _length(run: WireRun, board: str, step: str) -> ExtraField | None:
    if run.wire.length is None:
        return None
    here = run.start if run.start.board == board else run.end
    metres = run.wire.length.value
    low, high = max(metres - _CUT, 0.0), metres + _CUT
    label, span = f"{here.pad}, length as cut", (_MILLI * low, _MILLI * high)
    return ExtraField(f"cut-{here}", label, "mm", *span, step)


def fields_of(sheet: SheetInput, step: WorkStep) -> tuple[ExtraField, ...]:
    """The further fields of one step of the plan."""
    if step.id == "balance":
        return tuple(_finished(sheet, step.id))
    if step.id == "weigh":
        return tuple(_as_they_come(sheet, step.id))
    return tuple(_cut(sheet, step)) if step.id.startswith("cut ") else ()


def with_fields(sheet: SheetInput, group: StepGroup, item: Step) -> Step:
    """A step as shown, with its further fields. The scale's own field gives way to them."""
    if not item.parts:
        return replace(item, write_ins=_write_ins(sheet, group.steps[0], item))
    pairs = zip(group.steps, item.parts, strict=True)
    parts = tuple(replace(p, write_ins=_write_ins(sheet, s, p)) for s, p in pairs)
    return replace(item, parts=parts)


def _write_ins(sheet: SheetInput, step: WorkStep, shown: Step) -> tuple[WriteIn, ...]:
    found = tuple(f.write_in() for f in fields_of(sheet, step))
    if step.id == "balance" and found:
        return found
    measures = measures_of(sheet, step)
    if measures == step.measures:
        return (*shown.write_ins, *found)
    own = (
        WriteIn(f"{shown.anchor}-{i}", m.label, m.unit, measured_words(m))
        for i, m in enumerate(measures)
    )
    return (*own, *found)
