"""Weight: the table, the scale beside the sum, margins to the limits, where the grams are, what a
swap would do.
"""

from builder.compute.flight.flight import BAND
from builder.compute.weight.limits import Margin
from builder.compute.weight.reconcile import ScaleReading
from builder.model.build import Build
from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    Illustration,
    Inline,
    Paragraph,
    Row,
    Section,
    Span,
    Table,
)
from builder.pages.numbers import number, percent
from builder.pages.plots.weight_bar import BarLimit, weight_bar
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.balance_tables import balance_section
from builder.pages.tables.limit_words import held_words, missing_words
from builder.pages.tables.weight_table import weight_table
from builder.rounding import rounded


def _links(sheet: SheetInput) -> dict[str, str]:
    links = {f.key: f"parts/{f.shelf}/index.html" for f in sheet.build.parts.values()}
    return links | {
        f"pack-{p.key}": f"parts/{p.shelf}/index.html" for p in sheet.build.packs.values()
    }


def _verdict(margin: Margin) -> Cell:
    if margin.within is None:
        return Cell((Span(f"not known: {missing_words(margin)}"),), tone="bad")
    if not margin.within:
        return Cell((Span("over", strong=True),), tone="bad")
    return Cell((Span("within"),), tone="good")


def _of_copy(margin: Margin) -> Cell:
    """How likely another aircraft after this sheet is over the limit."""
    if margin.chance_of_copy is None:
        return Cell()
    return Cell((percent(margin.chance_of_copy), Span(" of copies")))


def _limits(sheet: SheetInput) -> list[Block]:
    margins = sheet.results.margins
    if not margins:
        return []
    columns = table_columns(
        "Flown with",
        right_column("Weight"),
        right_column("Left"),
        right_column("Chance of being over"),
        right_column("A copy is over"),
        "Verdict",
    )
    rows: list[Row] = []
    said = ""
    for m in margins:
        rule = "less than" if m.limit.strict else "not more than"
        source = ", ".join(
            s for s in (m.limit.source, m.limit.dated.isoformat() if m.limit.dated else "") if s
        )
        if m.limit.name != said:
            pieces = (
                Span(f"{m.limit.name}: {rule} "),
                number(m.bound, decimals=2),
                Span(f". {source}" if source else ""),
            )
            rows.append(Row((Cell(pieces),), kind="group"))
            said = m.limit.name
        rows.append(
            table_row(
                m.flown_with or "dry",
                number(m.mass),
                number(m.left, decimals=2),
                percent(m.chance_over),
                _of_copy(m),
                _verdict(m),
            )
        )
    note = (
        "Weights are compared before rounding. Is it legal to fly? Weight is one part of it. This"
        " table is a help, not advice: ask the authority where you fly about registration, marks,"
        " competence, people and places."
    )
    return [
        Table("Margin to each limit", columns, tuple(rows), anchor="limits", note=note),
        *_ways(margins),
    ]


def _ways(margins: tuple[Margin, ...]) -> list[Block]:
    items: list[tuple[Inline, ...]] = []
    for m in margins:
        for way in m.ways:
            head = (
                f"{m.limit.name}, {held_words(m)}: {way.label} as"
                f" {'battery' if way.pack else way.what} ("
            )
            items.append(
                (Span(head), number(way.change), Span(") gives "), number(way.becomes), Span("."))
            )
        if m.within is False and not m.ways:
            items.append(
                (
                    Span(
                        f"{m.limit.name}, {held_words(m)}: no single swap or battery on the shelf does it."
                    ),
                )
            )
    if not items:
        return []
    return [
        Paragraph((Span("What would bring it under, one change at a time:"),)),
        Bullets(tuple(items)),
    ]


def _scale(sheet: SheetInput) -> Table | None:
    readings = sheet.results.mass.readings
    if not readings:
        return None
    columns = table_columns(
        "Weighed",
        right_column("Sum of the parts"),
        right_column("Scale"),
        right_column("Not in the list"),
        "Verdict",
    )
    rows = []
    for r in readings:
        said = "fits" if r.explained else "contradicts"
        gap = number(r.gap, spread=True, decimals=2)
        about = Cell((Span(r.words),), note=_since(r, sheet.build))
        both = [number(f, spread=True, decimals=2) for f in (r.summed, r.weighed)]
        verdict = Cell((Span(said),), tone="good" if r.explained else "bad")
        rows.append(table_row(about, *both, Cell((gap,)), verdict))
    note = (
        "All readings and the parts are held against each other, each with its spread. Sound ones"
        " are called contradictory once in two hundred times."
    )
    return Table("Sum and scale", columns, tuple(rows), anchor="reconciliation", note=note)


def _was_changed(build: Build) -> bool:
    """Whether anything is written that may have changed the weight on some day."""
    source = build.source
    fitted = any(c.added or c.mass is not None for c in source.changes)
    broke = any(e.replaced or e.mass is not None for e in source.incidents)
    mended = any(e.replaced or e.mass is not None for e in source.maintenance)
    return fitted or broke or mended


def _since(reading: ScaleReading, build: Build) -> str:
    """The builder's note, and what the aircraft went through since that day."""
    said = [reading.note] if reading.note else []
    if reading.whole and reading.on is None and _was_changed(build):
        said.append("no day noted: no change of the aircraft was added to it")
    if reading.later:
        said.append(f"out of date, carried on with what is known of: {'; '.join(reading.later)}")
    if reading.unsure:
        said.append(f"older than this, of which no grams are noted: {'; '.join(reading.unsure)}")
    return ". ".join(said)


