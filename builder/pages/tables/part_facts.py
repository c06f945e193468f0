"""What a part of the shelf says as one of its kind: every public field, in the unit that was written."""

from builder.model.kinds import Motor
from builder.model.kinds.drive import BenchTable
from builder.model.source.describe import field_words
from builder.model.source.part import Part
from builder.model.values.quantities import Quantity
from builder.pages.blocks import Block, Column, Fold, Illustration, Table
from builder.pages.drawing import Circle, Drawing, Item, Line
from builder.pages.plots.plot import Axis, Plot
from builder.pages.rows import table_columns, table_row
from builder.pages.tables.value_words import in_written_unit, key_in_words, value_words
from builder.rounding import counted, significant
from builder.rules.public_fields import is_public

_ELSEWHERE = ("bench",)  # shown as curves


def said_fields(part: Part) -> tuple[str, ...]:
    """The fields of the part's own kind that it says and that may be given away, as they are ordered."""
    kind = type(part)
    own = (n for n in kind.model_fields if n not in Part.model_fields and n not in _ELSEWHERE)
    said = (n for n in own if n in part.model_fields_set and getattr(part, n) is not None)
    return tuple(n for n in said if is_public(kind, n))


def kind_facts(part: Part) -> Table | None:
    """The table of them; None for a part that says none."""
    words = field_words(type(part))
    rows = []
    for name in said_fields(part):
        said = value_words(getattr(part, name))
        key = key_in_words(name)
        if said:
            rows.append(table_row(f"{key[0].upper()}{key[1:]}", said, words.get(name, "")))
    columns = table_columns("Fact", "Value", "What it is")
    return Table("As one of its kind", columns, tuple(rows), stack=True) if rows else None


def _in_its_unit(value: Quantity) -> float:
    return in_written_unit(value.value, value.unit, value.dimension)


def _curve(shelf: str, number: int, test: BenchTable) -> Drawing | None:
    """Thrust over current, in the units of the first reading; None with fewer than two readings."""
    first = test.rows[0] if test.rows else None
    alike = [r for r in test.rows if first is not None and r.thrust.unit == first.thrust.unit]
    points = sorted((_in_its_unit(r.current), _in_its_unit(r.thrust)) for r in alike)
    if first is None or len(points) < 2:
        return None
    amperes, thrust = points[-1][0], max(y for _, y in points)
    across = Axis(f"Current of one motor, {first.current.unit}", 0.0, amperes)
    plot = Plot(across, Axis(f"Thrust of one motor, {first.thrust.unit}", 0.0, 1.08 * thrust))
    items: list[Item] = plot.axes()
    line = tuple((plot.x(x), plot.y(y)) for x, y in points)
    items.append(Line(line, tone="accent", width=0.6))
    items += [Circle(x, y, 0.6, tone="accent") for x, y in line]
    most = (
        f"{significant(thrust)} {first.thrust.unit} at {significant(amperes)} {first.current.unit}"
    )
    alt = f"Thrust over current of one motor with {test.propeller}, up to {most}."
    return Drawing(f"bench-{shelf}-{number}", *plot.size, tuple(items), alt)


def bench_blocks(shelf: str, part: Part) -> tuple[Block, ...]:
    """The bench tests of a motor, each as a curve and a table below it."""
    out: list[Block] = []
    for number, test in enumerate(part.bench if isinstance(part, Motor) else (), 1):
        drawing = _curve(shelf, number, test)
        words = f"With {test.propeller} at {value_words(test.volts)}."
        if test.source:
            words += f" Tested by: {test.source}."
        if drawing is not None:
            out.append(Illustration(drawing, words, plot=True))
        rows = [
            table_row(*(value_words(v) for v in (r.throttle, r.current, r.thrust, r.rpm)))
            for r in test.rows
        ]
        columns = table_columns(
            *(Column(head, align="right") for head in ("Throttle", "Current", "Thrust", "Speed"))
        )
        out.append(Fold(counted(len(rows), "reading"), (Table(words, columns, tuple(rows)),)))
    return tuple(out)
