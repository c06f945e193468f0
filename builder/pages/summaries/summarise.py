"""A build's summary for pages over all builds."""

from collections.abc import Mapping
from statistics import fmean
from types import MappingProxyType

from builder.compute.compare.alternatives import named_alternatives
from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.geometry.clearances import discs
from builder.model.build import Build
from builder.model.guide.plain_words import plain_words
from builder.pages.changed_numbers import changed_numbers
from builder.pages.page_text import words
from builder.pages.sheet_input import SheetInput
from builder.pages.summaries.summary import Summary, SummaryNumber

_AS_THEY_ARE: Mapping[str, str] = MappingProxyType({})


def headline(sheet: SheetInput) -> dict[str, MaybeFigure]:
    """The figures that other pages show, by the key under which they show them."""
    results = sheet.results
    found: dict[str, MaybeFigure] = {"dry": results.mass.dry}
    for pack, figure in results.mass.all_up.items():
        found[f"all-up/{pack}"] = figure
    for pack, flight in results.flight.packs.items():
        found[f"endurance/{pack}"] = flight.endurance_styled
        found[f"timer/{pack}"] = flight.reserve.timer
        found[f"throttle/{pack}"] = flight.throttle
    return found


def _flown(build: Build) -> tuple[tuple[str, int, float], ...]:
    """Flights of the log on each battery, and their mean time in the air."""
    times: dict[str, list[float]] = {}
    for flight in build.source.flights:
        if not flight.leave_out and flight.pack in build.packs:
            shelf = build.packs[flight.pack].shelf
            times.setdefault(shelf, []).append(flight.airborne.value)
    return tuple((shelf, len(each), fmean(each)) for shelf, each in times.items())


def _tried(sheet: SheetInput) -> tuple[tuple[str, str, str, float | None], ...]:
    """What checks said of each alternative, and the grams that it adds."""
    out = []
    for one in sheet.alternatives.tried:
        change = one.mass_change
        grams = 1000 * change.value if isinstance(change, Figure) else None
        out.append((one.key, one.shelf, str(one.answer), grams))
    return tuple(out)


def _picture(build: Build, narrow: Mapping[str, str]) -> tuple[str, ...]:
    """Address and words of the build's own picture; of a photograph its narrow file, if there is
    one.
    """
    hero = build.source.hero
    if hero is None:
        return ()
    address = f"{build.name}/{hero.file}"
    return narrow.get(address, address), hero.alt


def _rotors(build: Build) -> tuple[tuple[float, float, float], ...]:
    """Where the propellers turn, of a build whose picture is drawn from that."""
    if build.source.hero is not None:
        return ()
    return tuple((disc.middle[0], disc.middle[1], disc.radius) for disc in discs(build))


def _changed(sheet: SheetInput) -> tuple[str, ...]:
    """For each change what it did to the numbers, and the titles of chapters that it changed."""
    titles = {c.name: c.title for c in sheet.guide}
    said = []
    for change, numbers in zip(sheet.build.source.changes, changed_numbers(sheet), strict=True):
        chapters = [titles[name] for name in change.chapters if name in titles]
        guide = f"Guide: {', '.join(chapters)}" if chapters else ""
        said.append(". ".join(line for line in (words(numbers), guide) if line))
    return tuple(said)


def summarise(sheet: SheetInput, narrow: Mapping[str, str] = _AS_THEY_ARE) -> Summary:
    """The summary of one judged build. `narrow` says where photographs lie in a narrow width."""
    build, source, verdict = sheet.build, sheet.build.source, sheet.verdict
    results = sheet.results
    cost = results.budget.this_build
    return Summary(
        name=build.name,
        title=build.title,
        summary=source.summary,
        status=source.status,
        revised=source.revised.isoformat() if source.revised else "",
        based_on=source.based_on or "",
        numbers={key: SummaryNumber.of(figure) for key, figure in headline(sheet).items()},
        price_minor=cost.minor,
        currency=cost.currency,
        packs=tuple(build.packs),
        packs_used=tuple(p.shelf for p in build.packs.values()),
        parts=tuple((f.key, f.shelf, f.count) for f in build.parts.values()),
        changes=tuple((c.date.isoformat(), c.text) for c in source.changes),
        flights=sum(1 for f in source.flights if not f.leave_out),
        remarks=len(verdict.remarks),
        accepted=len(verdict.accepted),
        draft=sheet.draft,
        price_at_least=bool(results.budget.lacks),
        payload=tuple(x.key for x in results.mass.payload),
        tried=_tried(sheet),
        flown=_flown(build),
        weighed=tuple(
            (f.key, f.shelf, tuple(m.value for m in f.use.each_weighed))
            for f in build.parts.values()
            if f.use.each_weighed
        ),
        alternatives=tuple(
            (key, build.parts[key].shelf, other) for key, other in named_alternatives(build)
        ),
        replaced=tuple(
            (i.date.isoformat(), build.parts[key].shelf, plain_words(i.what))
            for i in source.incidents
            for key in i.replaced
            if key in build.parts
        ),
        picture=_picture(build, narrow),
        rotors=_rotors(build),
        changed=_changed(sheet),
        chapters=tuple((c.name, c.title) for c in sheet.guide),
        superseded_by=source.superseded_by or "",
    )
