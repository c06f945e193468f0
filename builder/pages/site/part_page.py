"""A part of the shelf: what it is, its pads, what it weighs over all builds, who uses it, and what
it was swapped for.
"""

from collections.abc import Mapping, Sequence

from builder.compute.weight.samples import samples
from builder.model.build import ShelfEntry
from builder.model.source.electrical import Pad
from builder.model.source.part import Part
from builder.model.source.reached import Reached
from builder.pages.blocks import Block, Cell, Column, Facts, Page, Row, Section, Span, Table
from builder.pages.numbers import cell, money
from builder.pages.page_map import address_of
from builder.pages.rows import table_columns, table_row
from builder.pages.site.part_history import Swapping, flights_words
from builder.pages.site.part_pads import part_pads
from builder.pages.summaries.summary import Summary
from builder.pages.tables.part_facts import bench_blocks, kind_facts
from builder.pages.wire_words import ROLE_WORDS
from builder.rounding import rounded

_GRAMS = 1000.0
_REACHED = {"usb": "USB socket", "card": "Card slot", "button": "Button"}


def _about(part: Part) -> Facts:
    facts: list[tuple[str, Cell]] = [
        ("Kind", cell("battery" if part.kind == "pack" else part.kind))
    ]
    if part.maker:
        facts.append(("Maker", cell(part.maker)))
    if part.mass is not None:
        together = (
            f"{part.mass.weighed_together} on the scale at once"
            if part.mass.weighed_together
            else ""
        )
        for basis, q in part.mass.all():
            by = f"measured by {part.mass.measured_by}" if part.mass.measured_by else ""
            said = ", ".join(w for w in (together, by) if w)
            note = said if basis == "measured" else ""
            facts.append((f"Weight, {basis}", cell(f"{rounded(_GRAMS * q.value, 2)} g", note=note)))
    if part.price is not None and part.price.each is not None:
        seen = f"seen {part.price.seen.isoformat()}" if part.price.seen else ""
        facts.append(("Price each", cell(money(part.price.each), note=seen)))
    if part.price is not None and part.price.pack is not None:
        seen = f"seen {part.price.seen.isoformat()}" if part.price.seen else ""
        facts.append((f"Price for {part.price.sold_in}", cell(money(part.price.pack), note=seen)))
    if part.supply is not None:
        volts = part.supply.accepts
        words = "not known"
        if volts is not None:
            words = f"{volts.low:g} to {volts.high:g} V"
        facts.append(("Volts it accepts", cell(words)))
    if part.size is not None:
        facts.append(("Size", cell(part.size.label)))
    for what, reached in part.reach.items():
        facts.append((_REACHED[what], cell(_reached_words(reached))))
    return Facts(tuple(facts))


def _reached_words(reached: Reached) -> str:
    """Where something is reached, and what room that takes."""
    words = [f"{reached.edge} edge" if reached.edge is not None else ""]
    if reached.side != "edge":
        words.append("from the top" if reached.side == "top" else "from under")
    room = reached.room.label if reached.room is not None else "not known how much"
    words.append(f"free before it: {room}")
    return ", ".join(w for w in words if w)


def _pad_words(pad: Pad) -> str:
    words = [pad.rail or "", f"serial port {pad.serial}" if pad.serial is not None else ""]
    level = f"{rounded(pad.level.value, 1)} V" if pad.level is not None else ""
    side = "underside" if pad.side == "under" else ""
    words += [
        level,
        side,
        pad.note or "",
    ]
    return ", ".join(w for w in words if w)


def _contacts(part: Part) -> Table:
    said = {name: _pad_words(p) for name, p in part.pads.items()}
    heads = (
        Column("Contact"),
        Column("What it is"),
        *((Column("Besides"),) if any(said.values()) else ()),
    )
    rows = tuple(
        Row((Cell((Span(n, code=True),)), cell(ROLE_WORDS[p.role]), cell(said[n]))[: len(heads)])
        for n, p in part.pads.items()
    )
    return Table("Contacts", heads, rows)


def _weighed(shelf: str, users: Sequence[Summary]) -> tuple[Block, ...]:
    """Pieces that were weighed one by one, build by build, and all of them together."""
    rows: list[Row] = []
    every: list[float] = []
    for s in users:
        for key, name, readings in s.weighed:
            if name == shelf:
                title = Cell((Span(s.title, address_of(s.name, "weight")),))
                rows.append(table_row(title, key, _readings(readings), *_mean(readings)))
                every += readings
    if not rows:
        return ()
    rows.append(
        Row((cell("All together"), cell(""), cell(f"{len(every)} pieces"), *_mean(every)), "total")
    )
    heads = table_columns(
        "Build",
        "As",
        Column("Each", "g"),
        Column("Mean", "g", "right"),
        Column("Scatter between pieces", "g", "right"),
    )
    note = "Scatter is one standard deviation of single pieces, the scale's own steps included."
    return (Table("Pieces weighed one by one", heads, tuple(rows), stack=True, note=note),)


