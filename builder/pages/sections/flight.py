"""Flight: hover two ways, punch with sag, time in the air as a band, and what the log taught."""

from builder.compute.figure import Figure, Known
from builder.compute.flight import BAND, PackFlight
from builder.compute.hover import ducts
from builder.compute.log import LoggedFlight
from builder.pages.bands import band
from builder.pages.blocks import Block, Cell, Column, Facts, Illustration, Paragraph, Row, Section, Span, Table
from builder.pages.curves import bench_curve
from builder.pages.numbers import cell, number, percent, rounded
from builder.pages.sheet_input import SheetInput


def _throttle(figure: Known) -> Cell:
    if not isinstance(figure, Figure):
        return Cell((number(figure),))
    low, high = figure.band(BAND)
    return Cell((percent(figure), Span(f" ({rounded(100 * low, 0)} to {rounded(100 * high, 0)})")))


def _rows(packs: tuple[PackFlight, ...]) -> tuple[Row, ...]:
    lines: list[tuple[str, tuple[Cell, ...]]] = [
        ("All-up weight", tuple(Cell((number(p.mass),)) for p in packs)),
        ("Hover power by momentum theory", tuple(band(p.hover.theory_power) for p in packs)),
        ("Hover power by the bench table", tuple(band(p.hover.bench_power) for p in packs)),
        ("Hover power with the standing load", tuple(band(p.hover_power) for p in packs)),
        ("Hover current", tuple(band(p.hover_current) for p in packs)),
        ("Hover throttle", tuple(_throttle(p.throttle) for p in packs)),
        ("Thrust over weight", tuple(band(p.thrust_to_weight) for p in packs)),
        ("Disc loading", tuple(Cell((number(p.disc_loading),)) for p in packs)),
        ("Time at hover", tuple(band(p.endurance_hover) for p in packs)),
        ("Time in the builder's style", tuple(band(p.endurance_styled) for p in packs)),
        ("Mean current in that style", tuple(band(p.styled_current) for p in packs)),
        ("Current at full throttle, full pack", tuple(band(p.peak_current) for p in packs)),
        ("Volts then", tuple(Cell((number(p.sag),)) for p in packs)),
    ]
    return tuple(Row((cell(name), *cells)) for name, cells in lines)


def _log_row(flight: LoggedFlight, sheet: SheetInput) -> Row:
    entry = sheet.build.source.flights[flight.index]
    air = f"{rounded(entry.air.value, 0)} °C" if entry.air is not None else "not noted"
    return Row(
        (
            cell(entry.date.isoformat()),
            cell(flight.pack),
            Cell((Span(f"{rounded(flight.minutes, 1)} min"),)),
            cell(air),
            Cell((number(flight.factor),), tone="bad" if flight.outlier else ""),
            cell(flight.left_out or "yes"),
        )
    )


def _log(sheet: SheetInput) -> list[Block]:
    style = sheet.results.flight.style
    out: list[Block] = [Facts((("Style factor", band(style.factor)), ("Taken from", cell(style.note))))]
    if style.flights:
        heads = (
            Column("Flight"),
            Column("Pack"),
            Column("In the air", align="right"),
            Column("Air"),
            Column("Mean power over hover power", align="right"),
            Column("Counted"),
        )
        out.append(Table("What the log says", heads, tuple(_log_row(f, sheet) for f in style.flights), stack=True))
    return out


def flight(sheet: SheetInput) -> Section:
    """Will it fly, how long, and how sure are we."""
    found = sheet.results.flight
    packs = tuple(found.packs.values())
    if not packs:
        return Section("flight", "Flight", ())
    heads = (Column("Figure"), *(Column(f"Pack {p.pack}", align="right") for p in packs))
    note = (
        f"In brackets the band that is meant to hold {rounded(100 * BAND, 0)} % of cases. "
        "Hover power is the bench table's where that reaches, else momentum theory's."
    )
    blocks: list[Block] = [
        Facts(
            (
                ("Density of the air", Cell((number(found.air.density),))),
                ("Temperature", Cell((number(found.air.temperature, decimals=0),))),
                ("Standing load of boards, receiver and video", Cell((number(sheet.results.power.standing),))),
            )
        ),
        Table("Flight on each pack", heads, _rows(packs), stack=True, note=note),
    ]
    if ducts(sheet.build):
        text = "Its rotors turn in ducts; the theory here leaves out what a duct gives: read it as the worse case."
        blocks.append(Paragraph((Span(text),)))
    for what in ("thrust", "current"):
        drawn = bench_curve(sheet.build.name, found, what)
        if drawn is not None:
            blocks.append(Illustration(drawn, f"{what.capitalize()} over throttle, by the bench table"))
    blocks += _log(sheet)
    text = "These are estimates for planning. Land by the volts of the pack and the timer, not by this table."
    blocks.append(Paragraph((Span(text),), quiet=True))
    return Section("flight", "Flight", tuple(blocks))
