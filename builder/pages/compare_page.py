"""Two builds side by side: a verdict first, then what differs, then everything."""

from builder.compute.difference import Difference, Pair, PartChange, compare
from builder.compute.figure import Figure, Known
from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    Column,
    Fold,
    Illustration,
    Number,
    Page,
    Paragraph,
    Row,
    Section,
    Span,
    Table,
)
from builder.pages.numbers import cell, money, number
from builder.pages.sheet_input import SheetInput
from builder.pages.verdict_line import verdict_line
from builder.pages.waterfall import waterfall

_WORDS = {
    "same": "as before",
    "swapped": "swapped",
    "added": "added",
    "dropped": "dropped",
    "recounted": "another number",
}


def _of(figure: Known, build: str) -> Number:
    made = number(figure)
    return Number(made.value, made.unit, made.spread, made.anchor, made.basis, made.prefix, build)


def _change(pair: Pair) -> Cell:
    if not isinstance(pair.change, Figure):
        return cell("unknown")
    shown = number(pair.change, spread=True)
    sign = "+" if pair.change.value > 0 else ""
    note = "" if pair.real or pair.change.value == 0 else "smaller than the figures can tell"
    return Cell((Number(sign + shown.value, shown.unit, shown.spread),), note)


def _figure_row(pair: Pair, a: str, b: str) -> Row:
    return Row(
        (cell(pair.label), Cell((_of(pair.first, a),)), Cell((_of(pair.second, b),)), _change(pair)),
        anchor=pair.key.replace("/", "-"),
    )


def _part_row(change: PartChange) -> Row:
    grams: Cell = cell("unknown")
    if isinstance(change.grams, Figure):
        shown = number(change.grams, spread=True)
        grams = Cell((Number(("+" if change.grams.value > 0 else "") + shown.value, shown.unit, shown.spread),))
    cost = cell("")
    if change.money is not None:
        cost = cell(("+" if change.money.minor > 0 else "") + money(change.money))
    return Row(
        (cell(change.key, note=_WORDS[change.how]), cell(change.first), cell(change.second), grams, cost),
        anchor=f"part-{change.key}",
    )


def _list(heading: str, items: tuple[str, ...]) -> list[Block]:
    if not items:
        return []
    return [Paragraph((Span(heading, strong=True),)), Bullets(tuple((Span(i),) for i in items))]


def _parts(difference: Difference, a: str, b: str) -> list[Block]:
    heads = (Column("Place"), Column(a), Column(b), Column("Grams", align="right"), Column("Money", align="right"))
    changed = [
        p for p in difference.parts if p.how != "same" or (isinstance(p.grams, Figure) and abs(p.grams.value) > 5e-6)
    ]
    same = [p for p in difference.parts if p not in changed]
    blocks: list[Block] = []
    if changed:
        blocks.append(Table("Parts that differ", heads, tuple(_part_row(p) for p in changed), stack=True))
    else:
        blocks.append(Paragraph((Span("No part differs."),)))
    if same:
        blocks.append(
            Fold(
                f"{len(same)} places that are the same",
                (Table("The same in both", heads, tuple(_part_row(p) for p in same), stack=True),),
                paper=False,
            )
        )
    return blocks


def _turning(difference: Difference, b: str) -> list[Block]:
    buy = tuple(
        f"{p.key}: {p.second}" for p in difference.parts if p.how in ("swapped", "added", "recounted") and p.second
    )
    keep = sum(1 for p in difference.parts if p.how == "same")
    touched = {p.key for p in difference.parts if p.how in ("swapped", "added", "dropped")}
    solder = tuple(w for w in difference.wires_new if w) + tuple(
        s.removeprefix("solder ") for s in difference.steps_new if s.startswith("solder ")
    )
    blocks: list[Block] = [Paragraph((Span(f"{keep} places carry over."),))]
    blocks += _list("To buy", buy)
    blocks += _list(
        f"To unsolder and solder again: every joint of {', '.join(sorted(touched)) or 'nothing'}", solder[:20]
    )
    return blocks


def compare_page(first: SheetInput, second: SheetInput) -> Page:
    """The page of a pair."""
    a, b = first.build.name, second.build.name
    found = compare(first.build, first.results, second.build, second.results)
    heads = (Column("Figure"), Column(a, align="right"), Column(b, align="right"), Column("Difference", align="right"))
    drawing = waterfall(found)
    weight: list[Block] = [
        Table("Weight", heads, tuple(_figure_row(p, a, b) for p in (found.dry, *found.all_up)), stack=True)
    ]
    if drawing is not None:
        weight.append(
            Illustration(drawing, "From the sums of parts; the table above trusts the scale where it was asked.")
        )
    costs = Table(
        "Money",
        heads,
        (
            Row(
                (
                    cell("Parts of the build"),
                    cell(money(found.price[0])),
                    cell(money(found.price[1])),
                    cell(
                        money(
                            type(found.price[0])(found.price[1].minor - found.price[0].minor, found.price[0].currency)
                        )
                    ),
                )
            ),
        ),
    )
    sections = [
        Section(
            "verdict", "In short", (Paragraph((Span(verdict_line(found, first.build, second.build)),), lead=True),)
        ),
        Section("parts", "Parts", tuple(_parts(found, a, b))),
        Section("weight", "Weight", tuple(weight)),
        Section("money", "Money", (costs,)),
    ]
    if found.flight:
        sections.append(
            Section(
                "flight",
                "Flight",
                (Table("Flight", heads, tuple(_figure_row(p, a, b) for p in found.flight), stack=True),),
            )
        )
    wires = [*_list(f"Only in {a}", found.wires_gone), *_list(f"Only in {b}", found.wires_new)] or [
        Paragraph((Span("The wiring is the same."),))
    ]
    steps = [*_list(f"Only in {a}", found.steps_gone), *_list(f"Only in {b}", found.steps_new)] or [
        Paragraph((Span("The steps are the same."),))
    ]
    sections += [
        Section("wiring", "Wiring", tuple(wires)),
        Section("order", "Order of work", tuple(steps)),
        Section("turning", f"What it takes to turn {a} into {b}", tuple(_turning(found, b))),
    ]
    return Page(
        f"compare/{a}/{b}/index.html",
        "compare",
        f"{first.build.title} beside {second.build.title}",
        verdict_line(found, first.build, second.build),
        tuple(sections),
        draft=first.draft or second.draft,
        breadcrumbs=(Span("Side by side", "compare/index.html"),),
        links=(Span(first.build.title, f"{a}/index.html"), Span(second.build.title, f"{b}/index.html")),
    )
