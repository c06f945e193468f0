"""At a glance: what a reader wants to know before reading on."""

from collections.abc import Iterable
from dataclasses import replace

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from builder.compute.flight.flight import PackFlight
from builder.compute.weight.limits import Margin
from builder.pages.blocks import (
    Block,
    Cell,
    Facts,
    Illustration,
    Notice,
    Paragraph,
    Picture,
    Section,
    Span,
)
from builder.pages.drawings.rotation_view import outline_of, rotation_view
from builder.pages.numbers import number, percent
from builder.pages.page_map import address_of
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.limit_words import margin_cell, worst_first
from builder.pages.views.aircraft import above_plain
from builder.rounding import rounded

MOST_FIGURES = 10
_DECIDES = 2  # of how hard it works, those that come before a second battery
_MOST_LIMITS = 3  # the worst of them; the table of limits has all
Fact = tuple[str, Cell]


def _figure(figure: MaybeFigure, note: str = "", *, spread: bool = True) -> Cell:
    if isinstance(figure, Unknown):
        return Cell((Span("not known"),), "; ".join(figure.missing[:2]), tone="quiet")
    return Cell((number(figure, spread=spread),), note)


def _share(figure: MaybeFigure) -> Cell:
    return _figure(figure) if isinstance(figure, Unknown) else Cell((percent(figure),))


def _dry(sheet: SheetInput) -> Fact:
    mass = sheet.results.mass
    return "Dry weight, without payload" if mass.payload else "Dry weight", _figure(mass.dry)


def _weights(sheet: SheetInput) -> list[Fact]:
    mass = sheet.results.mass
    return [
        (f"Flying weight, {mass.flown_with(pack)}", _figure(figure))
        for pack, figure in mass.all_up.items()
    ]


def _flights(sheet: SheetInput) -> list[Fact]:
    """The timer first: it sounds before the reserve is reached in nine flights of ten."""
    packs, style = sheet.results.flight.packs, sheet.results.flight.style
    out = []
    for pack, flight in packs.items():
        reserve = flight.reserve
        mean, kept, left = reserve.time, reserve.share, reserve.left_at_timer
        said = [f"{rounded(100 * left.value, 0)} % left then"] if isinstance(left, Figure) else []
        if isinstance(mean, Figure) and isinstance(kept, Figure):
            minutes, share = rounded(mean.value / 60, 1), rounded(100 * kept.value, 0)
            said.append(f"in the mean {minutes} min down to {share} %")
        note = ", ".join([*said, style.note])
        out.append((f"Timer, {pack}", Cell((number(flight.reserve.timer),), note)))
    return out


def _margins(sheet: SheetInput) -> list[Fact]:
    """How it stands to each limit of the site with the pack that makes it worst, worst first."""
    worst: dict[str, Margin] = {}
    for margin in sheet.results.margins:
        name = margin.limit.name
        worst[name] = min(worst.get(name, margin), margin, key=worst_first)
    ordered = sorted(worst.values(), key=worst_first)
    return [(f"To the limit: {m.limit.name}", margin_cell(m)) for m in ordered]


def _money(sheet: SheetInput) -> Fact:
    budget = sheet.results.budget
    lacks = (
        f"no price for {_count(len(budget.lacks), 'part')}"
        if budget.lacks
        else "without batteries, tools and ground gear"
    )
    return "Parts of this build", Cell((number(budget.figures["this-build"]),), lacks)


def _handling(flight: PackFlight) -> list[Fact]:
    """How hard it works with one battery."""
    pack = flight.pack
    return [
        (f"Hover throttle, {pack}", _share(flight.throttle)),
        (f"Thrust over weight, {pack}", _figure(flight.thrust_to_weight)),
        (f"Hover current, {pack}", _figure(flight.hover_current)),
        (f"Current at full throttle, {pack}", _figure(flight.peak_current)),
    ]


def _count(number: int, one: str) -> str:
    return f"{number} {one}" if number == 1 else f"{number} {one}s"


