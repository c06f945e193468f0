"""What a part of a view says while it is pointed to: number, name, weight, step."""

from builder.compute.figures.figure import Unknown
from builder.compute.order.steps.work_step import WorkStep
from builder.compute.order.work_order import Cycle
from builder.pages.numbers import number
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.part_numbers import pack_key

_FIXING = ("mount", "fit", "plug", "solder")


def _of(step: WorkStep, key: str) -> bool:
    """Whether a step sets a part in: its name says so, or it is soldered there."""
    name = step.id.split(" ", 1)[-1]
    return step.part == key or name.split(".")[0] == key


def steps_of_parts(sheet: SheetInput) -> dict[str, str]:
    """The number of the step that fixes each part, else of the first that touches it."""
    plan = sheet.results.order
    if isinstance(plan, Cycle):
        return {}
    out: dict[str, str] = {}
    for key in sheet.build.parts:
        own = [s for s in plan.steps if not s.gate and _of(s, key)]
        fixed = [s for s in own if s.do == "mount"] or [s for s in own if s.do in _FIXING]
        first = next(iter(fixed or own), None)
        if first is not None:
            out[key] = str(plan.numbers[first.id])
    return out


def _weight(sheet: SheetInput, key: str) -> str:
    mass = sheet.results.mass
    lines = {x.key: x.each for x in (*mass.lines, *mass.payload)}
    lines |= {pack_key(k): x.each for k, x in mass.packs.items()}
    each = lines.get(key)
    if each is None or isinstance(each, Unknown):
        return "weight not known"
    said = number(each)
    return f"{said.value} {said.unit}"


def _name(sheet: SheetInput, key: str) -> str:
    if key not in sheet.build.parts:
        return key
    part = sheet.build.parts[key].part
    return f"{key}, {part.name}" if len(part.name) < 26 else key


def part_words(sheet: SheetInput, numbers: dict[str, int]) -> dict[str, str]:
    """A line a part, by its key."""
    steps = steps_of_parts(sheet)
    out = {}
    for key, no in numbers.items():
        step = f", step {steps[key]}" if key in steps else ""
        out[key] = f"{no} {_name(sheet, key)}: {_weight(sheet, key)}{step}"
    return out
