"""Every block of pages/blocks.py as HTML. Plain functions and one join a table: a page has thousands of cells."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup, escape

from builder.pages import blocks as b
from builder.render import markdown
from builder.render.svg import svg


@dataclass(frozen=True, slots=True)
class Where:
    """Where the page lies: the way back to the site's root, whose build it is, and whether it is printed."""

    root: str
    build: str = ""
    numbers: str = ""
    paper: bool = False

    def href(self, link: str) -> str:
        """An address: an anchor of this page, an address under the root, or a full one that is allowed."""
        if link.startswith("#"):
            return link
        if not markdown.allowed_link(link):
            return "#"
        return link if ":" in link.split("/")[0] else self.root + link


def _attribute(name: str, value: object) -> str:
    return f' {name}="{escape(value)}"' if value not in ("", None) else ""


def _number(n: b.Number, w: Where) -> str:
    body = f'<span class="pre">{escape(n.prefix)} </span>{escape(n.value)}' if n.prefix else f"{escape(n.value)}"
    if n.unit:
        body += f'<span class="u">\u00a0{escape(n.unit)}</span>'
    if n.spread:
        body += f'<span class="s"> {escape(n.spread)}</span>'
    if not n.anchor or w.paper:
        return f'<span class="num">{body}</span>'
    page = f"{w.root}{n.build}/numbers/index.html" if n.build else w.numbers
    return f'<a class="num" href="{escape(page)}#{escape(n.anchor)}">{body}</a>'


def _span(s: b.Span, w: Where) -> str:
    body = f"{escape(s.text)}"
    if s.code:
        body = f"<code>{body}</code>"
    if s.strong:
        body = f"<strong>{body}</strong>"
    if s.link:
        return f'<a href="{escape(w.href(s.link))}"{_attribute("rel", s.rel)}>{body}</a>'
    return body


def _tick(t: b.Tick, w: Where) -> str:
    if w.paper:
        return '<span class="tick"></span>'
    box = f'<input type="checkbox" data-tick="{escape(t.key)}">'
    return f'<label class="tick">{box}<span>{escape(t.label or "done")}</span></label>'


def _write_in(i: b.WriteIn, w: Where) -> str:
    unit = f' <span class="u">{escape(i.unit)}</span>' if i.unit else ""
    expect = f' <span class="expect">expected {escape(i.expect)}</span>' if i.expect else ""
    label = f'<span class="label">{escape(i.label)}</span>'
    if w.paper:
        return f'<span class="write">{label} <span class="rule"></span>{unit}{expect}</span>'
    return (
        f'<label class="write">{label} '
        f'<input type="text" data-write="{escape(i.key)}" autocomplete="off">{unit}{expect}</label>'
    )


def _swatch(s: b.Swatch, w: Where) -> str:
    name = "".join(c for c in s.name.casefold() if c.isalnum())
    letters = f' <abbr title="{escape(s.name)}">{escape(s.letters)}</abbr>' if s.letters else ""
    return f'<span class="swatch"><i class="w-{escape(name)}"></i>{escape(s.name)}{letters}</span>'


def _inline_markdown(m: b.Markdown, w: Where) -> str:
    return str(markdown.inline(m.text))


_INLINE: dict[type, Callable[[Any, Where], str]] = {
    b.Number: _number,
    b.Span: _span,
    b.Tick: _tick,
    b.WriteIn: _write_in,
    b.Swatch: _swatch,
    b.Markdown: _inline_markdown,
}


def pieces(items: Iterable[b.Inline], w: Where) -> str:
    """Pieces in a row."""
    return "".join(_INLINE[type(i)](i, w) for i in items)


@dataclass(frozen=True, slots=True)
class _Head:
    """What the cells of a column need: their class, and their label where rows stack on a narrow screen."""

    align: str
    label: str


def _head(column: b.Column, stack: bool) -> _Head:
    align = {"left": "", "right": "r", "centre": "c"}[column.align]
    words = ", ".join(w for w in (column.heading, column.unit) if w)
    return _Head(align, _attribute("data-label", words) if stack else "")


