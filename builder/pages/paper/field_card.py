"""The field card: one page that is folded twice to A6 and goes along to the field.

A quarter each: the checks before a flight, what to do after it and when something goes wrong (both
outside when folded), the figures to fly by with the switches, and which propeller is where.
"""

from builder.compute.loops.plugging import all_unplugged
from builder.compute.power_up.emptied import battery_empty
from builder.model.kinds import Propeller, VideoTransmitter
from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    Column,
    Illustration,
    Inline,
    Paragraph,
    Row,
    Section,
    Span,
    Table,
    Tick,
    TwoStacks,
    WriteIn,
)
from builder.pages.drawings.rotation_view import outline_of, rotation_view
from builder.pages.numbers import cell, number
from builder.pages.paper.field_words import after_lines, before_lines, emergency_lines
from builder.pages.sheet_input import SheetInput
from builder.pages.work.lost_link import in_air
from builder.pages.work.meter_tests import shown_charge
from builder.rounding import rounded


def _ticked(stage: str, lines: list[str]) -> Bullets:
    return Bullets(
        tuple((Tick(f"field-{stage}-{i}"), Span(line)) for i, line in enumerate(lines, 1))
    )


def _plain(lines: list[str]) -> Bullets:
    return Bullets(tuple((Span(line),) for line in lines))


def _quarter(anchor: str, heading: str, *blocks: Block | Section) -> Section:
    return Section(f"field-{anchor}", heading, blocks, 3, role="quarter")


def _land(sheet: SheetInput) -> str:
    """When to land: at the first warning, or by eye where nothing warns."""
    alarms = {a.pack: a for a in sheet.build.source.setup.alarms}
    said = [alarms.get(pack) for pack in sheet.results.mass.all_up]
    unset = {
        "battery volts": any(a is None or a.volts is None for a in said),
        "used charge": any(a is None or a.used is None for a in said),
    }
    missing = ", ".join(what for what, lacks in unset.items() if lacks)
    land = "Land when the first of the three warns."
    if missing:
        land = f"Land at the first of the three. No alarm is set for: {missing}."
    if sheet.build.of_kind(VideoTransmitter) and not shown_charge(sheet):
        land += " No figure in the picture shows the used charge: fly by timer and volts."
    return land


def _batteries(sheet: SheetInput) -> list[Block]:
    """Weight, timer and alarms of each battery: those of the setup, else those of the figures."""
    mass, packs = sheet.results.mass, sheet.results.flight.packs
    alarms = {a.pack: a for a in sheet.build.source.setup.alarms}
    rows = []
    for pack, figure in mass.all_up.items():
        flight, alarm = packs.get(pack), alarms.get(pack)
        timer = cell(number(flight.reserve.timer)) if flight is not None else cell("")
        volts = cell(number(flight.reserve.volts)) if flight is not None else cell("not known")
        used = cell(number(flight.reserve.used)) if flight is not None else cell("not known")
        if alarm is not None and alarm.volts is not None:
            volts = cell(f"{rounded(alarm.volts.value, 1)} V")
        if alarm is not None and alarm.used is not None:
            used = cell(f"{rounded(alarm.used.value / 3.6, 0)} mAh")
        rows.append(Row((cell(pack), cell(number(figure)), timer, volts, used)))
    if not rows:
        return []
    heads = (
        Column("Battery"),
        Column("Flies at", align="right"),
        Column("Timer", align="right"),
        Column("Volts below", align="right"),
        Column("Used above", align="right"),
    )
    return [
        Table("", heads, tuple(rows), note=_land(sheet)),
        Paragraph((Span("Weight without battery: "), number(mass.dry))),
    ]


def _map(sheet: SheetInput) -> list[Block]:
    """Which way each propeller turns, drawn where the corners are known, and in words."""
    found = sheet.results.settings
    if not found.motors:
        return []
    outline, name = outline_of(sheet.build, found.motors), f"{sheet.build.name}-field"
    view = rotation_view(name, found.motors, found.props, outline) if outline is not None else None
    words = [f"{m.number} {m.corner}: {m.turns or 'turn not known'}" for m in found.motors]
    said = Paragraph((Span("; ".join(words) + ". Seen from above."),))
    drawn: list[Block] = [Illustration(view, "")] if view is not None else []
    return [*drawn, said]


def _switches(sheet: SheetInput) -> list[Block]:
    switches = sheet.build.source.setup.switches
    rows = tuple(
        Row((cell(s.name), cell(s.does or "not said"), cell(", ".join(s.positions))))
        for s in switches
    )
    heads = (Column("Switch"), Column("Does"), Column("Positions"))
    return [Table("", heads, rows)] if rows else []


def _arming(sheet: SheetInput) -> list[Block]:
    """That it refuses to arm when it must."""
    lines = [
        "Everybody well clear, nobody holds it: propellers may turn.",
        "Throttle a little up: it must refuse to arm.",
        "Throttle low, arm, switch to safe: the motors stop at once.",
    ]
    lines += [f"Arms only if: {a}." for a in sheet.build.source.setup.arming]
    return [_ticked("arm", lines)]


def field_card(sheet: SheetInput) -> Section:
    """The card, or a section without blocks for a build that does not fly."""
    build = sheet.build
    empty = battery_empty(build, sheet.results.gates)
    if not build.of_kind(Propeller):
        return Section("field-card", "Field card", ())
    number_: tuple[Inline, ...] = (WriteIn("field-emergency", "Emergency number here", ""),)
    quarters = (
        _quarter(
            "before",
            "Before each flight",
            _ticked("before", before_lines(build)),
            Section("field-arming", "Arming check", tuple(_arming(sheet)), 4),
        ),
        _quarter(
            "after",
            "After each flight",
            _ticked("after", all_unplugged(build, after_lines(empty))),
            Section(
                "field-emergency",
                "Emergency",
                (_plain(emergency_lines(build)), Paragraph(number_)),
                4,
            ),
        ),
        _quarter(
            "figures",
            "Weights, timer, alarms, switches",
            *_batteries(sheet),
            *_switches(sheet),
            *_notes(sheet),
        ),
        _quarter("map", "Propellers", *_map(sheet)),
    )
    upper, lower = TwoStacks(quarters[:1], quarters[1:2]), TwoStacks(quarters[2:3], quarters[3:])
    return Section("field-card", "Field card", (upper, lower), role="card")


def _notes(sheet: SheetInput) -> list[Block]:
    """Where it warns in the picture, and which limits the weight is near."""
    setup = sheet.build.source.setup
    lines = [f"{o.field}: {o.at or 'anywhere'}" for o in setup.overlay]
    out: list[Block] = []
    if lines:
        out.append(Paragraph((Span(f"In the picture: {'; '.join(lines)}."),)))
    if setup.fail_safe is not None:
        out.append(Paragraph((Span(f"On a lost link: {in_air(setup.fail_safe)}."),)))
    out.append(Paragraph((Span("Local rules and licensed practice come first."),)))
    rows = tuple(Row(tuple(Cell() for _ in range(4))) for _ in range(5))
    heads = (Column("Date"), Column("Battery"), Column("Minutes"), Column("Used, mAh"))
    return [*out, Table("Flights", heads, rows)]