def card_facts(sheet: SheetInput) -> Facts:
    """The figures of the card: weights, times in the air, money."""
    return Facts((_dry(sheet), *_weights(sheet), *_flights(sheet), _money(sheet)), large=True)


def headline_figures(sheet: SheetInput) -> Facts:
    """Ten figures at most. With each kind its first comes before the second of any: of weights and
    times those of the first battery, of limits the worst three.
    """
    flights = list(sheet.results.flight.packs.values())
    handling = _handling(flights[0]) if flights else []
    limits = [[fact] for fact in _margins(sheet)[:_MOST_LIMITS]]
    deciding = [[fact] for fact in handling[:_DECIDES]]
    kinds: list[list[Fact]] = [
        _weights(sheet),
        *limits,
        _flights(sheet),
        [_money(sheet)],
        *deciding,
        [_dry(sheet)],
    ]
    rest = handling[_DECIDES:]
    chosen = [*_in_turn(kinds), *rest][:MOST_FIGURES]
    shown = (fact for kind in (*kinds, rest) for fact in kind if fact in chosen)
    return Facts(tuple(shown), large=True)


def _in_turn(kinds: list[list[Fact]]) -> Iterable[Fact]:
    """The first of each kind, then the second of each."""
    for at in range(max(map(len, kinds), default=0)):
        yield from (kind[at] for kind in kinds if at < len(kind))


def sheet_picture(sheet: SheetInput) -> Picture | Illustration | None:
    """The builder's own picture, else the aircraft from above as far as it is known."""
    hero = sheet.build.source.hero
    if hero is not None:
        return Picture(f"{sheet.build.name}/{hero.file}", hero.alt, hero.caption or "")
    return above_plain(sheet) or _turns_only(sheet)


def _turns_only(sheet: SheetInput) -> Illustration | None:
    """Which way the propellers turn, for a frame whose motors have no places."""
    found = sheet.results.settings
    outline = outline_of(sheet.build, found.motors)
    if outline is None:
        return None
    view = rotation_view(sheet.build.name, found.motors, found.props, outline)
    if view is None:
        return None
    above = replace(view, name=f"{sheet.build.name}-from-above")
    return Illustration(above, "Motors from above")


def checks_line(sheet: SheetInput) -> Paragraph:
    """What the checks found, in one sentence, with the way to all of it."""
    verdict = sheet.verdict
    found = (
        _count(len(verdict.faults), "fault"),
        f"{len(verdict.accepted)} accepted by the builder",
        _count(len(verdict.remarks), "remark"),
    )
    words = f"{sheet.checks}. {', '.join(found)}. "
    link = address_of(sheet.build.name, "not-judged")
    return Paragraph((Span(words), Span("Checks", link), Span(".")))


def _credit(sheet: SheetInput) -> Paragraph | None:
    """Whom it was started from, last of all, with the way to the whole of it."""
    if not sheet.build.source.origin:
        return None
    last = sheet.build.source.origin[-1]
    by = f" by {last.author}" if last.author else ""
    link = Span("Where it comes from", address_of(sheet.build.name, "origin"))
    return Paragraph((Span(f"Started from {last.title}{by}. "), link, Span(".")))


def at_a_glance(sheet: SheetInput) -> Section:
    """The picture, the figures that decide, and what the rules say in one line."""
    picture = sheet_picture(sheet)
    blocks: list[Block] = [picture] if picture is not None else []
    blocks += [headline_figures(sheet), checks_line(sheet)]
    blocks += [credit] if (credit := _credit(sheet)) is not None else []
    if sheet.verdict.faults:
        said = "This sheet has faults that nobody accepted. Do not build from it."
        link = Span("All of them", address_of(sheet.build.name, "not-judged"))
        blocks.append(Notice(None, said, (link,), tone="fault"))
    return Section("glance", "At a glance", tuple(blocks), role="figures")
