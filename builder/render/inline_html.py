"""Pieces of running text and of table cells as HTML: numbers, words, boxes to tick and to write in."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from markupsafe import escape

from builder.pages import blocks as b
from builder.render import markdown


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


def attribute(name: str, value: object) -> str:
    """An attribute with a space before it; nothing for an empty value."""
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
    if s.link and not w.paper:
        return f'<a href="{escape(w.href(s.link))}"{attribute("rel", s.rel)}>{body}</a>'
    return body


def tick(t: b.Tick, w: Where) -> str:
    """A box to tick; an empty square on paper."""
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


INLINE: dict[type, Callable[[Any, Where], str]] = {
    b.Number: _number,
    b.Span: _span,
    b.Tick: tick,
    b.WriteIn: _write_in,
    b.Swatch: _swatch,
    b.Markdown: _inline_markdown,
}


def pieces(items: Iterable[b.Inline], w: Where) -> str:
    """Pieces in a row."""
    return "".join(INLINE[type(i)](i, w) for i in items)
