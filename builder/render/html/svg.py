"""Drawings as SVG: attributes and classes only, so that pages need no inline style; the same bytes
every time.

What looks alike is said once: widths of lines are those of their class where they can be, words of
one style share a group, and dots of one kind share a path.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby, pairwise
from math import cos, radians, sin

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
    Rectangle,
    Shape,
    Words,
)
from builder.render.html.anchors import anchor_on_page
from builder.render.html.escaped import quoted, text
from builder.render.html.markdown import allowed_link

# mm that a wire's edge is wider than the wire, so that white and black wires show on any ground
_CASING = 0.35
_WIDTH = 0.25  # mm of a line that says nothing else
_EDGES = ("wire-edge", "stub-edge")  # of drawings that lay the edges of their wires themselves
STEP_TYPE = 3.1  # mm, type of drawings without a name, which their page's style says
_CLASS = re.compile(' class="([^"]*)"')
_FEW = 3  # elements under each other that are worth a group of their own


def _n(value: float) -> str:
    short = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if short in ("-0", "") else short


def _tenth(value: float) -> str:
    """Where something lies, to a tenth of a millimetre: what no eye tells apart."""
    short = f"{value:.1f}".removesuffix(".0")
    return "0" if short == "-0" else short


def _class(*names: str) -> str:
    given = " ".join([n for n in names if n])
    return f' class="{quoted(given)}"' if given else ""


def _wire(colour: str) -> str:
    return "w-" + "".join([c for c in colour.casefold() if c.isalnum()]) if colour else ""


def _titled(tag: str, title: str) -> str:
    if not title:
        return tag
    name = tag[1 : tag.index(" ")]
    return f"{tag[:-2]}><title>{text(title)}</title></{name}>"


@dataclass(frozen=True, slots=True)
class _Page:
    """The page that a drawing is on: whose build it is, and the way to the site's root."""

    build: str
    root: str


def _way(page: str, on: _Page) -> str:
    """The way to a page from the one that the drawing is on; within a build it goes no further up
    than the build's folder.
    """
    within = on.build and on.root.startswith("../") and page.startswith(f"{on.build}/")
    return on.root[3:] + page[len(on.build) + 1 :] if within else on.root + page


def _linked(body: str, link: str, on: _Page, label: str = "") -> str:
    """A link around a shape, from the site's root or within the page; one that may not stand on a
    page is left out.
    """
    if not link or not allowed_link(link):
        return body
    page, mark, anchor = link.partition("#")
    full = not page or ":" in page.split("/")[0]
    page = page if full else _way(page, on)
    name = f' aria-label="{quoted(label)}"' if label else ""
    return f'<a href="{quoted(page + mark + anchor_on_page(anchor, on.build))}"{name}>{body}</a>'


def _to(name: str, *to: tuple[str, str]) -> str:
    """A piece of a line, by where it leads or by how far, whichever is shorter; `to` are the numbers of
    its start and end, across, down or both.
    """
    ends = " ".join([end for _, end in to])
    far = [_tenth(float(end) - float(start)) for start, end in to]
    by = " ".join(far).replace(" -", "-")
    return f"{name.lower()}{by}" if len(by) < len(ends) else f"{name}{ends}"


def _path(points: tuple[tuple[float, float], ...]) -> str:
    """A line through points, level and upright pieces by one number."""
    at = [(_tenth(x), _tenth(y)) for x, y in points]
    out = [f"M{at[0][0]} {at[0][1]}"]
    if len(at) == 2 and at[0] == at[1]:
        return f"{out[0]}h0"
    for (x0, y0), (x, y) in pairwise(at):
        if y == y0:
            out.append(_to("H", (x0, x)))
        elif x == x0:
            out.append(_to("V", (y0, y)))
        else:
            out.append(_to("L", (x0, x), (y0, y)))
    return "".join(out)


