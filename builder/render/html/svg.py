"""Drawings as SVG: attributes and classes only, so that pages need no inline style; the same bytes
every time.
"""

import re
from collections.abc import Iterable
from itertools import groupby

from markupsafe import Markup

from builder.pages.drawing import (
    Again,
    Circle,
    Drawing,
    Item,
    KeptShapes,
    Line,
    Marked,
    MarkedTogether,
    Words,
)
from builder.render.html.escaped import quoted, text
from builder.render.html.svg_shapes import (
    USUAL_WIDTH,
    SvgPage,
    box_run,
    label_run,
    line_look,
    line_run,
    linked_shape,
    path_data,
    short_number,
    svg_class,
    tenth_mm,
    wire_class,
    wire_edge,
)

_EDGES = ("wire-edge", "stub-edge")  # of drawings that lay the edges of their wires themselves
STEP_TYPE = 3.1  # mm, type of drawings without a name, which their page's style says
_CLASS = re.compile(' class="([^"]*)"')


def _shapes(items: list[Item], cased: bool, apart: bool, on: SvgPage) -> str:
    out = []
    for look, run in groupby(items, key=lambda i: line_look(i) if isinstance(i, Line) else ""):
        for line, part in groupby(run, key=lambda i: isinstance(i, Line)):
            given = list(part)
            lines = [i for i in given if isinstance(i, Line)]
            if line and cased and lines[0].colour:
                out += [wire_edge(i) + line_run([i], look, apart) for i in lines]
            elif line:
                out.append(line_run(lines, look, apart))
            else:
                out += box_run(given, on)
    return "".join(out)


def _marked(i: Marked, apart: bool, on: SvgPage) -> str:
    """A thing that leads somewhere, with the words that show while it is pointed to. The words are
    its name, so that nothing is said twice.
    """
    return linked_shape(_drawn(i.items, False, apart, on) + _said(i, apart), i.link, on)


def _said(i: Marked, apart: bool) -> str:
    """What shows while it is pointed to; nothing on paper, where nothing is pointed to."""
    if not i.words or apart:
        return ""
    at = f'x="{tenth_mm(i.x)}" y="{tenth_mm(i.y)}"'
    return f'<text class="say" {at}>{text(i.words)}</text>'


def _id_of(name: str) -> str:
    return "s-" + "".join([c if c.isalnum() else "-" for c in name])


def _drawn(items: Iterable[Item], cased: bool, apart: bool, on: SvgPage) -> str:
    """Shapes in their order. What is shown again by its name is for screens alone."""
    body = []
    for kind, run in groupby(items, key=_kind):
        given = list(run)
        if kind == "labels":
            body.append(label_run(given, on))
        elif kind == "shapes":
            body.append(_shapes(given, cased, apart, on))
        elif kind == "numbers":
            body.append(_numbers(given, apart, on))
        else:
            body += [_whole(i, cased, apart, on) for i in given]
    return "".join(body)


def _numbers(given: list[Item], apart: bool, on: SvgPage) -> str:
    """Single words in a row that lead somewhere: their style is said once."""
    words = [
        (i, w) for i in given if isinstance(i, Marked) for w in i.items if isinstance(w, Words)
    ]
    first = words[0][1]
    place = f' text-anchor="{first.anchor}"' if first.anchor != "start" else ""
    out = []
    for marked, word in words:
        at = f'x="{tenth_mm(word.x)}" y="{tenth_mm(word.y)}"'
        shown = f"<text {at}>{text(word.text)}</text>"
        out.append(linked_shape(shown + _said(marked, apart), marked.link, on))
    return f'<g font-size="{short_number(first.size)}"{place}>{"".join(out)}</g>'


def _kind(i: Item) -> str:
    if isinstance(i, Marked) and len(i.items) == 1 and isinstance(i.items[0], Words):
        return "numbers"
    if isinstance(i, Words | Circle):
        return "labels"
    return "whole" if isinstance(i, Marked | KeptShapes | Again | MarkedTogether) else "shapes"


