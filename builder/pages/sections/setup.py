"""Setup: what is set in software, derived from the wiring where it can be, in general words."""

from builder.compute.radio import Link
from builder.compute.settings import Port
from builder.diagnostics.finding import Signal
from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    Column,
    Facts,
    Illustration,
    Inline,
    Notice,
    Row,
    Section,
    Side,
    Span,
    Table,
    Tick,
)
from builder.pages.numbers import cell, number, rounded
from builder.pages.rotation_view import rotation_view
from builder.pages.sheet_input import SheetInput


def _port(port: Port) -> Row:
    return Row(
        (
            cell(f"{port.board}, port {port.port}"),
            cell(", ".join(port.wired) or "nothing"),
            cell(port.stated or "not said"),
            cell(port.speaks or "not said"),
        )
    )


def _board(sheet: SheetInput) -> list[Block]:
    setup, found = sheet.build.source.setup, sheet.results.settings
    yaw = "turn not said"
    if found.board_yaw is not None:
        yaw = f"turned {rounded(found.board_yaw, 0)}° clockwise, seen from above"
    facts = [
        ("Software", cell(setup.software or "not said")),
        ("Made for the board", cell(setup.board_target or "not said")),
        ("How the board sits", cell(f"{yaw}, top face {found.board_face}")),
    ]
    if setup.idle_throttle:
        facts.append(("Motors at rest", cell(setup.idle_throttle)))
    out: list[Block] = [Facts(tuple(facts))]
    heads = (Column("Serial port"), Column("Wired to"), Column("Serves"), Column("Speech"))
    if found.ports:
        out.append(Table("Serial ports", heads, tuple(_port(p) for p in found.ports), stack=True))
    return out


def _motors(sheet: SheetInput) -> list[Block]:
    found = sheet.results.settings
    rows = tuple(Row((cell(f"Motor {m.number}"), cell(m.corner), cell(m.turns or "not said"))) for m in found.motors)
    if not rows:
        return []
    words = {"in": "Front blades move inward at the nose.", "out": "Front blades move outward at the nose."}
    heads = (Column("Motor"), Column("Corner"), Column("Turns, seen from above"))
    table = Table("Motors", heads, rows, stack=True, note=words.get(found.props, ""))
    view = rotation_view(sheet.build.name, found.motors, found.props)
    return [Side(Illustration(view, "Motors from above"), table) if view is not None else table]


def _plans(sheet: SheetInput) -> list[Block]:
    setup = sheet.build.source.setup
    out: list[Block] = []
    if setup.switches:
        rows = [Row((cell(s.name), cell(s.does or "not said"), cell(", ".join(s.positions)))) for s in setup.switches]
        out.append(Table("Switches", (Column("Switch"), Column("Does"), Column("Positions")), tuple(rows), stack=True))
    if setup.overlay:
        rows = [Row((cell(o.field), cell(o.at or "anywhere"), cell(o.warns or "never"))) for o in setup.overlay]
        out.append(Table("Shown in the picture", (Column("Field"), Column("Where"), Column("Warns")), tuple(rows)))
    return out


def _link(link: Link) -> Facts:
    allowed = "outside every range of site.yaml"
    if link.allowed is not None:
        limit = link.allowed.eirp
        upto = f", up to {rounded(1000 * limit.value, 0)} mW e.i.r.p." if limit is not None else ""
        low, high = link.allowed.from_.value / 1e6, link.allowed.to.value / 1e6
        allowed = f"{low:g} to {high:g} MHz{upto}"
    ends = f"{link.sent or 'unknown'} to {link.received or 'unknown'}"
    facts = [
        ("Frequency", Cell((number(link.frequency),))),
        ("Radiated power", Cell((number(link.radiated, decimals=3),))),
        ("Allowed", cell(allowed, note=(link.allowed.source or "") if link.allowed is not None else "")),
        ("Path in free space", Cell((number(link.path_loss), Span(" over "), number(link.distance, decimals=0)))),
    ]
    facts.append(("Polarisation", Cell((Span(f"{ends}, loss "), number(link.polarisation)))))
    facts.append(("Margin", Cell((number(link.margin, spread=True),))))
    return Facts(tuple(facts))


def _radio(sheet: SheetInput) -> Section | None:
    links = [k for k in (sheet.results.settings.radio.video, sheet.results.settings.radio.control) if k is not None]
    if not links:
        return None
    blocks: list[Block | Section] = [
        Section(f"radio-{k.serves}", f"{k.serves.capitalize()} link", (_link(k),), level=3) for k in links
    ]
    band = sheet.build.source.setup.channel.band if sheet.build.source.setup.channel is not None else ""
    table = sheet.build.site.bands.get(band, {})
    if table:
        heads = (Column("Channel"), Column("Middle", unit="MHz", align="right"))
        rows = tuple(Row((cell(f"{band} {n}"), cell(f"{f.value / 1e6:g}"))) for n, f in table.items())
        blocks.append(Table(f"Channels of band {band}", heads, rows))
    text = "The ranges are the builder's reading of local rules. What the authority of the place says goes before them."
    blocks.append(Notice(Signal.NOTICE, "Local rules decide", (Span(text),)))
    return Section("radio", "Radio", tuple(blocks), level=3)


def _tests(sheet: SheetInput) -> Section:
    setup = sheet.build.source.setup
    within = setup.fail_safe.within if setup.fail_safe is not None else None
    limit = f"within {rounded(within.value, 1)} s" if within is not None else "within the set time"
    lines = [
        "Settings saved to a file before the first change, and again when all is done.",
        "Tilt the nose down, then the right side down: the drawn aircraft does the same. Turn it: the heading follows.",
        "Volts shown against a meter at the pack's plug; current shown against a meter at a steady load.",
        "Each motor turned alone, propellers off: right number, right corner, right way (a strip of paper).",
        f"Fail-safe: propellers off, motors idling, transmitter switched off: the motors stop {limit}.",
        "Arming with the throttle up: refused. Arm switch already on at start-up: refused. Held tilted: refused.",
        *(f"Arming needs: {a}." for a in setup.arming),
    ]
    items: list[tuple[Inline, ...]] = [(Tick(f"setup-{i}"), Span(line)) for i, line in enumerate(lines, 1)]
    caution = "All of these are done with the propellers off. A motor that starts by itself cuts."
    blocks: list[Block | Section] = [Notice(Signal.DANGER, "Propellers off", (Span(caution),)), Bullets(tuple(items))]
    if setup.fail_safe is not None:
        done = setup.fail_safe.tested or "not yet"
        blocks.append(Facts((("On a lost link", cell(setup.fail_safe.does)), ("Tested", cell(done)))))
    return Section("setup-tests", "To try before the first flight", tuple(blocks), level=3)


def setup(sheet: SheetInput) -> Section:
    """Ports, board, motors, switches, picture, radio, and what to try."""
    blocks: list[Block | Section] = [*_board(sheet), *_motors(sheet), *_plans(sheet)]
    notes = sheet.build.source.setup.notes
    if notes:
        blocks.append(Bullets(tuple((Span(n),) for n in notes)))
    radio = _radio(sheet)
    return Section("setup", "Setup", (*blocks, *((radio,) if radio is not None else ()), _tests(sheet)))