def _look(i: Line) -> str:
    width = f' stroke-width="{_n(i.width)}"' if i.width != _WIDTH else ""
    dash = f' stroke-dasharray="{quoted(i.dash)}"' if i.dash else ""
    return f"{width}{dash}{_class('line', i.tone, _wire(i.colour))}"


def _edge(i: Line) -> str:
    width = f' stroke-width="{_n(i.width + _CASING)}"'
    return f'<path d="{_path(i.points)}"{width} class="casing"/>'


def _lines(run: Iterable[Line], look: str, apart: bool) -> str:
    """Lines of one look in a row: those without a title are one path, unless they are to stay
    apart.
    """
    paths = []
    for titled, lines in groupby(run, key=lambda i: bool(i.title)):
        if titled or apart:
            paths += [_titled(f'<path d="{_path(i.points)}"/>', i.title) for i in lines]
        else:
            paths.append(f'<path d="{"".join([_path(i.points) for i in lines])}"/>')
    if len(paths) == 1:
        return f"<path{look}{paths[0][5:]}"
    return f"<g{look}>{''.join(paths)}</g>"


def _rectangle(i: Rectangle, on: _Page) -> str:
    radius = f' rx="{_n(i.radius)}"' if i.radius else ""
    at = f'x="{_n(i.x)}" y="{_n(i.y)}"'
    size = f'width="{_n(i.width)}" height="{_n(i.height)}"'
    tag = f"<rect {at} {size}{radius}{_class('box', i.tone, _wire(i.colour))}/>"
    return _linked(_titled(tag, i.title), i.link, on, i.title or i.link)


def _circle(i: Circle, on: _Page) -> str:
    at = f'cx="{_tenth(i.x)}" cy="{_tenth(i.y)}"'
    look = _class("box", i.tone, _wire(i.colour))
    tag = f'<circle {at} r="{_n(i.radius)}"{look}/>'
    return _linked(_titled(tag, i.title), i.link, on, i.title or i.link)


def _group(tag: str, style: str, turn: str, places: list[tuple[str, str]], inner: list[str]) -> str:
    """Like elements in a group that says their style once; those under each other say where they
    stand once.
    """
    x, y = ("cx", "cy") if tag == "circle" else ("x", "y")
    turned = f' transform="{turn}"' if turn else ""
    first_across, first_down = places[0]
    if len(places) == 1:
        return f'<{tag}{style}{turned} {x}="{first_across}" {y}="{first_down}"{inner[0]}'
    lines: dict[str, list[str]] = {}
    for (across, down), rest in zip(places, inner, strict=True):
        lines.setdefault(across, []).append(f'<{tag} {y}="{down}"{rest}')
    if len(lines) == 1:
        column = "".join(lines[first_across])
        return f'<g{style} transform="{turn}translate({first_across})">{column}</g>'
    out = []
    for across, line in lines.items():
        if len(line) < _FEW:
            out += [f'<{tag} {x}="{across}"{one[len(tag) + 1 :]}' for one in line]
        else:
            out.append(f'<g transform="translate({across})">{"".join(line)}</g>')
    return f"<g{style}{turned}>{''.join(out)}</g>"


def _dots(dots: list[Circle], on: _Page) -> str:
    """Circles of one look; those with words or a link stand alone."""
    out = [_circle(i, on) for i in dots if i.title or i.link]
    plain = [i for i in dots if not i.title and not i.link]
    if plain:
        name = _class("box", plain[0].tone, _wire(plain[0].colour))
        inner = [f' r="{_n(i.radius)}"/>' for i in plain]
        out.append(_group("circle", name, "", [(_tenth(i.x), _tenth(i.y)) for i in plain], inner))
    return "".join(out)


def _style(i: Words) -> tuple[str, str, float, float, str]:
    return i.tone, i.anchor, i.size, i.turn, i.link


