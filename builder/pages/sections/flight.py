"""Flight: hover two ways, full throttle with sag, time in the air as a band, the curves, and what
the log taught.
"""

from collections.abc import Mapping
from typing import Literal

from builder.compute.circuit.landing_choice import RESERVE, chosen_landing, loaded_volts
from builder.compute.circuit.peak_limits import PeakLimit
from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.flight.drive import ducts
from builder.compute.flight.flight import BAND, PackFlight
from builder.compute.flight.landing import HELD
from builder.compute.flight.log import LoggedFlight
from builder.compute.power_up.emptied import battery_empty
from builder.diagnostics.finding import Signal
from builder.model.build import Build
from builder.pages.blocks import (
    Block,
    Cell,
    Column,
    Facts,
    Illustration,
    Notice,
    Paragraph,
    Row,
    Section,
    Span,
    Table,
)
from builder.pages.numbers import cell, number, percent
from builder.pages.plots.air_time import air_time
from builder.pages.plots.bands import band
from builder.pages.plots.curves import bench_curve
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.pack_sizes_table import size_blocks
from builder.rounding import rounded


def _throttle(figure: MaybeFigure) -> Cell:
    if not isinstance(figure, Figure):
        return Cell((number(figure),))
    low, high = figure.band(BAND)
    return Cell((percent(figure), Span(f" ({rounded(100 * low, 0)} to {rounded(100 * high, 0)})")))


def _tip(pack: PackFlight) -> Cell:
    return cell(number(pack.speeds.tip_full), ", Mach ", number(pack.speeds.mach_full))


def _landing(build: Build, pack: PackFlight) -> Cell:
    """The volts at which the flight ends: of a cell, and of the whole battery as a display shows
    it; a share that they follow from stands below.
    """
    fitted = build.packs[pack.pack]
    chosen = chosen_landing(build, fitted)
    volts = loaded_volts(chosen, fitted.part.chemistry or "lithium-polymer")
    left = RESERVE if chosen.share is None else chosen.share
    by_share = f"by {rounded(100 * left, 0)} % of the charge left" if chosen.volts is None else ""
    whole = (
        f", {rounded(volts * fitted.cells.low, 1)} V of the battery"
        if fitted.cells is not None
        else ""
    )
    return cell(f"{rounded(volts, 2)} V a cell{whole}", note=by_share)


def _timer(pack: PackFlight) -> Cell:
    """The headline, and how much is left when it sounds."""
    return cell(number(pack.reserve.timer), "; ", percent(pack.reserve.left_at_timer), " left then")


def _on_volts(pack: PackFlight) -> Cell:
    """Volts of the battery with the current that they are for."""
    of = pack.reserve
    held = f", held {rounded(HELD, 0)} s; "
    return cell(number(of.volts), " at ", number(of.current), held, percent(of.share), " left then")


def _on_charge(pack: PackFlight) -> Cell:
    return cell(number(pack.reserve.used), "; ", percent(pack.reserve.share), " left then")


