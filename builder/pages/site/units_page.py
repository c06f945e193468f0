"""The page about units: what is shown in the reader's own, what stays, and with how many digits."""

from builder.pages.blocks import Bullets, Number, Page, Paragraph, Row, Section, Span, Table
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.units.converted import OTHER_UNITS, converted, converted_spread, places_of

ADDRESS = "units/index.html"
_EXAMPLES = (  # invented
    ("Weight", "228.7", "g", "0.3", "1 oz (avoirdupois) = 28.349523125 g"),
    ("Length", "65", "mm", "", "1 in = 25.4 mm"),
    ("Distance", "72.8", "m", "", "1 ft = 0.3048 m"),
    ("Temperature", "350", "°C", "", "°F = 1.8 × °C + 32"),
)
_CONVERTS = (
    "Weights, dimensions, distances and temperatures that are figures, in tables and in sentences.",
    "What you cut: lengths of wires and leads, bare ends, the list of wires.",
    "What you set: the temperature of the iron.",
)
_STAYS = (
    "A limit of the law stays in the unit of the law. Yours is beside it, cut after its last digit.",
    "Trade sizes are names: screws, wire gauges, propellers, the size and hole pattern of a part. So"
    " is a name that has a size in it.",
    "Gaps between pads and the lengths of screws stay in millimetres: they are compared, not cut.",
    "Sentences and drawings stay as they are. Drawings are to scale in millimetres.",
    "Boxes to write in ask for metric, and so does the page at the bench: it compares what you type.",
    "The pages of numbers and checks, files (CSV, JSON, source) and addresses stay metric.",
)


def _row(what: str, value: str, unit: str, spread: str, exactly: str) -> Row:
    other = OTHER_UNITS[unit]
    about = f" ± {spread}" if spread else ""
    wide = converted_spread(spread, other, places_of(value, other)) if spread else ""
    metric = f"{value}{about} {unit}"
    beside = f"{converted(value, other)}{f' ± {wide}' if wide else ''} {other.unit}"
    now = Number(value, unit, about.strip())
    return table_row(what, now, metric, beside, exactly)


def _list(items: tuple[str, ...]) -> Bullets:
    return Bullets(tuple((Span(item),) for item in items))


def units_page() -> Page:
    """The page; its script opens the choice from 'Units' at the head of each page."""
    choose = Paragraph(
        (
            Span("Choose 'Units' at the head of a page: grams or ounces, metric or inches, °C or "),
            Span("°F. This device keeps your choice. It needs scripts; without them pages are "),
            Span("metric."),
        ),
        lead=True,
    )
    columns = table_columns(
        "What",
        right_column("As you read it now"),
        right_column("Metric"),
        right_column("The other"),
        "Exactly",
    )
    rows = tuple(_row(*example) for example in _EXAMPLES)
    note = (
        "Factors are those of NIST SP 811 (2008), appendix B. Each figure is converted from what is"
        " shown in metric, so a sum can differ from its rows in the last digit."
    )
    digits = Paragraph(
        (
            Span("The last digit stays about as fine as it was. A tenth of a gram becomes a "),
            Span("hundredth of an ounce, a millimetre a hundredth of an inch. Degrees keep their "),
            Span("digits. A spread that would be 0 so has one digit more."),
        )
    )
    table = Table("Examples", columns, rows, "examples", stack=True, note=note)
    sections = (
        Section("choose", "Your units", (choose, table, digits)),
        Section("converts", "What converts", (_list(_CONVERTS),)),
        Section("stays", "What stays", (_list(_STAYS),)),
    )
    words = "Grams or ounces, metric or inches, °C or °F: what converts, what stays, and why."
    return Page(ADDRESS, "units", "Units", words, sections)
