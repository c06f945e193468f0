"""Tables as HTML. Plain functions and one join a table: a page has thousands of cells.

The end tags of rows and cells are left out, as the HTML standard allows; they would be a tenth of a page.
"""

from dataclasses import dataclass

from markupsafe import escape

from builder.pages import blocks as b
from builder.render.inline_html import Where, attribute, pieces


@dataclass(frozen=True, slots=True)
class _Head:
    """What the cells of a column need: their class, and their label where rows stack on a narrow screen."""

    align: str
    label: str


def _head(column: b.Column, stack: bool) -> _Head:
    align = {"left": "", "right": "r", "centre": "c"}[column.align]
    words = ", ".join(w for w in (column.heading, column.unit) if w)
    return _Head(align, attribute("data-label", words) if stack else "")


def _column(column: b.Column) -> str:
    align = attribute("class", _head(column, False).align)
    if not column.heading:
        return f"<td{align}></td>"  # a heading cell that says nothing would be read out as one
    unit = f' <span class="u">{escape(column.unit)}</span>' if column.unit else ""
    return f'<th scope="col"{align}>{escape(column.heading)}{unit}</th>'


def _cell(cell: b.Cell, head: _Head, tag: str, sortable: bool, w: Where) -> str:
    name = attribute("class", f"{head.align} {cell.tone}".strip())
    sort = f' data-sort="{escape(cell.sort)}"' if sortable and cell.sort is not None else ""
    note = f"<small>{escape(cell.note)}</small>" if cell.note else ""
    start = '<th scope="row"' if tag == "th" else "<td"
    body = pieces(cell.pieces, w) + note
    return f"{start}{name}{sort}{head.label if body else ''}>{body}"


def _row(row: b.Row, heads: tuple[_Head, ...], sortable: bool, w: Where) -> str:
    data = "".join(f' data-{escape(k)}="{escape(v)}"' for k, v in row.data.items())
    start = f"<tr{attribute('id', row.anchor)}{attribute('class', row.kind)}{data}>"
    if row.kind == "group" and len(row.cells) == 1:
        return f'{start}<th scope="rowgroup" colspan="{len(heads)}">{pieces(row.cells[0].pieces, w)}'
    tags = ("th", *["td"] * len(heads))
    cells = (_cell(c, h, tag, sortable, w) for c, h, tag in zip(row.cells, heads, tags, strict=False))
    return f"{start}{''.join(cells)}"


def table(t: b.Table, w: Where) -> str:
    """A table with its caption and note; its frame scrolls and can be reached by keyboard."""
    heads = tuple(_head(c, t.stack) for c in t.columns)
    name = "table" + (" stack" if t.stack else "") + (" sortable" if t.sortable else "")
    body = "".join(_row(r, heads, t.sortable, w) for r in t.rows)
    note = f'<p class="note">{escape(t.note)}</p>' if t.note else ""
    region = "" if w.paper else f' role="region" aria-label="{escape(t.caption or "table")}" tabindex="0"'
    return (
        f'<div class="{name}"{attribute("id", t.anchor)}{region}><table><caption>{escape(t.caption)}</caption>'
        f"<thead><tr>{''.join(map(_column, t.columns))}</tr></thead><tbody>{body}</tbody></table></div>{note}"
    )
