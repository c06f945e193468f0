"""A part of the shelf: what it is, its pads, what it weighs and costs, and the builds that use it."""

from builder.model.build import ShelfEntry
from builder.pages.blocks import Block, Cell, Column, Facts, Page, Row, Section, Span, Table
from builder.pages.numbers import cell, money, rounded
from builder.pages.summary import Summary
from builder.pages.wire_words import ROLE_WORDS


def part_page(entry: ShelfEntry, users: tuple[Summary, ...]) -> Page:
    """The page of a part that at least one build uses."""
    part = entry.part
    facts: list[tuple[str, Cell]] = [("Kind", cell(part.kind))]
    if part.maker:
        facts.append(("Maker", cell(part.maker)))
    if part.mass is not None:
        facts += [(f"Weight, {basis}", cell(f"{rounded(1000 * q.value, 2)} g")) for basis, q in part.mass.all()]
    if part.price is not None and part.price.each is not None:
        seen = f"seen {part.price.seen.isoformat()}" if part.price.seen else ""
        facts.append(("Price each", cell(money(part.price.each), note=seen)))
    if part.size is not None:
        facts.append(("Size", cell(part.size.label)))
    blocks: list[Block] = [Facts(tuple(facts))]
    sections = [Section("about", "What it is", tuple(blocks))]
    if part.pads:
        rows = tuple(
            Row((Cell((Span(n, code=True),)), cell(ROLE_WORDS[p.role]), cell(p.rail or ""), cell(p.note or "")))
            for n, p in part.pads.items()
        )
        sections.append(
            Section(
                "pads",
                "Contacts",
                (Table("Contacts", (Column("Contact"), Column("What it is"), Column("Rail"), Column("Note")), rows),),
            )
        )
    used = []
    for s in users:
        places = [k for k, shelf, _ in s.parts if shelf == entry.name] or ["pack"]
        used.append(Row((Cell((Span(s.title, f"{s.name}/index.html"),)), cell(", ".join(places)), cell(s.status))))
    sections.append(
        Section(
            "builds",
            "Builds that use it",
            (Table("Builds", (Column("Build"), Column("As"), Column("Status")), tuple(used)),),
        )
    )
    return Page(
        f"parts/{entry.name}/index.html",
        "part",
        part.name,
        part.note or "",
        tuple(sections),
        breadcrumbs=(Span("All builds", "index.html"),),
    )
