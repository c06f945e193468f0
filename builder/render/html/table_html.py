"""Tables as HTML. Plain functions and one join a table: a page has thousands of cells.

The end tags of rows and cells are left out, as the HTML standard allows, and cells carry no class
for what their column says already: the style sheet aligns columns by their place, which the table's
own class names.
"""

from builder.pages import blocks as b
from builder.render.html.escaped import attribute, quoted, text
from builder.render.html.inline_html import INLINE, HtmlContext, inline_pieces

_MOST_FLOWING = (
    1  # columns of numbers with which the rows of a table may run on as text on a narrow screen
)
_ALIGN = {"left": "", "right": "r", "centre": "c"}


def _column(column: b.Column, paper: bool) -> str:
    align = attribute("class", _ALIGN[column.align]) if paper else ""
    if not column.heading:
        return f"<td{align}></td>"  # a heading cell that says nothing would be read out as one
    unit = f" <i>{text(column.unit)}</i>" if column.unit else ""
    return f"<th{align}>{text(column.heading)}{unit}"


def _cell(cell: b.Cell, start: str, align: str, sortable: bool, w: HtmlContext) -> str:
    if align or cell.tone:
        start += attribute("class", f"{align} {cell.tone}".strip())
    if sortable and cell.sort is not None:
        start += attribute("data-sort", cell.sort)
    if cell.anchor and not w.paper:
        start += attribute("id", cell.anchor)
    found = cell.pieces
    body = INLINE[type(found[0])](found[0], w) if len(found) == 1 else inline_pieces(found, w)
    return f"{start}>{body}<small>{text(cell.note)}</small>" if cell.note else f"{start}>{body}"


def _row(row: b.Row, aligns: tuple[str, ...], sortable: bool, w: HtmlContext) -> str:
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
    rest = [
        _cell(c, "<td", align, sortable, w) for c, align in zip(cells[1:], aligns[1:], strict=False)
    ]
    return f"{start}{_cell(cells[0], '<th', aligns[0], sortable, w)}{''.join(rest)}"


def _classes(t: b.Table) -> str:
    """`r3` for a table whose third column stands right, `c5` for one whose fifth is centred."""
    return " ".join(
        _ALIGN[c.align] + str(i) for i, c in enumerate(t.columns, 1) if c.align != "left"
    )


def table(t: b.Table, w: HtmlContext) -> str:
    """A table with its caption and note. Its frame scrolls and can be reached by keyboard, unless
    its rows run on.
    """
    aligns = tuple(_ALIGN[c.align] if w.paper else "" for c in t.columns)
    flows = t.stack and sum(c.align == "right" for c in t.columns) <= _MOST_FLOWING
    name = "table" + (" flow" if flows else "") + (" sortable" if t.sortable else "")
    body = "".join([_row(r, aligns, t.sortable, w) for r in t.rows])
    note = f"<p class=note>{text(t.note)}</p>" if t.note else ""
    region = (
        ""
        if w.paper or flows
        else f' role=region aria-label="{quoted(t.caption or "table")}" tabindex=0'
    )
    head = "".join([_column(c, w.paper) for c in t.columns])
    caption = f"<caption>{text(t.caption)}</caption>" if t.caption else ""
    return (
        f"<div{attribute('class', name)}{attribute('id', w.anchor(t.anchor))}{region}>"
        f"<table{attribute('class', '' if w.paper else _classes(t))}>{caption}"
        f"<thead><tr>{head}<tbody>{body}</table></div>{note}"
    )