def _rows(build: Build, packs: tuple[PackFlight, ...]) -> tuple[Row, ...]:
    plain = [
        ("Flying weight (all-up)", [p.mass for p in packs]),
        ("Disc loading", [p.disc_loading for p in packs]),
        ("Volts at full throttle", [p.sag for p in packs]),
        ("Motor speed without load, full battery", [p.speeds.no_load for p in packs]),
        ("Motor speed at hover", [p.speeds.hover for p in packs]),
        ("Motor speed at full throttle", [p.speeds.full for p in packs]),
    ]
    shown = {name: tuple(Cell((number(f),)) for f in figures) for name, figures in plain}
    banded = [
        ("Hover power by momentum theory", [p.hover.theory_power for p in packs]),
        ("Hover power by the bench table", [p.hover.bench_power for p in packs]),
        (
            "Hover current of one motor, on the bench's volts",
            [p.hover.bench_current for p in packs],
        ),
        ("Hover power with the standing load", [p.hover_power for p in packs]),
        ("Hover current", [p.hover_current for p in packs]),
        ("Thrust over weight", [p.thrust_to_weight for p in packs]),
        ("Usable energy", [p.usable for p in packs]),
        ("Time at hover", [p.endurance_hover for p in packs]),
        ("Time as the builder flies", [p.endurance_styled for p in packs]),
        ("Time down to the reserve", [p.reserve.time for p in packs]),
        ("Mean current as the builder flies", [p.styled_current for p in packs]),
        ("Current at full throttle, full battery", [p.peak_current for p in packs]),
    ]
    shown |= {name: tuple(band(f) for f in figures) for name, figures in banded}
    shown["Timer"] = tuple(_timer(p) for p in packs)
    shown["Alarm on volts"] = tuple(_on_volts(p) for p in packs)
    shown["Alarm on charge used"] = tuple(_on_charge(p) for p in packs)
    shown["Landing volts, under load"] = tuple(_landing(build, p) for p in packs)
    shown["Hover throttle"] = tuple(_throttle(p.throttle) for p in packs)
    shown["Tip speed at hover"] = tuple(cell(number(p.speeds.tip_hover)) for p in packs)
    shown["Tip speed at full throttle"] = tuple(_tip(p) for p in packs)
    groups = {
        "Hover": (
            "Flying weight (all-up)",
            "Disc loading",
            "Hover power by momentum theory",
            "Hover power by the bench table",
            "Hover current of one motor, on the bench's volts",
            "Hover power with the standing load",
            "Hover current",
            "Hover throttle",
        ),
        "Time": (
            "Timer",
            "Alarm on volts",
            "Alarm on charge used",
            "Time down to the reserve",
            "Usable energy",
            "Time at hover",
            "Time as the builder flies",
            "Mean current as the builder flies",
            "Landing volts, under load",
        ),
        "Full throttle": (
            "Thrust over weight",
            "Current at full throttle, full battery",
            "Volts at full throttle",
        ),
        "Speeds": (
            "Motor speed without load, full battery",
            "Motor speed at hover",
            "Motor speed at full throttle",
            "Tip speed at hover",
            "Tip speed at full throttle",
        ),
    }
    out = []
    for group, names in groups.items():
        out.append(Row((cell(group),), kind="group"))
        out += [table_row(name, *shown[name]) for name in names]
    return tuple(out)


_OF_LIMIT: Mapping[bool | None, tuple[str, Literal["good", "bad", "quiet"]]] = {
    True: ("over", "bad"),
    False: ("within", "good"),
    None: ("not checked", "quiet"),
}


_CLOSE: tuple[str, Literal["quiet"]] = ("too close to call", "quiet")


def _limit_row(row: PeakLimit) -> Row:
    words, tone = _CLOSE if row.close else _OF_LIMIT[row.over]
    what = f"{row.what}, one motor" if row.each else row.what
    long = f"for {rounded(row.seconds, 0)} s" if row.seconds is not None else ""
    if row.lasting is not None:
        long = (
            f"for a short time, how long is not said; {rounded(row.lasting, 0)} A without a break"
        )
    return table_row(
        cell(what, note=f"on battery {row.pack}"),
        number(row.current),
        cell(number(row.limit), note=long),
        Cell((Span(words),), tone=tone),
    )


def _full_throttle(sheet: SheetInput) -> list[Block]:
    rows = tuple(_limit_row(r) for r in sheet.results.flight.limits)
    if not rows:
        return []
    heads = table_columns("Part", right_column("Full throttle"), right_column("Rated"), "Verdict")
    note = (
        "Ratings are optimistic. After the first climbs land, disarm and unplug the battery. Wait"
        f" until {battery_empty(sheet.build, sheet.results.gates)}. Then feel the battery, its plug and the motors."
    )
    table = Table(
        "Full throttle against what carries it",
        heads,
        rows,
        anchor="full-throttle",
        stack=True,
        note=note,
    )
    over = list(dict.fromkeys(r.what for r in sheet.results.flight.limits if r.over))
    if not over:
        return [table]
    title = f"Full throttle takes more than this is rated for: {', '.join(over)}."
    text = (
        "A part above its rating overheats, and a battery can burn. Limit the throttle in the"
        " settings before you fly."
    )
    return [table, Notice(Signal.WARNING, title, (Span(text),), "full-throttle-over")]


def _log_row(flight: LoggedFlight, sheet: SheetInput) -> Row:
    entry = sheet.build.source.flights[flight.index]
    air = f"{rounded(entry.air.value, 0)} °C" if entry.air is not None else "not noted"
    how = {"charge": "charge", "volts": "volts at landing", "alarm": "alarm", "": "not noted"}[
        flight.counted
    ]
    factor = Cell((number(flight.factor),), tone="bad" if flight.outlier else "")
    counts = f"no: {flight.left_out}" if flight.left_out else "yes"
    minutes = f"{rounded(flight.minutes, 1)} min"
    before = (entry.date.isoformat(), flight.pack, minutes, air, how)
    return table_row(*map(cell, before), percent(flight.left), factor, counts)


