"""At a glance: what a reader wants to know before reading on."""

from builder.compute.figure import Known, Unknown
from builder.pages.blocks import Block, Cell, Facts, Notice, Paragraph, Picture, Section, Span
from builder.pages.numbers import number
from builder.pages.sheet_input import SheetInput


def _figure(figure: Known, note: str = "", *, spread: bool = True) -> Cell:
    if isinstance(figure, Unknown):
        return Cell((Span("not known"),), "; ".join(figure.missing[:2]), tone="quiet")
    return Cell((number(figure, spread=spread),), note)


def _weights(sheet: SheetInput) -> list[tuple[str, Cell]]:
    mass = sheet.results.mass
    facts = [("Dry weight", _figure(mass.dry))]
    facts += [(f"All-up, {pack}", _figure(figure)) for pack, figure in mass.all_up.items()]
    return facts


def _flights(sheet: SheetInput) -> list[tuple[str, Cell]]:
    packs, note = sheet.results.flight.packs, sheet.results.flight.style.note
    return [(f"Flight, {pack}", _figure(flight.endurance_styled, note)) for pack, flight in packs.items()]


def _margin(sheet: SheetInput) -> list[tuple[str, Cell]]:
    """The narrowest margin to each limit of the site that this build comes near, worst pack first."""
    worst: dict[str, tuple[float, Cell]] = {}
    for m in sheet.results.margins:
        if isinstance(m.left, Unknown):
            continue
        words = "over" if m.within is False else "not judged" if m.within is None else "left"
        note = f"{words}, with {m.pack}" if m.pack else words
        tone = "bad" if m.within is False else ""
        cell = Cell((number(m.left, decimals=1),), note, tone=tone)  # type: ignore[arg-type]
        if m.limit.name not in worst or m.left.value < worst[m.limit.name][0]:
            worst[m.limit.name] = (m.left.value, cell)
    return [(f"To the limit: {name}", cell) for name, (_, cell) in worst.items()]


def _money(sheet: SheetInput) -> tuple[str, Cell]:
    budget = sheet.results.budget
    lacks = (
        f"no price for {_count(len(budget.lacks), 'part')}" if budget.lacks else "without packs, tools and ground gear"
    )
    return "Parts of this build", Cell((number(budget.figures["this-build"]),), lacks)


def _count(number: int, one: str) -> str:
    return f"{number} {one}" if number == 1 else f"{number} {one}s"


def at_a_glance(sheet: SheetInput) -> Section:
    """The figures that decide, the picture, and what the rules say in one line."""
    source, verdict = sheet.build.source, sheet.verdict
    blocks: list[Block] = []
    if source.hero is not None:
        blocks.append(Picture(f"{sheet.build.name}/{source.hero.file}", source.hero.alt, source.hero.caption or ""))
    blocks.append(Facts((*_weights(sheet), *_flights(sheet), _money(sheet)), large=True))
    margins = _margin(sheet)
    if margins:
        blocks.append(Facts(tuple(margins)))
    found = (_count(len(verdict.remarks), "remark"), _count(len(verdict.accepted), "fault") + " accepted")
    words = f"{verdict.summary()}, {', '.join(found)}. "
    blocks.append(Paragraph((Span(words), Span("What the rules say", "#not-judged"), Span("."))))
    if verdict.faults:
        said = "This sheet has faults that nobody accepted; it must not be built from."
        blocks.append(Notice(None, said, (Span("They stand at the end of the sheet."),), tone="fault"))
    return Section("glance", "At a glance", tuple(blocks))
