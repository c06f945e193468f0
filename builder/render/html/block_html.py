"""Every block of pages/blocks.py as HTML, for screens and for paper."""

import re
from collections.abc import Callable, Iterable
from math import ceil, log
from typing import Any

from markupsafe import Markup

from builder.diagnostics.finding import Signal
from builder.pages import blocks as b
from builder.pages.rule_address import rule_address
from builder.render.html import markdown
from builder.render.html.escaped import attribute, quoted, text
from builder.render.html.inline_html import HtmlContext, inline_pieces, tick
from builder.render.html.svg import svg
from builder.render.html.svg_paper import PAPER_STYLE
from builder.render.html.table_html import table

__all__ = ["LONGEST", "PAPER_SCHEME", "HtmlContext", "block", "blocks_html"]
_ENOUGH = (
    60_000  # characters of HTML, tags and all, that hold the letters of the last step most often
)
LONGEST = 20  # classes t0 to t20 of the style sheet; the last one is of 31 000 letters
_XML = (  # within HTML a drawing does without, and without most quotes
    ' xmlns="http://www.w3.org/2000/svg"'
)
_LONG = ("fields", "rules")  # kinds of pages whose sections are many, and of unlike lengths
_TAG = re.compile("<[^>]*>")
_BARE = re.compile(
    '="([^\\s"\'=<>`&/]+)"(?!/)'
)  # not before the slash of a tag, which would join the value

# A solid triangle with an exclamation mark cut out of it; drawn here, so that it needs no font and
# no background.
_TRIANGLE = (
    '<path fill-rule="evenodd" d="M12 .5 23.6 21.5H.4ZM10.4 7.4h3.2l-.6 7h-2ZM10.6'
    ' 15.8h2.8v2.9h-2.8Z"/>'
)

PAPER_SCHEME = "leaf:"  # of what a printed page fetches: our fonts and the build's pictures


def _paragraph(p: b.Paragraph, w: HtmlContext) -> str:
    return f"<p{attribute('class', 'lead' if p.lead else 'quiet' if p.quiet else '')}>{inline_pieces(p.pieces, w)}</p>"


def _prose(p: b.Prose, w: HtmlContext) -> str:
    return f"<div class=prose>{markdown.markdown_blocks(p.text)}</div>"


def _bullets(x: b.Bullets, w: HtmlContext) -> str:
    tag = "ol" if x.ordered else "ul"
    ticked = all(i and isinstance(i[0], b.Tick) for i in x.items)
    return (
        f"<{tag}{' class=ticked' if ticked else ''}>"
        + "".join([f"<li>{inline_pieces(i, w)}" for i in x.items])
        + f"</{tag}>"
    )


def _facts(f: b.Facts, w: HtmlContext) -> str:
    items = "".join(
        f"<div><dt>{text(name)}<dd{attribute('class', c.tone)}>{inline_pieces(c.pieces, w)}"
        f"{f'<small>{text(c.note)}</small>' if c.note else ''}</div>"
        for name, c in f.items
    )
    return f'<dl class="facts{" large" if f.large else ""}">{items}</dl>'


def _code(code: str, w: HtmlContext) -> str:
    if not code:
        return ""
    if w.paper:
        return f" <code class=code>{text(code)}</code>"
    link = f"{w.root}{rule_address(code)}"
    return f" <a class=code{attribute('href', link)}>{text(code)}</a>"


def _alert(signal: Signal, w: HtmlContext) -> str:
    """The safety alert symbol before a signal word. ANSI Z535.6 keeps it for what can hurt people:
    NOTICE has none.
    """
    if signal is Signal.NOTICE:
        return ""
    if w.paper:
        return (
            f'<svg class="alert"{_XML} viewBox="0 0 24 22"><title>Safety'
            f" alert</title>{_TRIANGLE}</svg>"
        )
    return f'<svg class=alert viewBox="0 0 24 22" aria-hidden=true>{_TRIANGLE}</svg>'


def _notice(n: b.Notice, w: HtmlContext) -> str:
    signal = n.signal.value if n.signal else ""
    name = (
        "notice"
        + (f" sig-{signal.casefold()}" if signal else "")
        + (f" t-{n.tone}" if n.tone else "")
    )
    word = f"<strong class=signal>{_alert(n.signal, w)}{signal}</strong> " if n.signal else ""
    body = f"<p>{inline_pieces(n.pieces, w)}</p>" if n.pieces else ""
    said = inline_pieces(n.said, w) if n.said else text(n.title)
    title = f"<p class=title>{word}<span>{said}</span>{_code(n.code, w)}</p>"
    return f"<div{attribute('class', name)}{attribute('id', n.anchor)}>{title}{body}</div>"


def _picture(p: b.Picture, w: HtmlContext) -> str:
    if w.paper:
        source = attribute("src", PAPER_SCHEME + p.address)
        return (
            f'<figure class=picture><img{source} alt="{quoted(p.alt)}"></figure>'
            if p.address in w.pictures
            else ""
        )
    size = f" width={p.width} height={p.height}" if p.width and p.height else ""
    caption = f"<figcaption>{text(p.caption)}</figcaption>" if p.caption else ""
    return (
        f"<figure class=picture><img{attribute('src', w.root + p.address)} "
        f'alt="{quoted(p.alt)}"{size} loading=lazy>{caption}</figure>'
    )


