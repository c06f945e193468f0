"""Tables as HTML. Plain functions and one join a table: a page has thousands of cells.

The end tags of rows and cells are left out, as the HTML standard allows, and cells carry no class
for what their column says already: the style sheet aligns columns by their place, which the table's
own class names. Where a screen is too narrow for a table its rows are cards, and each cell says the
heading of its column, which it has as `data-l`.
"""

from builder.pages import blocks as b
from builder.render.html.escaped import attribute, bound, text
from builder.render.html.inline_html import INLINE, HtmlContext, inline_pieces
from builder.render.html.table_shape import card_step, column_letters, long_columns

_ALIGN = {"left": "", "right": "r", "centre": "c"}
_MOST_FLOWING = 1  # columns of numbers with which a table may go on over the end of a printed page


def _column(column: b.Column, paper: bool) -> str:
    align = attribute("class", _ALIGN[column.align]) if paper else ""
    if not column.heading:
        return f"<td{align}></td>"  # a heading cell that says nothing would be read out as one
    unit = f" <i>{text(column.unit)}</i>" if column.unit else ""
    scope = " scope=col" if paper else ""
    return f"<th{align}{scope}>{text(column.heading)}{unit}"


def _cell(cell: b.Cell, start: str, align: str, sortable: bool, w: HtmlContext) -> str:
    if align or cell.tone:
        start += attribute("class", f"{align} {cell.tone}".strip())
    if sortable and cell.sort is not None:
        start += attribute("data-sort", cell.sort)
    if cell.anchor and not w.paper:
        start += attribute("id", w.anchor(cell.anchor))
    found = cell.pieces
    body = INLINE[type(found[0])](found[0], w) if len(found) == 1 else inline_pieces(found, w)
    return f"{start}>{body}<small>{bound(cell.note)}</small>" if cell.note else f"{start}>{body}"


def _needs_label(cell: b.Cell) -> bool:
    """Whether a card says the heading: not of an empty cell, a box that has its own label, a wire."""
    return bool(cell.pieces) and not isinstance(cell.pieces[0], b.Tick | b.WriteIn | b.Swatch)


def _row(
    row: b.Row, aligns: tuple[str, ...], labels: tuple[str, ...], sortable: bool, w: HtmlContext
) -> str:
    data = "".join([attribute(f"data-{k}", v) for k, v in row.data.items()]) if row.data else ""
    cells = row.cells
    # Of the hundreds of headings on a page of numbers the style sheet knows by their one cell.
    known = w.kind == "numbers" and row.kind == "group" and len(cells) == 1
    kind = "" if known else attribute("class", row.kind)
    start = f"<tr{attribute('id', w.anchor(row.anchor))}{kind}{data}>"
    if row.kind == "group" and len(cells) == 1:
        # On screens a heading without data beside it heads the cells below it by itself.
        scope = " scope=rowgroup" if w.paper else ""
        return f"{start}<th{scope} colspan={len(aligns)}>{inline_pieces(cells[0].pieces, w)}"
    head = "<th scope=row" if w.paper else "<th"
    columns = zip(cells[1:], aligns[1:], labels[1:], strict=False)
    rest = []
    for cell, align, label in columns:
        own = label if _needs_label(cell) else ""
        rest.append(_cell(cell, f"<td{own}", align, sortable, w))
    return f"{start}{_cell(cells[0], head, aligns[0], sortable, w)}{''.join(rest)}"


def _labels(t: b.Table, cards: bool) -> tuple[str, ...]:
    """What the cells of each column carry so that a card can say its heading."""
    if not cards:
        return ("",) * len(t.columns)
    names = [c.label or (f"{c.heading}, {c.unit}" if c.unit else c.heading) for c in t.columns]
    pairs = zip(t.columns, names, strict=True)
    return tuple(["" if c.plain else attribute("data-l", name) for c, name in pairs])


def _classes(t: b.Table, long: list[int]) -> str:
    """`r3` for a table whose third column stands right, `c5` for one whose fifth is centred, `w2`
    for one whose second takes the whole width of a card.
    """
    found = [_ALIGN[c.align] + str(i) for i, c in enumerate(t.columns, 1) if c.align != "left"]
    return " ".join([*found, *[f"w{i}" for i in long]])


def _paper_table(t: b.Table, w: HtmlContext) -> str:
    aligns = tuple([_ALIGN[c.align] for c in t.columns])
    labels = ("",) * len(t.columns)
    body = "".join([_row(r, aligns, labels, False, w) for r in t.rows])
    head = "".join([_column(c, True) for c in t.columns])
    caption = f"<caption>{text(t.caption)}</caption>" if t.caption else ""
    flows = t.stack and sum(c.align == "right" for c in t.columns) <= _MOST_FLOWING
    name = "table flow" if flows else "table"
    return (
        f"<div{attribute('class', name)}{attribute('id', w.anchor(t.anchor))}>"
        f"<table>{caption}<thead><tr>{head}<tbody>{body}</table></div>"
    )


def _screen_table(t: b.Table, w: HtmlContext) -> str:
    letters = column_letters(t)
    step = card_step(letters)
    long = long_columns(letters) if step else []
    labels = _labels(t, step > 0)
    aligns = ("",) * len(t.columns)
    body = "".join([_row(r, aligns, labels, t.sortable, w) for r in t.rows])
    head = "".join([_column(c, False) for c in t.columns])
    caption = f"<caption>{text(t.caption)}</caption>" if t.caption else ""
    width = f" n{step}" if step else ""
    sorting = " sortable" if t.sortable else ""
    name = f"table{width}{sorting}"
    return (
        f"<div{attribute('class', name)}{attribute('id', w.anchor(t.anchor))}>"
        f"<table{attribute('class', _classes(t, long))}>{caption}"
        f"<thead><tr>{head}<tbody>{body}</table></div>"
    )


def table(t: b.Table, w: HtmlContext) -> str:
    """A table with its caption and note. On a screen that is too narrow for it its rows are cards,
    so that nothing stands beyond an edge.
    """
    note = f"<p class=note>{bound(t.note)}</p>" if t.note else ""
    made = _paper_table(t, w) if w.paper else _screen_table(t, w)
    return made + note
