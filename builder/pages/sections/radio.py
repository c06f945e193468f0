"""Radio: each link's frequency, radiated power, polarisation, path and margin, and the workspace's
channel table.
"""

from typing import Literal

from builder.compute.radio.channels import ChannelRow, channels
from builder.compute.radio.link import Link
from builder.diagnostics.finding import Signal
from builder.pages.blocks import Block, Cell, Column, Facts, Notice, Row, Section, Span, Table
from builder.pages.numbers import cell, number
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sheet_input import SheetInput
from builder.rounding import MILLIWATTS, rounded

# which facts of a link are shown: all of them, or what is set without what its margin is worked out from
LinkFacts = Literal["all", "set"]


def _link(link: Link, shown: LinkFacts) -> Facts:
    """A link, its settings before what its margin is worked out from."""
    settings, derived = _settings(link), _derived(link)
    return Facts((*settings, *derived) if shown == "all" else settings)


def _settings(link: Link) -> tuple[tuple[str, Cell], ...]:
    """What is set at a link, and what of it local rules ask for."""
    allowed = "outside every range of site.yaml"
    if link.allowed is not None:
        limit = link.allowed.eirp
        upto = f", up to {rounded(1000 * limit.value, 0)} mW e.i.r.p." if limit is not None else ""
        low, high = link.allowed.from_.value / 1e6, link.allowed.to.value / 1e6
        allowed = f"{low:g} to {high:g} MHz{upto}"
    words = tuple((name, cell(text)) for name, text in link.words)
    source = (link.allowed.source or "") if link.allowed is not None else ""
    return (
        *words,
        ("Frequency", Cell((number(link.frequency),))),
        ("Power at the transmitter", Cell((number(link.power, shown_as=MILLIWATTS),))),
        ("Radiated power, e.i.r.p.", Cell((number(link.radiated, shown_as=MILLIWATTS),))),
        ("Allowed", cell(allowed, note=source)),
    )


def _derived(link: Link) -> tuple[tuple[str, Cell], ...]:
    """What the margin of a link is worked out from."""
    ends = f"{link.sent or 'unknown'} to {link.received or 'unknown'}"
    over = Span(" over ")
    return (
        ("Gain of its antenna", Cell((number(link.gain),))),
        ("Polarisation", Cell((Span(f"{ends}, loss "), number(link.polarisation)))),
        (
            "Path in free space",
            Cell((number(link.path_loss), over, number(link.distance, decimals=0))),
        ),
        ("Gain at the other end", Cell((number(link.gain_there),))),
        ("Weakest signal that it takes", Cell((number(link.least, decimals=0),))),
        ("Margin", Cell((number(link.margin, spread=True),))),
    )


def _channel(row: ChannelRow) -> Row:
    allowed = Cell((Span("outside"),), tone="bad")
    if row.allowed:
        allowed = Cell((Span("inside"),), tone="good")
    used = Cell((Span("this build", strong=True),)) if row.used else cell("")
    return table_row(row.band, row.number, f"{row.frequency / 1e6:g}", allowed, used)


def _channels(sheet: SheetInput) -> list[Block | Section]:
    rows = channels(sheet.build)
    if not rows:
        return []
    heads = table_columns(
        "Band",
        right_column("Channel"),
        Column("Middle", "MHz", "right"),
        "Middle allowed here",
        "Set",
    )
    note = (
        "The workspace's own table. Allowed: the middle lies inside a range of site.yaml for video."
        " How wide a channel is, is not known here: its edges have to lie inside too."
    )
    return [
        Table(
            "Channel table",
            heads,
            tuple(_channel(r) for r in rows),
            anchor="channel-table",
            note=note,
        )
    ]


def radio_section(sheet: SheetInput, shown: LinkFacts = "all") -> Section | None:
    """The links and the channel table; None for a build whose setup speaks of no link."""
    links = [
        k
        for k in (sheet.results.settings.radio.video, sheet.results.settings.radio.control)
        if k is not None
    ]
    if not links:
        return None
    blocks: list[Block | Section] = [
        Section(f"radio-{k.serves}", f"{k.serves.capitalize()} link", (_link(k, shown),), level=4)
        for k in links
    ]
    blocks += _channels(sheet)
    text = (
        "The ranges are the builder's reading of local rules. What the authority of the place says"
        " goes before them."
    )
    blocks.append(Notice(Signal.NOTICE, "Local rules decide", (Span(text),)))
    return Section("radio", "Radio", tuple(blocks), level=3)
