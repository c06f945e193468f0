"""Fields that a step has at the bench besides its own readings: what parts weigh as they come, what
the finished aircraft weighs, and how long a wire was cut.
"""

from collections.abc import Iterator
from dataclasses import replace

from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.order.steps import StepGroup, WorkStep
from builder.frozen import value_class
from builder.model.build import WireRun
from builder.pages.blocks import Step, WriteIn
from builder.pages.sheet_input import SheetInput
from builder.rounding import rounded

_WIDE = 2.0  # spreads by which a weight may differ before it is worth a second look (95 %)
_CUT = 0.005  # m by which a wire may be longer or shorter than planned (common practice, no source)
_LEAST = 0.0002  # kg: what a pocket scale cannot tell apart (common practice, no source)


@value_class(frozen=True, slots=True)
class ExtraField:
    """A field of a step: its key, what it is called, the unit, what is expected (SI), and where a
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

    @property
    def per(self) -> float:
        """How many of its units are one SI unit: g in a kg, mm in a m."""
        return 1000.0

    def write_in(self) -> WriteIn:
        """The field as the page shows it."""
        low, high = (rounded(self.per * x, 1 if self.unit == "g" else 0) for x in self.bounds)
        return WriteIn(self.key, self.label, self.unit, f"{low} to {high} {self.unit}")

    @property
    def bounds(self) -> tuple[float, float]:
        """What is expected, from and to."""
        return self.low, self.high


def _weight(step: str, what: str, label: str, found: MaybeFigure) -> ExtraField | None:
    if not isinstance(found, Figure) or found.lacks:
        return None
    room = max(_WIDE * found.spread, _LEAST)
    low, high = max(found.value - room, 0.0), found.value + room
    return ExtraField(f"weigh-{what}", label, "g", low, high, step, what)


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
    return ExtraField(f"cut-{here}", f"{here.pad}, length as cut", "mm", low, high, step)


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
        found = fields_of(sheet, group.steps[0])
        own = () if group.steps[0].id == "balance" and found else item.write_ins
        return replace(item, write_ins=(*own, *(f.write_in() for f in found)))
    pairs = zip(group.steps, item.parts, strict=True)
    parts = tuple(
        replace(p, write_ins=(*p.write_ins, *(f.write_in() for f in fields_of(sheet, s))))
        for s, p in pairs
    )
    return replace(item, parts=parts)