def _words(given: list[Words], on: _Page) -> str:
    """Words of one style; turned ones stand in a group that is turned with them."""
    tone, anchor, size, turn, link = _style(given[0])
    c, s = cos(radians(turn)), sin(radians(turn))
    at = [(i.x, i.y) for i in given]
    if turn:
        at = [(x * c + y * s, y * c - x * s) for x, y in at]
    place = f' text-anchor="{anchor}"' if anchor != "start" else ""
    turned = f"rotate({_n(turn)})" if turn else ""
    style = f'{_class(tone)} font-size="{_n(size)}"{place}'
    inner = [f">{text(i.text)}</text>" for i in given]
    return _linked(
        _group("text", style, turned, [(_tenth(x), _tenth(y)) for x, y in at], inner), link, on
    )


def _boxes(given: list[Item], on: _Page) -> list[str]:
    """Rectangles and paths in their order; paths of one look in a row share a group."""
    out = []
    for look, run in groupby(given, key=lambda i: _class_of(i) if isinstance(i, Shape) else ""):
        if not look:
            out += [_rectangle(i, on) for i in run if isinstance(i, Rectangle)]
            continue
        paths = [f'<path d="{quoted(i.path)}"' for i in run if isinstance(i, Shape)]
        if len(paths) == 1:
            out.append(f"{paths[0]}{look}/>")
        else:
            out.append(f"<g{look}>{''.join([p + '/>' for p in paths])}</g>")
    return out


def _class_of(i: Shape) -> str:
    return _class("line", i.tone, _wire(i.colour))


def _in_styles(words: list[Words]) -> Iterable[list[Words]]:
    """Words of one style together, styles in the order in which they come first."""
    found: dict[tuple[str, str, float, float, str], list[Words]] = {}
    for i in words:
        found.setdefault(_style(i), []).append(i)
    return found.values()


def _labels(items: list[Item], on: _Page) -> str:
    """Words and dots in a row: they do not cover each other, so that those of one kind may come
    together.
    """
    kinds: dict[tuple[str, str], list[Circle]] = {}
    for i in items:
        if isinstance(i, Circle):
            kinds.setdefault((i.tone, i.colour), []).append(i)
    dots = "".join([_dots(found, on) for found in kinds.values()])
    return dots + "".join(
        [_words(run, on) for run in _in_styles([i for i in items if isinstance(i, Words)])]
    )


def _shapes(items: list[Item], cased: bool, apart: bool, on: _Page) -> str:
    out = []
    for look, run in groupby(items, key=lambda i: _look(i) if isinstance(i, Line) else ""):
        for line, part in groupby(run, key=lambda i: isinstance(i, Line)):
            given = list(part)
            lines = [i for i in given if isinstance(i, Line)]
            if line and cased and lines[0].colour:
                out += [_edge(i) + _lines([i], look, apart) for i in lines]
            elif line:
                out.append(_lines(lines, look, apart))
            else:
                out += _boxes(given, on)
    return "".join(out)


def _marked(i: Marked, apart: bool, on: _Page) -> str:
    """A thing that leads somewhere, with the words that show while it is pointed to. The words are
    its name, so that nothing is said twice.
    """
    return _linked(_drawn(i.items, False, apart, on) + _said(i, apart), i.link, on)


def _said(i: Marked, apart: bool) -> str:
    """What shows while it is pointed to; nothing on paper, where nothing is pointed to."""
    if not i.words or apart:
        return ""
    at = f'x="{_tenth(i.x)}" y="{_tenth(i.y)}"'
    return f'<text class="say" {at}>{text(i.words)}</text>'


def _id_of(name: str) -> str:
    return "s-" + "".join([c if c.isalnum() else "-" for c in name])


def _drawn(items: Iterable[Item], cased: bool, apart: bool, on: _Page) -> str:
    """Shapes in their order. What is shown again by its name is for screens alone."""
    body = []
    for kind, run in groupby(items, key=_kind):
        given = list(run)
        if kind == "labels":
            body.append(_labels(given, on))
        elif kind == "shapes":
            body.append(_shapes(given, cased, apart, on))
        elif kind == "numbers":
            body.append(_numbers(given, apart, on))
        else:
            body += [_whole(i, cased, apart, on) for i in given]
    return "".join(body)


