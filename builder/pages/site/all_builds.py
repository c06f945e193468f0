"""Pages over all builds: the front page, and the table that puts every build with every pack in one
place.
"""

from collections.abc import Sequence
from dataclasses import replace

from builder.compute.weight.mass import flown_with
from builder.model.values.money_text import Money
from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    Column,
    Illustration,
    Inline,
    Markdown,
    Number,
    Page,
    Paragraph,
    Row,
    Section,
    Span,
    Table,
)
from builder.pages.distinct import distinct
from builder.pages.numbers import is_kept, money
from builder.pages.page_map import address_of
from builder.pages.plots.scatter import scatter
from builder.pages.rows import right_column, table_columns
from builder.pages.site.site_pages import SitePages
from builder.pages.site.small_picture import small_picture
from builder.pages.summaries.summary import Summary, SummaryNumber
from builder.rounding import SHOWN, decimals_for, rounded, rounded_down

_FRONT_COLUMNS = table_columns(
    "Build",
    Column("", plain=True),
    "Status",
    right_column("Dry weight"),
    right_column("Lightest flying weight"),
    right_column("Longest timer"),
    right_column("Parts"),
    right_column("Revised"),
)
_TABLE_COLUMNS = table_columns(
    "Build",
    "Flown with",
    "Status",
    right_column("Dry weight"),
    right_column("Flying weight"),
    right_column("Flight"),
    right_column("Throttle in hover"),
    right_column("Parts"),
    right_column("Flights"),
    right_column("Revised"),
)


def number_cell(
    build: str,
    found: SummaryNumber | None,
    *,
    percent: bool = False,
    spread: bool = True,
) -> Cell:
    """A summary's number, linked to its derivation on the build's own numbers page; words where it
    is not known. A time to be kept is cut.
    """
    if found is None or found.value is None:
        return Cell((Span("not known"),), tone="quiet")
    unit, factor, places = (
        ("%", 100.0, 0) if percent else SHOWN.get(found.unit, (found.unit, 1.0, 2))
    )
    wide = found.spread * factor
    shown = f"± {rounded(wide, max(places, decimals_for(wide)))}" if spread and wide else ""
    prefix = found.reads or (
        "at least" if found.lacks else ""
    )  # a manifest of an older version has no such words
    text = (rounded_down if is_kept(found.anchor) else rounded)(found.value * factor, places)
    piece = Number(text, unit, shown, found.anchor, prefix=prefix, build=build)
    return Cell((piece,), sort=found.value)


def _price(summary: Summary) -> Cell:
    if summary.price_minor is None:
        return Cell((Span("not known"),), tone="quiet")
    text = money(Money(summary.price_minor, summary.currency), at_least=summary.price_at_least)
    return Cell((Span(text),), sort=summary.price_minor)


def _best(summary: Summary, start: str, *, most: bool) -> Cell:
    """The largest or smallest known number whose key starts so, and the pack with which it is true."""
    own = ((key, n) for key, n in sorted(summary.numbers.items()) if key.startswith(start))
    known = [(n.value, key.removeprefix(start), n) for key, n in own if n.value is not None]
    if not known:
        return number_cell(summary.name, None)
    _, pack, found = max(known, key=lambda k: k[0]) if most else min(known, key=lambda k: k[0])
    return replace(
        number_cell(summary.name, found, spread=False),
        note=f"with {flown_with(pack, summary.payload)}",
    )


def _title(summary: Summary, *, about: bool) -> Cell:
    marks = [
        m
        for m, on in (("draft", summary.draft), ("kept from an earlier publish", summary.kept))
        if on
    ]
    note = "; ".join([summary.summary, *marks] if about and summary.summary else marks)
    return Cell(
        (Span(summary.title, f"{summary.name}/index.html", strong=True),),
        note,
        sort=summary.title.casefold(),
    )


def status_cell(summary: Summary) -> Cell:
    """How far a build has come; of one whose place another took, that one."""
    other = summary.superseded_by
    if not other:
        return Cell((Span(summary.status),))
    link = Span(other, f"{other}/index.html")
    return Cell((Span(f"{summary.status}; its place took "), link), sort=summary.status)


def _front_row(summary: Summary) -> Row:
    cells = (
        _title(summary, about=True),
        Cell(small_picture(summary)),
        status_cell(summary),
        number_cell(summary.name, summary.numbers.get("dry"), spread=False),
        _best(summary, "all-up/", most=False),
        _best(summary, "timer/", most=True),
        _price(summary),
        Cell((Span(summary.revised or "not said"),)),
    )
    return Row(cells, anchor=f"build-{summary.name}")


