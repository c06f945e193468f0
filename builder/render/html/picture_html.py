"""Photographs and drawings as HTML, for screens and for paper."""

import re

from builder.pages import blocks as b
from builder.pages.site.picture_files import picture_widths, sized_picture
from builder.render.html.callouts import callouts
from builder.render.html.escaped import attribute, bound, quoted
from builder.render.html.inline_html import HtmlContext
from builder.render.html.svg import svg
from builder.render.html.svg_paper import PAPER_STYLE

XML_NAME = (  # within HTML a drawing does without, and without most quotes
    ' xmlns="http://www.w3.org/2000/svg"'
)
TAG = re.compile("<[^>]*>")
_BARE = re.compile(
    '="([^\\s"\'=<>`&]+)"(?!/)'
)  # not before the slash of a tag, which would join the value
# Shown where the screen is narrower than the drawing, which moves within its own frame.
_SIDEWAYS = "<p class=sideways>Move the drawing sideways to see all of it.</p>"
# How wide a photograph is shown: style sheet, .picture and .marked
_SIZES, _MARKED_SIZES = "(min-width: 32rem) 30rem, 100vw", "(min-width: 46rem) 29rem, 62vw"
PAPER_SCHEME = "leaf:"  # of what a printed page fetches: our fonts and the build's pictures


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


def picture_html(p: b.Picture, w: HtmlContext) -> str:
    """A photograph with its caption and marks; on paper only one that is printed."""
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


def chapter_picture(p: b.Picture, w: HtmlContext) -> str:
    """A picture of a chapter, which keeps its caption on paper too."""
    shown = picture_html(p, w)
    if not (w.paper and shown and p.caption):
        return shown
    return shown.replace("</figure>", f"<figcaption>{bound(p.caption)}</figcaption></figure>")


def on_screen(drawn: str) -> str:
    """A drawing within HTML, without what HTML does without."""
    return TAG.sub(lambda tag: _BARE.sub(r"=\1", tag[0]), drawn.replace(XML_NAME, "", 1))


def illustration_html(i: b.Illustration, w: HtmlContext) -> str:
    """A drawing with its caption; one wider than the screen moves in its own frame."""
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
        drawn = on_screen(drawn)
    head = f"<figure{attribute('class', name)}{attribute('id', i.anchor)}>{hint}"
    canvas = f"<div class=canvas{focus}>{drawn}</div>"
    said = f"<figcaption>{bound(i.caption)}</figcaption>" if i.caption else ""
    return f"{head}{canvas}{said}</figure>"
