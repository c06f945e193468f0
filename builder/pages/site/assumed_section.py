"""The values that are taken where nobody says another, by topic, with where each is from."""

from itertools import groupby

from builder.load.assumed import AssumedValue, assumed_values
from builder.load.usual.prints import UsualPrint, usual_prints
from builder.load.usual.usual_pads import UsualBand, UsualPad, usual_pads
from builder.pages.blocks import Cell, Paragraph, Row, Section, Span, Table
from builder.pages.rows import right_column, table_columns, table_row
from builder.rounding import significant, unit_for

_COLUMNS = table_columns("Name", right_column("Value"), "What", "From")
_OWN_WORDS = {"1/h": "per hour", "s": "s", "deg": "°"}  # else shown as on all pages


def assumed_section() -> Section:
    """One table a topic, in the order of the file."""
    words = (
        "Where a part or a build says its own value, that one counts. Where nobody does, these are"
        " taken. Checks use them too."
    )
    by_topic = groupby(assumed_values().values(), lambda value: value.topic)
    tables = [_table(topic, tuple(values)) for topic, values in by_topic]
    return Section("assumed", "Assumed values", (Paragraph((Span(words),)), *tables))


def _table(topic: str, values: tuple[AssumedValue, ...]) -> Table:
    anchor = f"assumed-{topic.replace(' ', '-')}"
    return Table(topic.capitalize(), _COLUMNS, tuple(map(_row, values)), anchor, stack=True)


def _row(value: AssumedValue) -> Row:
    what = value.what[:1].upper() + value.what[1:]
    return table_row(Cell((Span(value.name, code=True),)), shown_value(value), what, value.source)


def shown_value(value: AssumedValue) -> str:
    """The numbers with the digits that were written, in the unit that pages show."""
    unit, factor, _ = unit_for(max(value.values), value.unit)
    if value.unit in _OWN_WORDS:
        unit, factor = _OWN_WORDS[value.unit], 1.0
    numbers = ", ".join(significant(n * factor) for n in value.values)
    close = "" if unit in ("", "°") else " "
    return f"{numbers}{close}{unit}"


def prints_section() -> Section:
    """What the usual prints beside contacts mean, where a part does not say it."""
    status, prints = usual_prints()
    words = (
        "Where a part does not say what a contact is for, its print is read by this table."
        " That is an assumption: it is listed, and no check of a danger passes by it."
        " The first power-up measures the contact before anything hangs on it."
    )
    rows = tuple(_print_row(each, status) for each in prints)
    columns = table_columns("Print", "On", "Taken for", "From")
    table = Table("Usual prints", columns, rows, "usual-prints", stack=True)
    return Section("prints", "Prints beside contacts", (Paragraph((Span(words),)), table))


def _print_row(usual: UsualPrint, status: str) -> Row:
    meant = [usual.role, "battery" if usual.battery else "", usual.polarity]
    meant += ["rail of these volts" if usual.rail else ""]
    on = ", ".join(usual.kinds) or "any other part"
    said = ", ".join(word for word in meant if word)
    return table_row(Cell((Span(usual.print, code=True),)), on, said, status)


def pads_section() -> Section:
    """How large soldered contacts are, by kind of part, where a part does not say it."""
    words = (
        "Where a part does not say size, pitch or copper of a soldered contact, these are taken."
        " They are assumptions: they are listed, and no check of a danger passes by them."
        " No place for a probe is chosen by them."
    )
    columns = table_columns("Contact", "Size", "Pitch", "Copper", "From")
    rows = tuple(map(_pad_row, usual_pads()))
    table = Table("Usual contacts", columns, rows, "usual-contacts", stack=True)
    return Section("contacts", "Contacts by kind of part", (Paragraph((Span(words),)), table))


def _pad_row(usual: UsualPad) -> Row:
    what = usual.what[:1].upper() + usual.what[1:]
    size = f"{_band(usual.length)} x {_band(usual.width)}"
    alike = usual.copper == usual.ground
    copper = usual.copper if alike else f"{usual.copper}, for ground {usual.ground}"
    return table_row(what, size, _band(usual.pitch), copper, usual.source)


def _band(band: UsualBand) -> str:
    """`1.8 mm (1 mm to 2.5 mm)`."""
    least, usual, most = (significant(1000 * m) for m in (band.least, band.usual, band.most))
    return f"{usual} mm ({least} mm to {most} mm)"
