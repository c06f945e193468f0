"""Keeping it flying: checklists from the parts, spares, and the history of what broke and what was
done.
"""

from dataclasses import replace

from builder.compute.figures.figure import Figure
from builder.compute.loops.plugging import all_unplugged
from builder.compute.money.history import Event, History
from builder.compute.order.steps.power_steps import charge_words
from builder.compute.power_up.emptied import battery_empty
from builder.model.build import Build
from builder.model.values.money_text import Money
from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    Inline,
    Markdown,
    Number,
    Row,
    Section,
    Span,
    Table,
    Tick,
    WriteIn,
)
from builder.pages.numbers import cell, number
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sections.upkeep_lines import (
    crash_lines,
    early_lines,
    first_lines,
    tenth_lines,
)
from builder.pages.sheet_input import SheetInput
from builder.pages.told_words import told_words
from builder.rounding import rounded


def _ticked(stage: str, lines: list[str]) -> Bullets:
    items: list[tuple[Inline, ...]] = [
        (Tick(f"upkeep-{stage}-{i}"), Span(line)) for i, line in enumerate(lines, 1)
    ]
    return Bullets(tuple(items))


def _cells(build: Build) -> Bullets | None:
    """Resistance of each cell, to write in beside what it was."""
    items: list[tuple[Inline, ...]] = []
    for pack in build.packs.values():
        if pack.part.cells is None:
            continue
        was = pack.part.resistance.value if pack.part.resistance is not None else None
        expect = f"{rounded(1000 * was, 0)} mΩ as described" if was is not None else ""
        boxes: list[Inline] = []
        each = pack.part.cells.low
        for n in range(1, each * pack.joined + 1):
            name = f"cell {n}"
            if pack.joined > 1:
                name = f"battery {(n - 1) // each + 1}, cell {(n - 1) % each + 1}"
            boxes += [WriteIn(f"upkeep-cell-{pack.key}-{n}", name, "mΩ"), Span(" ")]
        about = f"Battery {pack.key}, resistance of each cell{f', {expect}' if expect else ''}: "
        items.append((Tick(f"upkeep-cells-{pack.key}"), Span(about), *boxes))
    if items:
        items.append(
            (
                Span(
                    "Stop using a battery with one cell far above the others, or twice what it was new."
                ),
            )
        )
    return Bullets(tuple(items)) if items else None


_BATTERIES = (
    "Charge only in view, on ground that cannot burn. Its maker's sheet and local rules come first.",
    (
        "Join batteries in parallel, to charge or to fly, only if kind, cells and charge are alike."
        " Their volts must differ by less than 0.05 V a cell."
    ),
    "Never join the balance leads of batteries that are in series: it shorts cells.",
    "Store them cool and dry, away from what burns.",
    "Volts for storage: lithium-polymer about 3.8 V a cell, lithium-ion about 3.6 V.",
    (
        "Carry them at storage charge, each lead covered, in a bag that stands fire. Ask before"
        " you travel with them."
    ),
    "Take old ones to a collecting point, as local rules say. Never put one into household waste.",
    (
        "If one burns: go away from the smoke, call the fire brigade. If it is safe, cool what is"
        " around it with much water."
    ),
)


def _batteries(build: Build) -> Section | None:
    """How each battery is charged, and how all are joined, kept, carried and given away (common
    practice, no source).
    """
    if not build.packs:
        return None
    rows = [f"Charger for battery {told_words(charge_words(build, key))}." for key in build.packs]
    return Section(
        "upkeep-batteries", "Batteries", (_ticked("batteries", [*rows, *_BATTERIES]),), level=3
    )


def _spares(build: Build) -> Table | None:
    rows = tuple(
        table_row(f.part.name, str(f.use.spares), str(f.count))
        for f in build.parts.values()
        if f.use.spares
    )
    heads = table_columns("Spare", right_column("In the box"), right_column("Fitted"))
    return Table("Spares", heads, rows) if rows else None


def _in_weight(sheet: SheetInput, event: Event) -> str:
    """Whether the weights above count what the event did."""
    if event.mass is None or not event.mass.value:
        return ""
    days = [w.date for w in sheet.build.source.weighed]
    if not days:
        return "weights are the shelf's"
    if None in days:
        return "not added: a weighing has no date"
    return (
        "weighed since"
        if all(d is not None and d >= event.on for d in days)
        else "added to what was weighed before"
    )


def _signed(change: Figure) -> Number:
    """A change of weight with its sign."""
    shown = number(change, decimals=1, steady=True)
    return replace(shown, value=f"+{shown.value}") if change.value > 0 else shown


def _event(sheet: SheetInput, event: Event, digits: int) -> Row:
    when = f"at flight {event.flights}" if event.flights is not None else ""
    names = [
        sheet.build.parts[r].part.name if r in sheet.build.parts else r for r in event.replaced
    ]
    mass = _signed(event.mass) if event.mass is not None else "not noted"
    cost = number(event.cost, decimals=digits) if event.cost is not None else "not noted"
    kind = "broke" if event.broke else "done"
    return table_row(
        event.on.isoformat(),
        cell(kind, note=when),
        Cell((Markdown(event.what),), event.note),
        ", ".join(names) or "nothing",
        cost,
        cell(mass, note=_in_weight(sheet, event)),
    )


def _history(sheet: SheetInput) -> Table | None:
    """Incidents and maintenance by date, with cost and what each did to the weight, and both
    together.
    """
    found, digits = sheet.results.history, Money(0, sheet.build.site.currency).digits
    if not found.events:
        return None
    heads = table_columns(
        "Date", "Kind", "What", "Replaced", right_column("Cost"), right_column("Weight")
    )
    last = (
        cell("Together"),
        cell(""),
        cell(""),
        cell(""),
        cell(number(found.spent, decimals=digits)),
        cell(_signed(found.mass), note=_not_noted(found)),
    )
    rows = [_event(sheet, e, digits) for e in found.events]
    return Table("History", heads, (*rows, Row(last, kind="total")), anchor="history", stack=True)


def _not_noted(found: History) -> str:
    """How many events do not say what they did to the weight."""
    count = sum(1 for e in found.events if e.mass is None)
    return f"without {count} of which it is not noted" if count else ""


def upkeep(sheet: SheetInput) -> Section:
    """Checklists after 30 s, in the first flights, every tenth flight, after a crash; spares and
    history.
    """
    build = sheet.build
    parts: list[Block | Section] = []
    empty = battery_empty(build, sheet.results.gates)
    for anchor, heading, lines in (
        ("upkeep-first", "The first 30 seconds", first_lines(build, empty)),
        ("upkeep-early", "After flights 1 to 3", early_lines(build, empty)),
        ("upkeep-tenth", "After every tenth flight", tenth_lines(build, empty)),
        ("upkeep-crash", "After a crash", crash_lines(build, empty)),
    ):
        blocks: list[Block | Section] = [
            _ticked(anchor.removeprefix("upkeep-"), all_unplugged(build, lines))
        ]
        cells = _cells(build) if anchor == "upkeep-tenth" else None
        parts.append(
            Section(anchor, heading, (*blocks, *((cells,) if cells is not None else ())), level=3)
        )
    batteries = _batteries(build)
    parts += [batteries] if batteries is not None else []
    tables = [t for t in (_spares(build), _history(sheet)) if t is not None]
    if tables:
        parts.append(Section("upkeep-history", "Spares and history", tuple(tables), level=3))
    return Section("upkeep", "Keeping it flying", tuple(parts))