def _whole(i: Item, cased: bool, apart: bool, on: SvgPage) -> str:
    if isinstance(i, Marked):
        return _marked(i, apart, on)
    if isinstance(i, KeptShapes):
        return f'<g id="{_id_of(i.name)}">{_drawn(i.items, cased, apart, on)}</g>'
    if isinstance(i, MarkedTogether):
        return "" if apart else _net(i, on)
    if isinstance(i, Again) and not apart:
        down = f' y="{tenth_mm(i.down)}"' if tenth_mm(i.down) != "0" else ""
        return f'<use href="#{_id_of(i.name)}"{down}/>'
    raise ValueError("what is shown again by its name cannot be printed")


def _net(i: MarkedTogether, on: SvgPage) -> str:
    """What is marked together: size and kind of its shapes go by the group. Words that stand beside
    each other are told apart when they are read out.
    """
    shown = "".join([linked_shape(_of_net(m), m.link, on) for m in i.items])
    return f'<g class="net">{shown}</g>' if shown else ""


def _of_net(marked: Marked) -> str:
    """Lines by their colour, words in the size of all marks, and what shows while it is pointed to."""
    out = []
    for item in marked.items:
        if isinstance(item, Line):
            look = svg_class(item.tone, wire_class(item.colour))
            out.append(f'<path{look} d="{path_data(item.points)}"/>')
        elif isinstance(item, Words):
            apart = " " if any(one.endswith("</text>") for one in out) else ""
            out.append(apart + _word_of_net(item))
    return "".join(out) + _said(marked, apart=False)


def _word_of_net(i: Words) -> str:
    """A word whose class says whether it ends where it stands, and whether it is upright."""
    ends = "e" if i.anchor == "end" else ""
    turned = "up" if i.turn else ""
    look = svg_class(i.tone, ends, turned)
    x, y = (-i.y, i.x) if i.turn else (i.x, i.y)
    return f'<text{look} x="{tenth_mm(x)}" y="{tenth_mm(y)}">{text(i.text)}</text>'


def _shorter(found: re.Match[str]) -> str:
    """A class of a drawing of a step, of which a page has many: their style goes by the element."""
    name = found[1].removeprefix("line").removeprefix("box").strip()
    for long, short in (("stub w-", "w-"), ("stub-edge", "edge"), ("dot lit", "at"), ("dot ", "")):
        name = name.replace(long, short)
    return f' class="{name}"' if name else ""


def _leads(i: Item) -> bool:
    """Whether it leads somewhere."""
    return isinstance(i, MarkedTogether) or bool(getattr(i, "link", ""))


def svg(
    drawing: Drawing, *, scale: str = "", style: str = "", build: str = "", root: str = ""
) -> Markup:
    """The drawing as an SVG element; `scale` of `mm` gives it its true size, `style` goes into it
    (for paper). `build` and `root` are those of the page that it is on.
    """
    on = SvgPage(build, root)
    size = (
        f' width="{short_number(drawing.width)}mm" height="{short_number(drawing.height)}mm"'
        if scale == "mm"
        else ""
    )
    name = "".join([c if c.isalnum() else "-" for c in drawing.name])
    cased = not any(
        getattr(i, "tone", "") in _EDGES for i in drawing.items
    )  # else the drawing lays its own edges
    role = (
        "group" if any(_leads(i) for i in drawing.items) else "img"
    )  # an img hides the links inside it
    box = f"0 0 {short_number(drawing.width)} {short_number(drawing.height)}"
    # A drawing of a step has no name, and its lines are as wide as the style of its page says.
    width = f' stroke-width="{USUAL_WIDTH}"' if name else ""
    look = f'viewBox="{box}"{size}{width} class="drawing"'
    own = f' id="d-{name}"' if name else ""
    read = f'role="{role}" aria-label="{quoted(drawing.alt)}"{own}'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {look} {read}>'
    # On paper the alternative text is read from a title, on screens from the label.
    within = f"<title>{text(drawing.alt)}</title><style>{style}</style>" if style else ""
    body = _drawn(drawing.items, cased, bool(style), on)
    if not name:
        body = _CLASS.sub(_shorter, body).replace(f' font-size="{STEP_TYPE}"', "")
    return Markup(head + within + body + "</svg>")