def _facts_of_step(s: b.Step, w: HtmlContext) -> str:
    said = [f"{f'<b>{text(k)}</b> ' if k else ''}{inline_pieces(v, w)}" for k, v in s.facts]
    if w.paper:
        return "".join([f"<span>{fact}</span>" for fact in said])
    return " ".join(said)


def _step(s: b.Step, w: HtmlContext) -> str:
    """A step. On screens its number is a link to itself, so that its address can be copied."""
    facts = f"<p class=facts>{_facts_of_step(s, w)}" if s.facts else ""
    reason = f"<p class=why>{text(s.reason)}" if s.reason else ""
    writes = f"<p class=writes>{inline_pieces(s.write_ins, w)}" if s.write_ins else ""
    caution = _notice(s.caution, w) if s.caution else ""
    picture = _picture(s.picture, w) if s.picture else ""
    built = "".join([f"<p class=built>{text(line)}" for line in s.built])
    rest = f"{facts}{reason}{writes}{built}{caution}{picture}"
    words = inline_pieces(s.text, w)
    if w.paper:
        body = f"<div><p class=do><span class=no>{text(s.number)}</span> {words}{rest}</div>"
        return (
            f"<li class=step{attribute('id', s.anchor)}>{tick(b.Tick(s.key), w)}{body}<span"
            ' class="as-built"></span>'
        )
    box = tick(b.Tick("" if s.anchor == s.key else s.key, f"step {s.number}"), w)
    number = (
        f"<a{attribute('href', '#' + s.anchor)}>{text(s.number)}</a>"
        if s.anchor
        else f"<b>{text(s.number)}</b>"
    )
    return f"<li{attribute('id', s.anchor)}>{box}{number} {words}{rest}"


def _steps(x: b.Steps, w: HtmlContext) -> str:
    out = []
    for item in x.items:
        if isinstance(item, b.GateBar):
            out.append(
                f"<li class=gate{attribute('id', item.anchor)}><strong>{text(item.title)}</strong>"
                f" {text(item.text)}"
            )
        else:
            out.append(_step(item, w))
    head = '<p class="column-head">as built</p>' if w.paper else ""
    return f"{head}<ol class=steps>{''.join(out)}</ol>"


def _illustration(i: b.Illustration, w: HtmlContext) -> str:
    name = "illustration" + (" wide" if i.wide else "") + (" plot" if i.plot else "")
    # A canvas that scrolls must be reached by keyboard.
    focus = " role=group aria-label=Drawing tabindex=0" if i.wide and not w.paper else ""
    drawn: str = svg(
        i.drawing,
        scale="mm" if i.true_size else "",
        style=PAPER_STYLE if w.paper else "",
        build=w.build,
        root=w.root,
    )
    if not w.paper:
        drawn = _TAG.sub(lambda tag: _BARE.sub(r"=\1", tag[0]), drawn.replace(_XML, "", 1))
    return (
        f"<figure{attribute('class', name)}{attribute('id', i.anchor)}><div"
        f" class=canvas{focus}>{drawn}</div><figcaption>{text(i.caption)}</figcaption></figure>"
    )


def _side(s: b.Side, w: HtmlContext) -> str:
    return f"<div class=side><div>{block(s.first, w)}</div><div>{block(s.second, w)}</div></div>"


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
    items = "".join(
        f"<li{attribute('id', i.anchor)}{attribute('data-starts', ' '.join(i.starts))}>"
        f"<a{attribute('href', w.href(i.link))}>{text(i.text)}</a>"
        for i in f.items
    )
    return "" if w.paper else f"<ul>{items}</ul>"


def _length(body: str) -> int:
    """How long a section is, in steps of a third from 100 letters: the style sheet keeps room for
    what is not yet drawn.

    Where its beginning has letters enough for the last step, the rest is not counted.
    """
    if len(body) > _ENOUGH and _thirds(body[: body.rfind(">", 0, _ENOUGH) + 1]) == LONGEST:
        return LONGEST
    return _thirds(body)


def _thirds(body: str) -> int:
    letters = len(_TAG.sub("", body))
    return min(LONGEST, max(0, ceil(log(letters / 100, 4 / 3)))) if letters else 0


def _section(s: b.Section, w: HtmlContext) -> str:
    level = min(max(s.level, 2), 5)
    body = "".join([block(x, w) for x in s.blocks])
    anchor, heading = w.anchor(s.anchor), text(s.heading)
    if (
        not w.paper and w.kind != "numbers"
    ):  # the heading leads to itself, so that its address can be copied
        heading = f"<a{attribute('href', '#' + anchor)}>{heading}</a>"
    name = f"l{level}" if w.paper or level == 2 else ""
    if w.paper and s.break_before:
        name += " fresh"
    if s.role and not w.paper:
        name = f"{name} {s.role}".strip()
    if not w.paper and w.kind in _LONG:
        name = f"{name} t{_length(body)}".strip()
    return f"<section{attribute('id', anchor)}{attribute('class', name)}><h{level}>{heading}</h{level}>{body}</section>"


_BLOCK: dict[type, Callable[[Any, HtmlContext], str]] = {
    b.Table: table,
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
    b.Forwards: _forwards,
    b.Section: _section,
}


def block(item: "b.Block | b.Section", w: HtmlContext) -> str:
    """One block or section as HTML."""
    return _BLOCK[type(item)](item, w)


def blocks_html(items: "Iterable[b.Block | b.Section]", w: HtmlContext) -> Markup:
    """Blocks in a row as HTML that is safe to put on a page."""
    return Markup("".join([block(i, w) for i in items]))
