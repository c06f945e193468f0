"""Every block of pages/blocks.py as HTML, for screens and for paper."""

import re
from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any

from markupsafe import Markup

from builder.diagnostics.finding import Signal
from builder.pages import blocks as b
from builder.pages.rule_address import rule_address
from builder.pages.site.picture_files import picture_widths, sized_picture
from builder.render.html import markdown
from builder.render.html.callouts import callouts
from builder.render.html.chapter_html import chapter_html
from builder.render.html.drawn_once import ALERT, TRIANGLE
from builder.render.html.escaped import attribute, bound, quoted, text
from builder.render.html.inline_html import HtmlContext, inline_pieces, tick
from builder.render.html.svg import svg
from builder.render.html.svg_paper import PAPER_STYLE
from builder.render.html.table_html import table

__all__ = ["PAPER_SCHEME", "HtmlContext", "block", "blocks_html"]
_XML = (  # within HTML a drawing does without, and without most quotes
    ' xmlns="http://www.w3.org/2000/svg"'
)
_TAG = re.compile("<[^>]*>")
_BARE = re.compile(
    '="([^\\s"\'=<>`&]+)"(?!/)'
)  # not before the slash of a tag, which would join the value

# Shown where the screen is narrower than the drawing, which moves within its own frame.
_SIDEWAYS = "<p class=sideways>Move the drawing sideways to see all of it.</p>"
# How wide a photograph is shown: style sheet, .picture and .marked
_SIZES, _MARKED_SIZES = "(min-width: 32rem) 30rem, 100vw", "(min-width: 46rem) 29rem, 62vw"
PAPER_SCHEME = "leaf:"  # of what a printed page fetches: our fonts and the build's pictures


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
    return f"<div class=prose{attribute('lang', w.language)}>{chapter_html(c, w, _chapter_picture)}</div>"


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


def _code(code: str, w: HtmlContext) -> str:
    """The way from a finding to the rule that made it. Its code is for whoever writes builds; it
    stands on the page of the rules, and on paper, which leads nowhere.
    """
    if not code:
        return ""
    if w.paper:
        return f" <code class=code>{text(code)}</code>"
    link = f"{w.root}{rule_address(code)}"
    return f" <a class=code{attribute('href', link)}>about this check</a>"


def _alert(signal: Signal, w: HtmlContext) -> str:
    """The safety alert symbol before a signal word. ANSI Z535.6 keeps it for what can hurt people:
    NOTICE has none.
    """
    if signal is Signal.NOTICE:
        return ""
    if w.paper:
        return (
            f'<svg class="alert"{_XML} viewBox="0 0 24 22"><title>Safety'
            f" alert</title>{TRIANGLE}</svg>"
        )
    return ALERT


def _notice(n: b.Notice, w: HtmlContext) -> str:
    signal = n.signal.value if n.signal else ""
    name = f"notice sig-{signal.casefold()}" if signal else "notice"
    name += f" t-{n.tone}" if n.tone else ""
    word = f"<strong class=signal>{_alert(n.signal, w)}{signal}</strong> " if n.signal else ""
    body = f"<p>{inline_pieces(n.pieces, w)}</p>" if n.pieces else ""
    said = inline_pieces(n.said, w) if n.said else bound(n.title)
    title = f"<p class=title>{word}<span>{said}</span>{_code(n.code, w)}</p>"
    apart = " " if w.paper else ""  # where both run on in one line
    return f"<div{attribute('class', name)}{attribute('id', n.anchor)}>{title}{apart}{body}</div>"


def _in_widths(p: b.Picture, w: HtmlContext) -> str:
    """Width and height of a photograph, so that its place is kept, and the files of its widths, so
    that a phone takes a small one. Nothing of a drawing.
    """
    if p.address not in w.sizes:
        return ""
    width, height = w.sizes[p.address]
    files = [f"{w.root}{sized_picture(p.address, each)} {each}w" for each in picture_widths(width)]
    shown = _MARKED_SIZES if p.marks else _SIZES
    return f' srcset="{quoted(", ".join(files))}" sizes="{shown}" width={width} height={height}'


def _picture(p: b.Picture, w: HtmlContext) -> str:
    if w.paper:
        source = attribute("src", PAPER_SCHEME + p.address)
        return (
            f'<figure class=picture><img{source} alt="{quoted(p.alt)}"></figure>'
            if p.address in w.pictures
            else ""
        )
    caption = f"<figcaption>{bound(p.caption)}</figcaption>" if p.caption else ""
    address = attribute("src", w.root + p.address)
    image = f'<img{address} alt="{quoted(p.alt)}"{_in_widths(p, w)} loading=lazy>'
    if p.marks:
        image = f"<div class=marked>{image}{callouts(p.marks)}</div>"
    return f"<figure class=picture>{image}{caption}</figure>"