def _samples(part: Part) -> tuple[Block, ...]:
    """What several people's pieces weighed: each their mean, and how those means lie apart."""
    if not part.samples:
        return ()
    rows: list[Row] = []
    means: list[float] = []
    own = part.mass.measured if part.mass is not None else None
    if own is not None and part.mass is not None and not part.mass.measured_by:
        means.append(own.value)
        rows.append(table_row("This shelf", "", *_mean((own.value,))))
    for one in part.samples:
        readings = tuple(piece.value for piece in one.pieces)
        found = samples(readings)
        means += [found.mean] if found is not None else []
        rows.append(table_row(one.by, _readings(readings), *_mean(readings)))
    several = (cell("All together"), cell(f"{len(means)} people"), *_mean(means))
    rows.append(Row(several, "total"))
    heads = table_columns(
        "Who",
        Column("Each", "g"),
        Column("Mean", "g", "right"),
        Column("Scatter", "g", "right"),
    )
    note = (
        "Scatter of a person is that between their pieces; of all together, that between the means"
        " of people: pieces, bags and scales. No sheet counts with it."
    )
    return (Table("Weighed by several people", heads, tuple(rows), stack=True, note=note),)


def _readings(readings: Sequence[float]) -> str:
    return ", ".join(rounded(_GRAMS * r, 2) for r in readings)


def _mean(readings: Sequence[float]) -> tuple[Cell, Cell]:
    found = samples(readings)
    if found is None:
        return cell(""), cell("")
    scatter = "one piece" if found.scatter is None else f"± {rounded(_GRAMS * found.scatter, 2)}"
    return cell(rounded(_GRAMS * found.mean, 2)), cell(scatter)


def _users(entry: ShelfEntry, users: Sequence[Summary]) -> Table:
    rows = []
    for s in users:
        places = [k if n == 1 else f"{n} x {k}" for k, shelf, n in s.parts if shelf == entry.name]
        places += [
            f"battery {k}"
            for k, shelf in zip(s.packs, s.packs_used, strict=False)
            if shelf == entry.name
        ]
        title = Cell((Span(s.title, f"{s.name}/index.html"),))
        flights = flights_words(entry.name, s) or "none logged"
        rows.append(table_row(title, ", ".join(places), s.status, flights))
    return Table("Builds", table_columns("Build", "As", "Status", "Flights"), tuple(rows))


def _swaps(history: Sequence[Swapping], names: Mapping[str, str], shown: frozenset[str]) -> Table:
    rows = []
    for h in history:
        link = f"parts/{h.other}/index.html" if h.other in shown else ""
        other = Cell((Span(names.get(h.other, h.other), link),)) if h.other else cell("its like")
        there = address_of(h.build, "alternatives") if h.found else f"{h.build}/index.html"
        rows.append(table_row(other, Cell((Span(h.title, there),)), h.how, h.found))
    heads = table_columns("Other part", "On", "How", "Checked there")
    note = (
        "An empty place was not checked. 'Fits' is for that build only: its page says what the swap"
        " changes, and which faults it brings."
    )
    return Table("Swapped for", heads, tuple(rows), stack=True, note=note)


def part_file(shelf: str) -> str:
    """Where a part is given away, as an entry for somebody's shelf."""
    return f"parts/{shelf}/part.yaml"


def part_page(
    entry: ShelfEntry,
    users: Sequence[Summary],
    history: Sequence[Swapping] = (),
    names: Mapping[str, str] | None = None,
    shown: frozenset[str] = frozenset(),
) -> Page:
    """The page of a part that at least one build uses. `names` of other parts by shelf name;
    `shown` have a page.
    """
    part = entry.part
    of_kind = kind_facts(part)
    about: tuple[Block, ...] = (_about(part),)
    if of_kind is not None:
        about = (*about, of_kind)
    sections = [Section("builds", "Builds that use it", (_users(entry, users),))]
    sections.append(Section("about", "What it is", about))
    bench = bench_blocks(entry.name, part)
    if bench:
        sections.append(Section("bench", "On the bench", bench))
    if part.pads:
        sections.append(
            Section("pads", "Contacts", (*part_pads(entry.name, part), _contacts(part)))
        )
    weighed = (*_weighed(entry.name, users), *_samples(part))
    if weighed:
        sections.append(Section("weighed", "What it weighed", weighed))
    if history:
        sections.append(
            Section("swapped", "What it was swapped for", (_swaps(history, names or {}, shown),))
        )
    return Page(
        f"parts/{entry.name}/index.html",
        "part",
        part.name,
        part.note or "",
        tuple(sections),
        breadcrumbs=(Span("Parts", "parts/index.html"),),
        links=(Span("This part for your shelf (YAML)", part_file(entry.name)),),
    )