def _numbers(given: list[Item], apart: bool, on: _Page) -> str:
    """Single words in a row that lead somewhere: their style is said once."""
    words = [
        (i, w) for i in given if isinstance(i, Marked) for w in i.items if isinstance(w, Words)
    ]
    first = words[0][1]
    place = f' text-anchor="{first.anchor}"' if first.anchor != "start" else ""
    out = []
    for marked, word in words:
        at = f'x="{_tenth(word.x)}" y="{_tenth(word.y)}"'
        shown = f"<text {at}>{text(word.text)}</text>"
        out.append(_linked(shown + _said(marked, apart), marked.link, on))
    return f'<g font-size="{_n(first.size)}"{place}>{"".join(out)}</g>'


def _kind(i: Item) -> str:
    if isinstance(i, Marked) and len(i.items) == 1 and isinstance(i.items[0], Words):
        return "numbers"
    if isinstance(i, Words | Circle):
        return "labels"
    return "whole" if isinstance(i, Marked | KeptShapes | Again | MarkedTogether) else "shapes"


def _whole(i: Item, cased: bool, apart: bool, on: _Page) -> str:
    if isinstance(i, Marked):
        return _marked(i, apart, on)
    if isinstance(i, KeptShapes):
        return f'<g id="{_id_of(i.name)}">{_drawn(i.items, cased, apart, on)}</g>'
    if isinstance(i, MarkedTogether):
        return "" if apart else _net(i, on)
    if isinstance(i, Again) and not apart:
        down = f' y="{_tenth(i.down)}"' if _tenth(i.down) != "0" else ""
        return f'<use href="#{_id_of(i.name)}"{down}/>'
    raise ValueError("what is shown again by its name cannot be printed")


def _net(i: MarkedTogether, on: _Page) -> str:
    """What is marked together: size and kind of its shapes go by the group. Words that stand beside
    each other are told apart when they are read out.
    """
    shown = "".join([_linked(_of_net(m), m.link, on) for m in i.items])
    return f'<g class="net">{shown}</g>' if shown else ""


def _of_net(marked: Marked) -> str:
    """Lines by their colour, words in the size of all marks, and what shows while it is pointed to."""
    out = []
    for item in marked.items:
        if isinstance(item, Line):
            look = _class(item.tone, _wire(item.colour))
            out.append(f'<path{look} d="{_path(item.points)}"/>')
        elif isinstance(item, Words):
            apart = " " if any(one.endswith("</text>") for one in out) else ""
            out.append(apart + _word_of_net(item))
    return "".join(out) + _said(marked, apart=False)


def _word_of_net(i: Words) -> str:
    """A word whose class says whether it ends where it stands, and whether it is upright."""
    ends = "e" if i.anchor == "end" else ""
    turned = "up" if i.turn else ""
    look = _class(i.tone, ends, turned)
    x, y = (-i.y, i.x) if i.turn else (i.x, i.y)
    return f'<text{look} x="{_tenth(x)}" y="{_tenth(y)}">{text(i.text)}</text>'


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
    on = _Page(build, root)
    size = (
        f' width="{_n(drawing.width)}mm" height="{_n(drawing.height)}mm"' if scale == "mm" else ""
    )
    name = "".join([c if c.isalnum() else "-" for c in drawing.name])
    cased = not any(
        getattr(i, "tone", "") in _EDGES for i in drawing.items
    )  # else the drawing lays its own edges
    role = (
        "group" if any(_leads(i) for i in drawing.items) else "img"
    )  # an img hides the links inside it
    box = f"0 0 {_n(drawing.width)} {_n(drawing.height)}"
    # A drawing of a step has no name, and its lines are as wide as the style of its page says.
    width = f' stroke-width="{_WIDTH}"' if name else ""
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
