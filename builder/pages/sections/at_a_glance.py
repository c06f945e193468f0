"""At a glance: what a reader wants to know before reading on."""

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from builder.compute.weight.limits import Margin
from builder.pages.blocks import Block, Cell, Facts, Notice, Paragraph, Picture, Section, Span
from builder.pages.numbers import number
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.limit_words import margin_cell, worst_first
from builder.rounding import rounded


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
    """The timer first: it sounds before the reserve is reached in nine flights of ten."""
    packs, style = sheet.results.flight.packs, sheet.results.flight.style
    out = []
    for pack, flight in packs.items():
        mean, left = flight.endurance_styled, flight.reserve.left_at_timer
        kept = f"; {rounded(100 * left.value, 0)} % left then" if isinstance(left, Figure) else ""
        long = ""
        if isinstance(mean, Figure):
            long = f"; {rounded(mean.value / 60, 1)} min to the builder's landing in the mean"
        note = f"set the timer to this{kept}{long}; {style.note}"
        out.append((f"Timer, {pack}", _figure(flight.reserve.timer, note, spread=False)))
    return out


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
        else "without packs, tools and ground gear"
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
        _count(len(verdict.accepted), "fault") + " accepted",
    )
    words = f"{verdict.summary()}, {', '.join(found)}. "
    blocks.append(Paragraph((Span(words), Span("What the rules say", "#not-judged"), Span("."))))
    if verdict.faults:
        said = "This sheet has faults that nobody accepted; it must not be built from."
        blocks.append(
            Notice(None, said, (Span("They stand at the end of the sheet."),), tone="fault")
        )
    return Section("glance", "At a glance", tuple(blocks))
