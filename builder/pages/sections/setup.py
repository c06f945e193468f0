"""Setup: what is set in software, derived from the wiring where it can be, in general words."""

from builder.compute.setup.settings import Port
from builder.model.source.setup_source import Alarm, SwitchUse
from builder.pages.blocks import (
    Block,
    Bullets,
    Column,
    Facts,
    Illustration,
    Row,
    Section,
    Side,
    Span,
    Table,
)
from builder.pages.drawings.rotation_view import outline_of, rotation_view
from builder.pages.numbers import cell
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sections.radio import LinkFacts, radio_section
from builder.pages.sections.setup_tests import setup_tests
from builder.pages.sheet_input import SheetInput
from builder.rounding import rounded


def _port(port: Port, sheet: SheetInput) -> Row:
    use = sheet.build.source.setup.serial[port.stated_at] if port.stated_at >= 0 else None
    more = []
    if use is not None:
        more = [
            w
            for w, on in (
                ("inverted", use.inverted),
                ("one wire", use.half_duplex),
                (use.rate, use.rate),
            )
            if on and w
        ]
    return table_row(
        f"{port.board}, port {port.port}",
        ", ".join(port.wired) or "nothing",
        port.stated or "not said",
        cell(port.speaks or "not said", note=", ".join(more)),
    )


def _board(sheet: SheetInput) -> list[Block]:
    setup, found = sheet.build.source.setup, sheet.results.settings
    yaw = "turn not known"
    if found.board_yaw is not None:
        yaw = f"turned {rounded(found.board_yaw, 0)}° clockwise, seen from above"
    facts = [
        ("Software", cell(setup.software or "not said")),
        ("Made for the board", cell(setup.software_for or "not said")),
        ("How the board sits", cell(f"{yaw}, top face {found.board_face}")),
    ]
    if setup.idle_throttle is not None:
        idle = f"{rounded(100 * setup.idle_throttle.value, 1)} % throttle"
        facts.append(("Motors at rest", cell(idle)))
    if setup.top_speed is not None:
        facts.append(("Flown no faster than", cell(f"{rounded(setup.top_speed.value, 1)} m/s")))
    if setup.current_sensitivity is not None:
        facts.append(
            (
                "Current sensor",
                cell(f"{rounded(1000 * setup.current_sensitivity.value, 1)} mV for each ampere"),
            )
        )
    if setup.poles is not None:
        facts.append(("Magnets of a motor", cell(str(setup.poles))))
    if setup.volts_divider:
        facts.append(("Divider of the volts", cell(setup.volts_divider)))
    out: list[Block] = [Facts(tuple(facts))]
    heads = table_columns("Serial port", "Wired to", "Serves", "Protocol")
    if found.ports:
        out.append(
            Table("Serial ports", heads, tuple(_port(p, sheet) for p in found.ports), stack=True)
        )
    return out


def _motors(sheet: SheetInput) -> list[Block]:
    found = sheet.results.settings
    rows = tuple(
        table_row(f"Motor {m.number}", m.corner, m.turns or "not known") for m in found.motors
    )
    if not rows:
        return []
    words = {
        "in": "Front blades move inward at the nose.",
        "out": "Front blades move outward at the nose.",
    }
    heads = (Column("Motor"), Column("Corner"), Column("Turns, seen from above"))
    table = Table("Motors", heads, rows, stack=True, note=words.get(found.props, ""))
    outline, name = outline_of(sheet.build, found.motors), sheet.build.name
    view = rotation_view(name, found.motors, found.props, outline) if outline is not None else None
    return [
        Side(Illustration(view, "Turns seen from above, nose up."), table)
        if view is not None
        else table
    ]


def _alarm(alarm: Alarm, sheet: SheetInput) -> Row:
    pack = next((p for p in sheet.results.power.packs if p.key == alarm.pack), None)
    volts, used = cell("not said"), cell("not said")
    if alarm.volts is not None:
        each = f"{rounded(alarm.volts.value / pack.series, 2)} V a cell" if pack is not None else ""
        volts = cell(f"{rounded(alarm.volts.value, 1)} V", note=each)
    if alarm.used is not None:
        holds = pack.capacity if pack is not None else None
        share = f"{rounded(100 * alarm.used.value / holds, 0)} % of what it holds" if holds else ""
        used = cell(f"{rounded(alarm.used.value / 3.6, 0)} mAh used", note=share)
    return Row((cell(alarm.pack), volts, used))


def _does(switch: SwitchUse) -> str:
    """What a switch is for: in the builder's words, else as its key has it."""
    return switch.does or ("arms the motors" if switch.arms else "not said")


def _plans(sheet: SheetInput) -> list[Block]:
    setup = sheet.build.source.setup
    out: list[Block] = []
    if setup.switches:
        rows = [table_row(s.name, _does(s), ", ".join(s.positions)) for s in setup.switches]
        out.append(
            Table(
                "Switches",
                table_columns("Switch", "Does", "Positions"),
                tuple(rows),
                stack=True,
            )
        )
    if setup.overlay:
        rows = [
            table_row(o.field, o.at or "anywhere", o.warns or "not said") for o in setup.overlay
        ]
        out.append(
            Table(
                "On-screen figures",
                table_columns("Field", "Where", "Warns"),
                tuple(rows),
            )
        )
    if setup.alarms:
        heads = table_columns("Battery", right_column("Warns below"), right_column("Warns above"))
        note = (
            "Volts of the whole battery under load, and charge taken out of it. Set them again for"
            " each battery."
        )
        out.append(
            Table(
                "Alarms by battery", heads, tuple(_alarm(a, sheet) for a in setup.alarms), note=note
            )
        )
    return out


def setup(sheet: SheetInput, links: LinkFacts = "all") -> Section:
    """Ports, board, motors, switches, picture, radio, and what to try."""
    blocks: list[Block | Section] = [*_board(sheet), *_motors(sheet), *_plans(sheet)]
    notes = sheet.build.source.setup.notes
    if notes:
        blocks.append(Bullets(tuple((Span(n),) for n in notes)))
    radio = radio_section(sheet, links)
    return Section(
        "setup", "Setup", (*blocks, *((radio,) if radio is not None else ()), setup_tests(sheet))
    )
