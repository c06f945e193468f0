"""Pieces of running text and of table cells as HTML: numbers, words, boxes to tick and to write in."""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from builder.pages import blocks as b
from builder.render.html import markdown
from builder.render.html.anchors import anchor_on_page
from builder.render.html.escaped import attribute, bound, quoted, text
from builder.render.html.svg import svg

_DAY = re.compile(r"\d{4}-\d\d-\d\d").fullmatch
_REFERENCE = ("rules", "fields")  # kinds of pages whose words come from documentation in the code
_QUOTED_CODE = re.compile(r"`([^`]+)`")  # which marks keys so

__all__ = ["HtmlContext", "attribute", "inline_pieces", "tick"]


@dataclass(frozen=True, slots=True)
class HtmlContext:
    """Where the page lies: the way back to the site's root, whose build it is, whether it is
    printed, its kind.

    `pictures` are those at hand for print; `language` is that of the writer's text where it is not
    the one of the pages; `lacks` are addresses under the root that lead nowhere; `sizes` are width and height of photographs.
    """

    root: str
    build: str = ""
    numbers: str = ""
    paper: bool = False
    kind: str = ""
    pictures: frozenset[str] = frozenset()
    language: str = ""
    lacks: frozenset[str] = frozenset()
    sizes: Mapping[str, tuple[int, int]] = field(default_factory=dict)

    def href(self, link: str) -> str:
        """An address: an anchor of this page, an address under the root, or a full one that is
        allowed.
        """
        if link.startswith("#"):
            return "#" + self.anchor(link[1:])
        if not markdown.allowed_link(link):
            return "#"
        return link if ":" in link.split("/")[0] else self.root + link

    def anchor(self, anchor: str) -> str:
        """An anchor as it stands on this page."""
        return anchor_on_page(anchor, self.build) if "/" in anchor else anchor


def _number(n: b.Number, w: HtmlContext) -> str:
    """The value with unit and spread set apart; a link to the derivation, which the style sheet
    knows by its address.
    """
    body = f"<em>{text(n.prefix)}\u00a0</em>{text(n.value)}" if n.prefix else text(n.value)
    behind = f"\u00a0{n.unit}" if n.unit else ""
    if n.spread:
        behind += "\u00a0" + n.spread.replace(" ", "\u00a0")
    if behind:
        body += f"<i>{text(behind)}</i>"
    if not n.anchor or w.paper:
        return body
    page = f"{w.root}{n.build}/numbers/index.html" if n.build else w.numbers
    return f"<a{attribute('href', page + '#' + anchor_on_page(n.anchor, n.build or w.build))}>{body}</a>"


def _span(s: b.Span, w: HtmlContext) -> str:
    body = text(s.text) if s.code else bound(s.text)
    if w.kind in _REFERENCE and "`" in body:
        body = _QUOTED_CODE.sub(r"<code>\1</code>", body)
    if s.code and not (
        s.link and w.kind == "numbers"
    ):  # a thousand formulas: the style sheet knows them
        body = f"<code>{body}</code>"
    if _DAY(s.text) and not s.code:
        body = f"<time>{body}</time>"  # which the style sheet does not break
    if s.strong:
        body = f"<strong>{body}</strong>"
    if s.link in w.lacks:
        return f"{body} (not printed)"
    if s.link and not w.paper:
        return f"<a{attribute('href', w.href(s.link))}{attribute('rel', s.rel)}>{body}</a>"
    return body


def tick(t: b.Tick, w: HtmlContext) -> str:
    """A box to tick; an empty square on paper. Without a key it goes by the id of the row or step
    it stands in.
    """
    if w.paper:
        return '<span class="tick"></span>'
    key = attribute("data-tick", t.key)
    return f"<input type=checkbox{key}{attribute('aria-label', t.label or 'done')}>"


def _write_in(i: b.WriteIn, w: HtmlContext) -> str:
    """Where something is written. One without a label stands under a heading 'As built'."""
    unit = f" <i>{text(i.unit)}</i>" if i.unit else ""
    expect = f" <small>expected {bound(i.expect)}</small>" if i.expect else ""
    if w.paper:
        expect = f" <small>({bound(i.expect)})</small>" if i.expect else ""
        label = f'<span class="label">{text(i.label)}</span>'
        several = " several" if i.count > 1 else ""
        rules = " ".join(['<span class="rule"></span>'] * i.count)
        return f'<span class="write{several}">{label} {rules}{unit}{expect}</span>'
    named = "" if i.label else attribute("aria-label", "as built")
    field = f"<input{attribute('data-write', i.key)}{named}>"
    return f"<label>{text(i.label)} {field}{unit}</label>{expect}"


def _swatch(s: b.Swatch, w: HtmlContext) -> str:
    name = "".join(c for c in s.name.casefold() if c.isalnum())
    letters = f" <b>{text(s.letters)}</b>" if s.letters else ""
    return f"<i{attribute('class', 'w-' + name)}></i>{text(s.name)}{letters}"


def _thumbnail(t: b.Thumbnail, w: HtmlContext) -> str:
    """A square whose place is kept before the picture comes, whatever its shape; nothing on paper."""
    if w.paper:
        return ""
    if t.address:
        source = attribute("src", w.root + t.address)
        return f'<img class=small{source} alt="{quoted(t.text)}" width=96 height=96 loading=lazy>'
    if t.drawing is None:
        return ""
    drawn: str = svg(t.drawing, build=w.build, root=w.root)
    return drawn


def _inline_markdown(m: b.Markdown, w: HtmlContext) -> str:
    words = str(markdown.inline(m.text))
    return f"<span{attribute('lang', w.language)}>{words}</span>" if w.language else words


INLINE: dict[type, Callable[[Any, HtmlContext], str]] = {
    b.Number: _number,
    b.Span: _span,
    b.Tick: tick,
    b.WriteIn: _write_in,
    b.Swatch: _swatch,
    b.Thumbnail: _thumbnail,
    b.Markdown: _inline_markdown,
}


def inline_pieces(items: Iterable[b.Inline], w: HtmlContext) -> str:
    """Pieces in a row."""
    return "".join([INLINE[type(i)](i, w) for i in items])
