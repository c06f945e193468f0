"""What the chapters of a build and its log of changes name and nobody knows."""

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.nearest import did_you_mean
from builder.diagnostics.where import Where
from builder.model.values.quantities import Quantity
from builder.pages.changed_numbers import unit_fits
from builder.pages.guide.guide_targets import guide_names
from builder.pages.numbers import shown_in
from builder.pages.sheet_input import SheetInput
from builder.rules.data._guide_names import GuideNames, guide_mistakes


def _unknown(kind: str, what: str, name: str, names: GuideNames, where: Where) -> Finding | None:
    """A mistake for a name that is none of a kind."""
    known = names.by_kind[kind]
    if name in known:
        return None
    hint = did_you_mean(name, known)
    return mistake("data/guide-name", f"{name!r} is no name of {what}.", hint, where)


def _of_changes(sheet: SheetInput, names: GuideNames) -> list[Finding | None]:
    build = sheet.build
    found: list[Finding | None] = []
    for at, change in enumerate(build.source.changes):
        for name in change.chapters:
            where = build.where("changes", at, "chapters")
            found.append(_unknown("chapter", "a chapter", name, names, where))
        for key in change.was:
            where = build.where("changes", at, "was", key)
            found.append(_unknown("figure", "a figure", key, names, where))
            found.append(_other_unit(sheet, key, change.was[key], where))
    return found


def _other_unit(sheet: SheetInput, key: str, was: Quantity, where: Where) -> Finding | None:
    """A mistake for a number before that is not of its figure's unit."""
    known = (f for f in sheet.figures if f.key in (key, f"{sheet.build.name}/{key}"))
    figure = next(known, None)
    if figure is None or unit_fits(figure, was):
        return None
    problem = f"{key!r} is in {shown_in(figure)[0]}, and {was.unit or 'no unit'} is written here."
    return mistake("data/guide-name", problem, "Write it in a unit of the same kind.", where)


def _of_recording(sheet: SheetInput, names: GuideNames) -> list[Finding | None]:
    build = sheet.build
    return [
        _unknown("step", "a step", step, names, build.where("chapters", at, "steps"))
        for at, moment in enumerate(build.source.chapters)
        for step in moment.steps
    ]


def mistakes_of_words(sheet: SheetInput) -> tuple[Finding, ...]:
    """All of them. Who has no chapters and names none costs nothing."""
    source = sheet.build.source
    named = any(c.chapters or c.was for c in source.changes)
    if not (sheet.guide or named or any(c.steps for c in source.chapters)):
        return ()
    names = guide_names(sheet)
    own = [*_of_changes(sheet, names), *_of_recording(sheet, names)]
    found = [f.in_build(sheet.build.name) for f in own if f is not None]
    return (*guide_mistakes(sheet.guide, names), *found)
