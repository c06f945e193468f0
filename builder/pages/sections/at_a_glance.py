"""At a glance: what a reader wants to know before reading on."""

from builder.compute.figures.figure import MaybeFigure, Unknown
from builder.compute.weight.limits import Margin
from builder.pages.blocks import Block, Cell, Facts, Notice, Paragraph, Picture, Section, Span
from builder.pages.numbers import number
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.limit_words import margin_cell, worst_first


def _figure(figure: MaybeFigure, note: str = "", *, spread: bool = True) -> Cell:
    if isinstance(figure, Unknown):
        return Cell((Span("not known"),), "; ".join(figure.missing[:2]), tone="quiet")
    return Cell((number(figure, spread=spread),), note)


def _weights(sheet: SheetInput) -> list[tuple[str, Cell]]:
    mass = sheet.results.mass
    dry = "Dry weight, without payload" if mass.payload else "Dry weight"
    flying = [
        (f"Flying weight, {mass.flown_with(pack)}", _figure(figure))
        for pack, figure in mass.all_up.items()
    ]
    return [(dry, _figure(mass.dry)), *flying]


def _flights(sheet: SheetInput) -> list[tuple[str, Cell]]:
    packs, note = sheet.results.flight.packs, sheet.results.flight.style.note
    return [
        (f"Flight, {pack}", _figure(flight.endurance_styled, note))
        for pack, flight in packs.items()
    ]


def _margin(sheet: SheetInput) -> list[tuple[str, Cell]]:
    """How it stands to each limit of the site with the pack that makes it worst."""
    worst: dict[str, Margin] = {}
    for margin in sheet.results.margins:
        name = margin.limit.name
        worst[name] = min(worst.get(name, margin), margin, key=worst_first)
    return [(f"To the limit: {name}", margin_cell(margin)) for name, margin in worst.items()]


def _money(sheet: SheetInput) -> tuple[str, Cell]:
    budget = sheet.results.budget
    lacks = (
        f"no price for {_count(len(budget.lacks), 'part')}"
        if budget.lacks
        else "without batteries, tools and ground gear"
    )
    return "Parts of this build", Cell((number(budget.figures["this-build"]),), lacks)


def _count(number: int, one: str) -> str:
    return f"{number} {one}" if number == 1 else f"{number} {one}s"


def at_a_glance(sheet: SheetInput) -> Section:
    """The figures that decide, the picture, and what the rules say in one line."""
    source, verdict = sheet.build.source, sheet.verdict
    blocks: list[Block] = []
    if source.hero is not None:
        blocks.append(
            Picture(
                f"{sheet.build.name}/{source.hero.file}", source.hero.alt, source.hero.caption or ""
            )
        )
    blocks.append(Facts((*_weights(sheet), *_flights(sheet), _money(sheet)), large=True))
    margins = _margin(sheet)
    if margins:
        blocks.append(Facts(tuple(margins)))
    found = (
        _count(len(verdict.remarks), "remark"),
        f"{len(verdict.accepted)} accepted by the builder",
    )
    words = f"{verdict.summary()}, {', '.join(found)}. "
    blocks.append(Paragraph((Span(words), Span("Checks", "#not-judged"), Span("."))))
    if verdict.faults:
        said = "This sheet has faults that nobody accepted. Do not build from it."
        blocks.append(
            Notice(None, said, (Span("They are at the end of the sheet."),), tone="fault")
        )
    return Section("glance", "At a glance", tuple(blocks))
