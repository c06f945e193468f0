"""A recording of the build: where it is, and its moments, each with the steps that are seen there."""

import re

from builder.compute.order.work_order import Plan
from builder.model.build import Build
from builder.model.source.build_along import Chapter
from builder.pages.blocks import Bullets, Inline, Paragraph, Section, Span
from builder.pages.guide.guide_targets import guide_names
from builder.pages.sheet_input import SheetInput

_CLOCK = re.compile(r"(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)")


def seconds_of(at: str) -> int | None:
    """The seconds of `2:15` or `1:02:15`; None for other words."""
    found = _CLOCK.fullmatch(at)
    if found is None:
        return None
    hours, minutes, seconds = (int(n or 0) for n in found.groups())
    return 3600 * hours + 60 * minutes + seconds


def moment_address(build: Build, moment: Chapter) -> str:
    """Where a moment can be seen: the recording's address with its second (W3C Media Fragments URI
    1.0, 4.2.1); '' without a recording.
    """
    address, seconds = build.source.recording, seconds_of(moment.at)
    if address is None:
        return ""
    if seconds is None or "#" in address:
        return address
    return f"{address}#t={seconds}"


def _line(sheet: SheetInput, moment: Chapter, steps: dict[str, str]) -> tuple[Inline, ...]:
    said: list[Inline] = [Span(moment.at, moment_address(sheet.build, moment)), Span(" ")]
    said.append(Span(moment.text))
    between = ". "
    for step in moment.steps:
        said += [Span(between), Span(_step_words(sheet, step), steps.get(step, ""))]
        between = ", "
    return tuple(said)


def _step_words(sheet: SheetInput, step: str) -> str:
    """A step by its number in the order of work, a gate by its letter."""
    plan = sheet.results.order
    numbers = plan.numbers if isinstance(plan, Plan) else {}
    number = numbers.get(step) or numbers.get(step.replace("-", " "))
    return f"step {number}" if number else step.replace("-", " ")


def recording_section(sheet: SheetInput) -> Section:
    """The section; empty for a build without a recording and its moments."""
    source = sheet.build.source
    if not source.recording and not source.chapters:
        return Section("recording", "Recording", ())
    steps = dict(guide_names(sheet).by_kind["step"])
    items = tuple(_line(sheet, moment, steps) for moment in source.chapters)
    where: tuple[Inline, ...] = (Span("It lies elsewhere: "),)
    where += (Span(source.recording, source.recording), Span(".")) if source.recording else ()
    head = (Paragraph(where),) if source.recording else ()
    return Section("recording", "Recording", (*head, *((Bullets(items),) if items else ())))