def _pack_row(summary: Summary, pack: str) -> Row:
    numbers, name = summary.numbers, _title(summary, about=False)
    cells = (
        replace(name, pieces=(*small_picture(summary, pack or "bare"), *name.pieces)),
        Cell((Span(flown_with(pack, summary.payload) if pack else "no battery"),)),
        status_cell(summary),
        number_cell(summary.name, numbers.get("dry")),
        number_cell(summary.name, numbers.get(f"all-up/{pack}")),
        number_cell(summary.name, numbers.get(f"endurance/{pack}")),
        number_cell(summary.name, numbers.get(f"throttle/{pack}"), percent=True),
        _price(summary),
        Cell((Span(str(summary.flights)),), sort=summary.flights),
        Cell((Span(summary.revised or "not said"),)),
    )
    return Row(cells, anchor=f"build-{summary.name}-{pack}" if pack else f"build-{summary.name}")


def _in_order(summaries: Sequence[Summary]) -> list[Summary]:
    return sorted(summaries, key=lambda s: (s.title.casefold(), s.name))


def front_page(summaries: Sequence[Summary], site: SitePages) -> Page:
    """The front page: what this place is, and every build with the figures that one asks for first."""
    builds = _in_order(summaries)
    note = (
        "Each figure names the battery and payload with which it is true; lightest and longest may"
        " be on two "
    )
    note += "batteries. Dry is without battery and payload. "
    note += (
        "Flights are computed alike: in the builder's own style by the log, or a usual one without"
        " it. "
    )
    note += "Compare shows every battery. Each number opens its derivation."
    blocks: list[Block] = [
        Table(
            "All builds",
            _FRONT_COLUMNS,
            tuple(map(_front_row, builds)),
            "all",
            stack=True,
            note=note,
            sortable=True,
        )
    ]
    if not builds:
        blocks = [Paragraph((Span("No build is published yet."),), lead=True)]
    sections = [Section("builds", "Builds", tuple(blocks))]
    changes = ((day, s, text) for s in builds for day, text in s.changes)
    news = sorted(changes, key=lambda c: (c[0], c[1].name))[::-1]
    if news:
        items = tuple(_news(*one) for one in news[:6])
        sections.append(Section("news", "What changed lately", (Bullets(items),)))
    if builds:
        way = Paragraph((Span("Parts that these builds use", "parts/index.html"),))
        sections.append(Section("parts", "Parts", (way,)))
    data = {"builds": tuple((s.name, s.title) for s in builds)}
    return Page("index.html", "front", site.title, site.about, distinct(tuple(sections)), data=data)


def _news(day: str, s: Summary, text: str) -> tuple[Inline, ...]:
    """A change of a build, with its day."""
    build = Span(s.title, address_of(s.name, "changes"))
    return (Span(f"{day}  "), build, Span(": "), Markdown(text))


def all_builds_page(
    summaries: Sequence[Summary],
    pairs: Sequence[tuple[str, str]],
    site: SitePages,
    limits: Sequence[tuple[str, float]] = (),
) -> Page:
    """Every build with every pack as one table, and the ways to each pair that is laid side by
    side.

    `limits` are (name, kg) of the limits on all-up weight.
    """
    builds = _in_order(summaries)
    titles = {s.name: s.title for s in builds}
    rows = tuple(_pack_row(s, pack) for s in builds for pack in s.packs or ("",))
    note = (
        "A spread (±) is one standard deviation. Whether two builds differ by more than it stands"
        " on their own page. "
    )
    note += (
        "Flying weight (all-up) holds battery and payload, as limits take it; dry is without both."
    )
    table = Table(
        "Every build with every battery",
        _TABLE_COLUMNS,
        rows,
        "all",
        stack=True,
        note=note,
        sortable=True,
    )
    sections = [Section("table", "All builds in one table", (table,))]
    drawing = scatter(builds, limits)
    if drawing is not None:
        words = (
            "Each point is a build with one of its batteries and leads to its sheet. The upright stroke"
            " is one standard "
        )
        words += (
            "deviation of the time. The broken lines are limits of weight. The table says the same"
            " in figures."
        )
        sections.append(
            Section(
                "weight-and-time",
                "Weight against time in the air",
                (Illustration(drawing, words, wide=True),),
            )
        )
    shown = [(a, b) for a, b in pairs if a in titles and b in titles]
    items = tuple(
        (Span(f"{titles[a]} and {titles[b]}", f"compare/{a}/{b}/index.html"),) for a, b in shown
    )
    anywhere = Paragraph(
        (Span("Any two builds", "compare/any/index.html"), Span(" can be compared."))
    )
    if builds:
        pairs_listed: tuple[Block, ...] = (Bullets(items),) if items else ()
        sections.append(Section("pairs", "Two builds compared", (*pairs_listed, anywhere)))
    return Page(
        "compare/index.html",
        "table",
        "Compare",
        f"The builds of {site.title} in one table, and any two of them beside each other.",
        distinct(tuple(sections)),
        breadcrumbs=(Span("All builds", "index.html"),),
        data={"builds": tuple((s.name, s.title) for s in builds)},
    )