def _column(column: b.Column) -> str:
    align = _attribute("class", _head(column, False).align)
    if not column.heading:
        return f"<td{align}></td>"  # a heading cell that says nothing would be read out as one
    unit = f' <span class="u">{escape(column.unit)}</span>' if column.unit else ""
    return f'<th scope="col"{align}>{escape(column.heading)}{unit}</th>'


def _cell(cell: b.Cell, head: _Head, tag: str, sortable: bool, w: Where) -> str:
    name = _attribute("class", f"{head.align} {cell.tone}".strip())
    sort = f' data-sort="{escape(cell.sort)}"' if sortable and cell.sort is not None else ""
    note = f"<small>{escape(cell.note)}</small>" if cell.note else ""
    start = '<th scope="row"' if tag == "th" else "<td"
    return f"{start}{name}{sort}{head.label}>{pieces(cell.pieces, w)}{note}</{tag}>"


def _row(row: b.Row, heads: tuple[_Head, ...], sortable: bool, w: Where) -> str:
    data = "".join(f' data-{escape(k)}="{escape(v)}"' for k, v in row.data.items())
    start = f"<tr{_attribute('id', row.anchor)}{_attribute('class', row.kind)}{data}>"
    if row.kind == "group" and len(row.cells) == 1:
        return f'{start}<th scope="rowgroup" colspan="{len(heads)}">{pieces(row.cells[0].pieces, w)}</th></tr>'
    tags = ("th", *["td"] * len(heads))
    cells = (_cell(c, h, tag, sortable, w) for c, h, tag in zip(row.cells, heads, tags, strict=False))
    return f"{start}{''.join(cells)}</tr>"


def _table(t: b.Table, w: Where) -> str:
    heads = tuple(_head(c, t.stack) for c in t.columns)
    name = "table" + (" stack" if t.stack else "") + (" sortable" if t.sortable else "")
    body = "".join(_row(r, heads, t.sortable, w) for r in t.rows)
    note = f'<p class="note">{escape(t.note)}</p>' if t.note else ""
    region = "" if w.paper else f' role="region" aria-label="{escape(t.caption or "table")}" tabindex="0"'
    return (
        f'<div class="{name}"{_attribute("id", t.anchor)}{region}><table><caption>{escape(t.caption)}</caption>'
        f"<thead><tr>{''.join(map(_column, t.columns))}</tr></thead><tbody>{body}</tbody></table></div>{note}"
    )


def _paragraph(p: b.Paragraph, w: Where) -> str:
    return f"<p{_attribute('class', 'lead' if p.lead else 'quiet' if p.quiet else '')}>{pieces(p.pieces, w)}</p>"


def _prose(p: b.Prose, w: Where) -> str:
    return f'<div class="prose">{markdown.blocks(p.text)}</div>'


def _bullets(x: b.Bullets, w: Where) -> str:
    tag = "ol" if x.ordered else "ul"
    return f"<{tag}>" + "".join(f"<li>{pieces(i, w)}</li>" for i in x.items) + f"</{tag}>"


def _facts(f: b.Facts, w: Where) -> str:
    items = "".join(
        f"<div><dt>{escape(name)}</dt><dd{_attribute('class', c.tone)}>{pieces(c.pieces, w)}"
        f"{f'<small>{escape(c.note)}</small>' if c.note else ''}</dd></div>"
        for name, c in f.items
    )
    return f'<dl class="facts{" large" if f.large else ""}">{items}</dl>'


def _code(code: str, w: Where) -> str:
    if not code:
        return ""
    if w.paper:
        return f' <code class="code">{escape(code)}</code>'
    return f' <a class="code" href="{w.root}rules/index.html#rule-{escape(code.replace("/", "-"))}">{escape(code)}</a>'


def _notice(n: b.Notice, w: Where) -> str:
    signal = n.signal.value if n.signal else ""
    name = "notice" + (f" sig-{signal.casefold()}" if signal else "") + (f" t-{n.tone}" if n.tone else "")
    word = f'<strong class="signal">{signal}</strong> ' if signal else ""
    body = f"<p>{pieces(n.pieces, w)}</p>" if n.pieces else ""
    title = f'<p class="title">{word}<span>{escape(n.title)}</span>{_code(n.code, w)}</p>'
    return f'<div class="{name}"{_attribute("id", n.anchor)}>{title}{body}</div>'