def _chapter_picture(p: b.Picture, w: HtmlContext) -> str:
    """A picture of a chapter, which keeps its caption on paper too."""
    shown = _picture(p, w)
    if not (w.paper and shown and p.caption):
        return shown
    return shown.replace("</figure>", f"<figcaption>{bound(p.caption)}</figcaption></figure>")


def _facts_of_step(s: b.Step, w: HtmlContext) -> str:
    said = [f"{f'<b>{text(k)}</b> ' if k else ''}{inline_pieces(v, w)}" for k, v in s.facts]
    if w.paper:
        return "".join([f"<span>{fact}</span>" for fact in said])
    return " ".join(said)


def _parts_of_step(s: b.Step, w: HtmlContext) -> str:
    """What a step is made of, each with its own box."""
    if not s.parts:
        return ""
    rows = "".join([_step(part, w) for part in s.parts])
    return f"<ol class=parts>{rows}</ol>"


def _step(s: b.Step, w: HtmlContext) -> str:
    """A step. On screens its number is a link to itself, so that its address can be copied. A part
    of one has no number. What to take care of is read before what is done (ANSI Z535.6).
    """
    facts = f"<p class=facts>{_facts_of_step(s, w)}" if s.facts else ""
    reason = f"<p class=why>{bound(s.reason)}" if s.reason else ""
    writes = f"<p class=writes>{inline_pieces(s.write_ins, w)}" if s.write_ins else ""
    caution = "".join([_notice(told, w) for told in s.cautions])
    picture = _picture(s.picture, w) if s.picture else ""
    taken = "" if w.paper else "".join([_picture(p, w) for p in s.photos])
    built = "".join([f"<p class=built>{bound(line)}" for line in s.built])
    parts = _parts_of_step(s, w)
    shown = ""
    if s.drawing and not w.paper:  # the element around it ends the paragraph before it
        shown = f"<div>{_on_screen(svg(s.drawing, build=w.build, root=w.root))}</div>"
    rest = f"{facts}{reason}{shown}{parts}{writes}{built}{picture}{taken}"
    words = inline_pieces(s.text, w)
    if w.paper:
        number = f"<span class=no>{text(s.number)}</span> " if s.number else ""
        body = f"<div><p class=do>{number}{words}{rest}</div>"
        paper_box = "" if s.parts else tick(b.Tick(s.key), w)
        boxed = f"<div class=boxed>{paper_box}{body}</div>" if caution else f"{paper_box}{body}"
        return f"<li class=step{attribute('id', s.anchor)}>{caution}{boxed}"
    key = "" if s.anchor == s.key else s.key
    if not s.number and not s.parts and "<" not in words and not caution:
        named = f"<label><input type=checkbox{attribute('data-tick', key)}>{words}</label>"
        return f"<li{attribute('id', s.anchor)}>{named}{rest}"
    name = f"step {s.number}" if s.number else _TAG.sub("", words)
    box = "" if s.parts else tick(b.Tick(key, name), w)
    return f"<li{attribute('id', s.anchor)}>{box}{caution}{_number_of_step(s)}{words}{rest}"


def _number_of_step(s: b.Step) -> str:
    """The number of a step, which leads to itself; a part has none."""
    if not s.number:
        return ""
    if s.anchor:
        return f"<a{attribute('href', '#' + s.anchor)}>{text(s.number)}</a> "
    return f"<b>{text(s.number)}</b> "


def _steps(x: b.Steps, w: HtmlContext) -> str:
    out = []
    for item in x.items:
        if isinstance(item, b.GateBar):
            out.append(
                f"<li class=gate{attribute('id', item.anchor)}><strong>{text(item.title)}</strong>"
                f" {bound(item.text)}"
            )
        else:
            out.append(_step(item, w))
    return f"<ol class=steps>{''.join(out)}</ol>"


def _on_screen(drawn: str) -> str:
    """A drawing within HTML, without what HTML does without."""
    return _TAG.sub(lambda tag: _BARE.sub(r"=\1", tag[0]), drawn.replace(_XML, "", 1))


def _illustration(i: b.Illustration, w: HtmlContext) -> str:
    name = "illustration wide" if i.wide else "illustration"
    name += " plot" if i.plot else ""
    # A canvas that scrolls must be reached by keyboard.
    moves = i.wide and not w.paper
    focus = " role=group aria-label=Drawing tabindex=0" if moves else ""
    hint = _SIDEWAYS if moves else ""
    scale = "mm" if i.true_size else ""
    style = PAPER_STYLE if w.paper else ""
    drawn: str = svg(i.drawing, scale=scale, style=style, build=w.build, root=w.root)
    if not w.paper:
        drawn = _on_screen(drawn)
    head = f"<figure{attribute('class', name)}{attribute('id', i.anchor)}>{hint}"
    canvas = f"<div class=canvas{focus}>{drawn}</div>"
    said = f"<figcaption>{bound(i.caption)}</figcaption>" if i.caption else ""
    return f"{head}{canvas}{said}</figure>"


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
    b.Notice: _notice,
    b.Steps: _steps,
    b.Picture: _picture,
    b.Illustration: _illustration,
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