def _log(sheet: SheetInput) -> list[Block]:
    style = sheet.results.flight.style
    facts = [
        ("Average power over hover power", band(style.factor)),
        ("Next flight", band(style.following)),
        ("Known", cell(style.note)),
    ]
    if style.left is not None:
        low, high = (
            (rounded(100 * v, 0) for v in style.left.band(BAND))
            if isinstance(style.left, Figure)
            else ("", "")
        )
        few = isinstance(style.left, Figure) and style.left.value < RESERVE
        advice = (
            "under the usual 20 %: the times above empty the battery too far. Land sooner"
            if few
            else ""
        )
        facts.append(
            (
                "Lands with",
                cell(percent(style.left), f" of the charge left ({low} to {high})", note=advice),
            )
        )
    out: list[Block] = [Facts(tuple(facts))]
    if style.flights:
        heads = table_columns(
            "Flight",
            "Battery",
            right_column("In the air"),
            "Air",
            "Charge by",
            right_column("Charge left"),
            right_column("Mean power over hover power"),
            "Counted",
        )
        note = (
            "Each flight is compared with hover in its own air, with its own battery temperature. Volts"
            " at landing give the charge to about 7 % of the capacity, so such a flight says less."
        )
        rows = tuple(_log_row(f, sheet) for f in style.flights)
        out.append(
            Table("What the log says", heads, rows, anchor="flight-log", stack=True, note=note)
        )
    return out


_RULES = (
    "Cold air makes the flight shorter: a cold battery holds less and sags more. In flight it cools"
    " half-way from its temperature at take-off to the air. Thicker air carries a little better."
    " These are estimates for planning. Set the timer and the alarms as printed here. The timer"
    " sounds first in nine flights of ten. Land when one of them sounds."
)


def _curves(sheet: SheetInput) -> list[Block]:
    out: list[Block] = []
    for what in ("thrust", "current"):
        drawn = bench_curve(sheet.build.name, sheet.results.flight, what)
        if drawn is not None:
            caption = (
                f"{what.capitalize()} of one motor by its bench table; circles mark the hover."
            )
            out.append(Illustration(drawn, caption, plot=True))
    return out


def flight_section(sheet: SheetInput) -> Section:
    """Will it fly, how long, and how sure are we."""
    found = sheet.results.flight
    packs = tuple(found.packs.values())
    if not packs:
        return Section("flight", "Flight", ())
    mass = sheet.results.mass
    heads = (
        Column("Figure"),
        *(Column(mass.flown_with(p.pack).capitalize(), align="right") for p in packs),
    )
    note = (
        f"In brackets: {rounded(10 * BAND, 0)} of 10 lie between. Hover power is from the bench table"
        " where that reaches, else from momentum theory."
    )
    facts = (
        ("Density of the air", Cell((number(found.air.density),))),
        ("Temperature", Cell((number(found.air.temperature, decimals=0),))),
        (
            "Standing load of boards, receiver and video",
            Cell((number(sheet.results.power.standing),)),
        ),
    )
    blocks: list[Block | Section] = [
        Facts(facts),
        Table(
            "Flight on each battery",
            heads,
            _rows(sheet.build, packs),
            anchor="flight-figures",
            stack=True,
            note=note,
        ),
    ]
    if ducts(sheet.build):
        text = (
            "Its rotors turn in ducts. The theory here leaves out what a duct gives, so it is the worse"
            " case."
        )
        blocks.append(Paragraph((Span(text),)))
    drawn = air_time(sheet.build.name, found)
    if drawn is not None:
        caption = (
            "Time in the air with each battery; 8 of 10 flights lie on the line. Dots are the"
            " flights of the log, open ones do not count."
        )
        blocks.append(Illustration(drawn, caption, "flight-times", plot=True))
    blocks += [*_full_throttle(sheet), *_curves(sheet), *size_blocks(sheet)]
    blocks.append(Section("flight-style", "How it is flown", tuple(_log(sheet)), level=3))
    blocks.append(Paragraph((Span(_RULES),), quiet=True))
    return Section("flight", "Flight", tuple(blocks))