def _picture(p: b.Picture, w: Where) -> str:
    size = f' width="{p.width}" height="{p.height}"' if p.width and p.height else ""
    caption = f"<figcaption>{escape(p.caption)}</figcaption>" if p.caption else ""
    return (
        f'<figure class="picture"><img src="{escape(w.root + p.address)}" alt="{escape(p.alt)}"{size} loading="lazy">'
        f"{caption}</figure>"
    )


def _step_number(s: b.Step, w: Where) -> str:
    if not s.anchor or w.paper:
        return f'<span class="no">{escape(s.number)}</span>'
    return (
        f'<a class="no" href="#{escape(s.anchor)}" aria-label="Link to step {escape(s.number)}">{escape(s.number)}</a>'
    )


def _step(s: b.Step, w: Where) -> str:
    facts = "".join(f"<span><b>{escape(k)}</b> {escape(v)}</span>" for k, v in s.facts)
    reason = f'<p class="why">{escape(s.reason)}</p>' if s.reason else ""
    writes = f'<p class="writes">{pieces(s.write_ins, w)}</p>' if s.write_ins else ""
    caution = _notice(s.caution, w) if s.caution else ""
    picture = _picture(s.picture, w) if s.picture else ""
    return (
        f'<li class="step"{_attribute("id", s.anchor)}>{_tick(b.Tick(s.key, "step " + s.number + " done"), w)}'
        f'<div><p class="do">{_step_number(s, w)} {pieces(s.text, w)}</p>'
        f"{f'<p class=facts>{facts}</p>' if facts else ''}{reason}{writes}{caution}{picture}</div></li>"
    )


def _steps(x: b.Steps, w: Where) -> str:
    out = []
    for item in x.items:
        if isinstance(item, b.GateBar):
            out.append(
                f'<li class="gate"{_attribute("id", item.anchor)}><strong>{escape(item.title)}</strong> '
                f"{escape(item.text)}</li>"
            )
        else:
            out.append(_step(item, w))
    return f'<ol class="steps">{"".join(out)}</ol>'


def _illustration(i: b.Illustration, w: Where) -> str:
    name = "illustration" + (" wide" if i.wide else "")
    return (
        f'<figure class="{name}"{_attribute("id", i.anchor)}><div class="canvas">{svg(i.drawing)}</div>'
        f"<figcaption>{escape(i.caption)}</figcaption></figure>"
    )


def _side(s: b.Side, w: Where) -> str:
    return f'<div class="side"><div>{block(s.first, w)}</div><div>{block(s.second, w)}</div></div>'


def _fold(f: b.Fold, w: Where) -> str:
    body = "".join(block(x, w) for x in f.blocks)
    if w.paper:
        return f'<div class="fold"><p class="fold-title">{escape(f.title)}</p>{body}</div>' if f.paper else ""
    return f"<details><summary>{escape(f.title)}</summary>{body}</details>"


def _section(s: b.Section, w: Where) -> str:
    level = min(max(s.level, 2), 5)
    body = "".join(block(x, w) for x in s.blocks)
    mark = (
        "" if w.paper else f' <a class="here" href="#{escape(s.anchor)}" aria-label="Link to {escape(s.heading)}">§</a>'
    )
    return (
        f'<section id="{escape(s.anchor)}" class="l{level}{" fresh" if s.break_before else ""}">'
        f"<h{level}>{escape(s.heading)}{mark}</h{level}>{body}</section>"
    )


_BLOCK: dict[type, Callable[[Any, Where], str]] = {
    b.Table: _table,
    b.Paragraph: _paragraph,
    b.Prose: _prose,
    b.Bullets: _bullets,
    b.Facts: _facts,
    b.Notice: _notice,
    b.Steps: _steps,
    b.Picture: _picture,
    b.Illustration: _illustration,
    b.Side: _side,
    b.Fold: _fold,
    b.Section: _section,
}


def block(item: "b.Block | b.Section", w: Where) -> str:
    """One block or section as HTML."""
    return _BLOCK[type(item)](item, w)


def blocks_html(items: "Iterable[b.Block | b.Section]", w: Where) -> Markup:
    """Blocks in a row as HTML that is safe to put on a page."""
    return Markup("".join(block(i, w) for i in items))