def _carried_over(sheet: SheetInput) -> list[Block]:
    """That a build without a reading of its own has its weight from its base."""
    mass, base, like = sheet.results.mass, sheet.build.base, sheet.build.like
    if like is not None and mass.evidence.of_another:
        told = (
            f"Not weighed. Expected is what a copy of {like.aircraft.title} weighs: what was weighed"
            " there tells of the parts, and the pieces are its own."
        )
        return [Paragraph((Span(told),))]
    if base is None or any(r.whole for r in mass.readings) or not mass.evidence.gaps:
        return []
    text = (
        f"Not weighed as it is. Weighed was {base.aircraft.title}; its weight counts here, and the"
        " difference of the parts is added."
    )
    return [Paragraph((Span(text),))]


def _copy(sheet: SheetInput) -> Table:
    """What another aircraft after this sheet will weigh, beside this one."""
    mass, margins = sheet.results.mass, sheet.results.margins
    columns = table_columns(
        "Copy",
        right_column("This aircraft"),
        right_column("A copy"),
        right_column("80 of 100 copies"),
        right_column("Chance of a copy being over"),
    )
    rows = []
    for key, copy in mass.copies.items():
        here = mass.all_up[key] if key else mass.dry
        low, high = copy.mass.band(0.80)
        band = f"{rounded(1000 * low, 1)} to {rounded(1000 * high, 1)} g"
        over: list[Inline] = []
        for m in margins:
            if m.pack == key and m.chance_of_copy is not None:
                between = "; " if over else ""
                over += [Span(f"{between}{m.limit.name} "), percent(m.chance_of_copy)]
        flown = f"with {mass.flown_with(key)}" if key else "dry"
        both = [number(f, spread=True) for f in (here, copy.mass)]
        rows.append(table_row(flown, *both, band, Cell(tuple(over) or (Span("no limit"),))))
    note = (
        "Other pieces of the same parts, other batteries of the same print, other glue and ties."
        " Weigh your own: the margins of this sheet are of this aircraft only."
    )
    return Table("Your copy", columns, tuple(rows), anchor="your-copy", note=note, stack=True)


def _at_a_glance(sheet: SheetInput) -> Paragraph:
    mass = sheet.results.mass
    pieces: list[Inline] = [Span("Dry "), number(mass.dry, spread=True)]
    for pack, figure in mass.all_up.items():
        pieces += [
            Span(f"; flying weight (all-up) with {mass.flown_with(pack)} "),
            number(figure, spread=True),
        ]
    pieces.append(Span("."))
    lacking = dict.fromkeys(
        name for figure in (mass.dry, *mass.all_up.values()) for name in figure.lacks
    )
    if lacking:
        pieces.append(Span(f" Without what is not known: {', '.join(lacking)}."))
    return Paragraph(tuple(pieces), lead=True)


def _without_payload(sheet: SheetInput) -> list[Paragraph]:
    """The weights without payload, named as what no limit looks at."""
    found = sheet.results.mass.without_payload
    if not found:
        return []
    pieces: list[Inline] = [
        Span("Without payload, for comparison only (limits look at the flying weight):")
    ]
    for pack, figure in found.items():
        pieces += [Span(f" with battery {pack} "), number(figure), Span(";")]
    return [Paragraph((*pieces[:-1], Span(".")), quiet=True)]


def _near_limits(sheet: SheetInput, pack: str) -> tuple[BarLimit, ...]:
    """The limits for the first battery that the bar can show: those from half to one and a half
    weight.
    """
    out = []
    for m in sheet.results.margins:
        if m.pack == pack and 0.5 < m.bound.value / m.mass.value < 1.5 and m.mass.spread:
            said = number(m.bound, decimals=1)
            words = f"{m.limit.name}: {said.value} {said.unit}"
            out.append(BarLimit(words, m.bound.value, m.mass.band(BAND)))
    return tuple(sorted(out, key=_by_bound))


def _by_bound(limit: BarLimit) -> float:
    return limit.bound


def _bar(sheet: SheetInput) -> list[Block]:
    """Where the grams are, up to the limits that are near."""
    mass = sheet.results.mass
    first = next(iter(mass.packs), "")
    limits = _near_limits(sheet, first)
    bar = weight_bar(sheet.build.name, mass, limits=limits)
    if bar is None:
        return []
    held = f", with {mass.flown_with(first)}" if first else ""
    more = " The thick line holds the weight of four cases of five." if limits else ""
    return [Illustration(bar, f"Where the grams are{held}.{more}", plot=True)]


def weight(sheet: SheetInput) -> Section:
    """The section; empty for a build without parts."""
    mass = sheet.results.mass
    if not mass.lines:
        return Section("weight", "Weight", ())
    blocks: list[Block | Section] = [_at_a_glance(sheet), *_limits(sheet), *_without_payload(sheet)]
    blocks += _carried_over(sheet)
    scale = _scale(sheet)
    if scale is not None:
        blocks.append(scale)
    blocks.append(_copy(sheet))
    blocks += _bar(sheet)
    blocks.append(weight_table(mass, _links(sheet)))
    balance = balance_section(sheet.results.balance)
    if balance is not None:
        blocks.append(balance)
    return Section("weight", "Weight", tuple(blocks))
