"""Every block of pages/blocks.py as HTML, for screens and for paper."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any

from markupsafe import Markup

from builder.pages import blocks as b
from builder.render.html import markdown
from builder.render.html.chapter_html import chapter_html
from builder.render.html.escaped import attribute, bound, text
from builder.render.html.inline_html import HtmlContext, inline_pieces
from builder.render.html.picture_html import chapter_picture, illustration_html, picture_html
from builder.render.html.step_html import notice_html, steps_html
from builder.render.html.table_html import table


def _paragraph(p: b.Paragraph, w: HtmlContext) -> str:
    name = "quiet" if p.quiet else ""
    if p.lead:
        name = "lead"
    return f"<p{attribute('class', name)}>{inline_pieces(p.pieces, w)}</p>"


def _prose(p: b.Prose, w: HtmlContext) -> str:
    return (
        f"<div class=prose{attribute('lang', w.language)}>{markdown.markdown_blocks(p.text)}</div>"
    )


def _chapter_text(c: b.ChapterText, w: HtmlContext) -> str:
    return f"<div class=prose{attribute('lang', w.language)}>{chapter_html(c, w, chapter_picture)}</div>"


def _bullets(x: b.Bullets, w: HtmlContext) -> str:
    tag = "ol" if x.ordered else "ul"
    ticked = any(i and isinstance(i[0], b.Tick) for i in x.items)
    name = " class=ticked" if ticked else ""
    items = "".join([f"<li>{inline_pieces(i, w)}" for i in x.items])
    return f"<{tag}{name}>{items}</{tag}>"


def _facts(f: b.Facts, w: HtmlContext) -> str:
    items = "".join(_fact(name, c, w) for name, c in f.items)
    return f'<dl class="facts{" large" if f.large else ""}">{items}</dl>'


def _fact(name: str, c: b.Cell, w: HtmlContext) -> str:
    note = f"<small>{bound(c.note)}</small>" if c.note else ""
    said = inline_pieces(c.pieces, w)
    return f"<div><dt>{bound(name)}<dd{attribute('class', c.tone)}>{said}{note}</div>"


def _side(s: b.Side, w: HtmlContext) -> str:
    return f"<div class=side><div>{block(s.first, w)}</div><div>{block(s.second, w)}</div></div>"


def _pair(p: b.TwoStacks, w: HtmlContext) -> str:
    stacks = ["".join([block(x, w) for x in stack]) for stack in (p.first, p.second)]
    return f"<div class=pair><div>{stacks[0]}</div><div>{stacks[1]}</div></div>"


def _fold(f: b.Fold, w: HtmlContext) -> str:
    body = "".join([block(x, w) for x in f.blocks])
    if w.paper:
        return (
            f'<div class=fold><p class="fold-title">{text(f.title)}</p>{body}</div>'
            if f.paper
            else ""
        )
    return f"<details{attribute('class', 'alike' if f.alike else '')}><summary>{text(f.title)}</summary>{body}</details>"


def _forwards(f: b.Forwards, w: HtmlContext) -> str:
    """Each line has the id that was on this page: who comes by it without a script stands before
    the way on, and assets/moved.js goes on by itself.
    """
    if w.paper:
        return ""
    items = []
    for i in f.items:
        starts = attribute("data-starts", " ".join(i.starts))
        way = f"<a{attribute('href', w.href(i.link))}>{text(i.text)}</a>"
        items.append(f"<li{attribute('id', i.anchor)}{starts}>{way}")
    return f"<ul>{''.join(items)}</ul>"


def _unrepeated(x: b.Block | b.Section, heading: str) -> b.Block | b.Section:
    """A table or drawing without a caption that says its section's heading again."""
    if isinstance(x, b.Table) and x.caption.casefold() == heading.casefold():
        return replace(x, caption="")
    return x


def _section(s: b.Section, w: HtmlContext) -> str:
    level = min(max(s.level, 2), 5)
    body = "".join([block(_unrepeated(x, s.heading), w) for x in s.blocks])
    if not s.heading:  # a text of its own, below the title of the page
        return f"<div{attribute('class', s.role)}{attribute('id', s.anchor)}>{body}</div>"
    anchor, heading = w.anchor(s.anchor), text(s.heading)
    if (
        not w.paper and w.kind != "numbers"
    ):  # the heading leads to itself, so that its address can be copied
        heading = f"<a{attribute('href', '#' + anchor)}>{heading}</a>"
    name = f"l{level}" if w.paper or level == 2 else ""
    if w.paper and s.break_before:
        name += " fresh"
    if s.role and (s.role in b.PRINTED_ROLES or not w.paper):
        name = f"{name} {s.role}".strip()
    head = f"<section{attribute('id', anchor)}{attribute('class', name)}>"
    return f"{head}<h{level}>{heading}</h{level}>{body}</section>"


_BLOCK: dict[type, Callable[[Any, HtmlContext], str]] = {
    b.Table: table,
    b.Paragraph: _paragraph,
    b.Prose: _prose,
    b.ChapterText: _chapter_text,
    b.Bullets: _bullets,
    b.Facts: _facts,
    b.Notice: notice_html,
    b.Steps: steps_html,
    b.Picture: picture_html,
    b.Illustration: illustration_html,
    b.Side: _side,
    b.TwoStacks: _pair,
    b.Fold: _fold,
    b.Forwards: _forwards,
    b.Section: _section,
}


def block(item: "b.Block | b.Section", w: HtmlContext) -> str:
    """One block or section as HTML."""
    return _BLOCK[type(item)](item, w)


def blocks_html(items: "Iterable[b.Block | b.Section]", w: HtmlContext) -> Markup:
    """Blocks in a row as HTML that is safe to put on a page."""
    return Markup("".join([block(i, w) for i in items]))
