"""Drawings as SVG: attributes and classes only, so that pages need no inline style; the same bytes every time.

What looks alike is said once: widths of lines are those of their class where they can be, words of one style share
a group, and dots of one kind share a path.
"""

from collections.abc import Iterable, Iterator
from itertools import groupby, pairwise
from math import cos, radians, sin

from markupsafe import Markup

from builder.pages.drawing import Circle, Drawing, Item, Line, Rectangle, Shape, Words
from builder.render.escaped import quoted, text
from builder.render.inline_html import anchor_on_page
from builder.render.markdown import allowed_link

_CASING = 0.35  # mm that a wire's edge is wider than the wire, so that white and black wires show on any ground
_WIDTH = 0.25  # mm of a line that says nothing else


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
    return f"{tag[:-2]}><title>{text(title)}</title></{tag[1 : tag.index(' ')]}>" if title else tag


def _linked(body: str, link: str, build: str, label: str = "") -> str:
    """A link around a shape, relative to the page; one that may not stand on a page is left out."""
    if not link or not allowed_link(link):
        return body
    page, mark, anchor = link.partition("#")
    name = f' aria-label="{quoted(label)}"' if label else ""
    return f'<a href="{quoted(page + mark + anchor_on_page(anchor, build))}"{name}>{body}</a>'


def _path(points: tuple[tuple[float, float], ...]) -> str:
    """A line through points, level and upright pieces by one number."""
    at = [(_tenth(x), _tenth(y)) for x, y in points]
    out = [f"M{at[0][0]} {at[0][1]}"]
    for (x0, y0), (x, y) in pairwise(at):
        out.append(f"H{x}" if y == y0 else f"V{y}" if x == x0 else f"L{x} {y}")
    return "".join(out)


def _look(i: Line) -> str:
    width = f' stroke-width="{_n(i.width)}"' if i.width != _WIDTH else ""
    dash = f' stroke-dasharray="{quoted(i.dash)}"' if i.dash else ""
    return f"{width}{dash}{_class('line', i.tone, _wire(i.colour))}"


def _edge(i: Line) -> str:
    width = f' stroke-width="{_n(i.width + _CASING)}"'
    return f'<path d="{_path(i.points)}"{width} class="casing"/>'


def _lines(run: Iterable[Line], look: str) -> str:
    """Lines of one look in a row: those without a title are one path."""
    paths = []
    for titled, lines in groupby(run, key=lambda i: bool(i.title)):
        if titled:
            paths += [_titled(f'<path d="{_path(i.points)}"/>', i.title) for i in lines]
        else:
            paths.append(f'<path d="{"".join([_path(i.points) for i in lines])}"/>')
    return f"<path{look}{paths[0][5:]}" if len(paths) == 1 else f"<g{look}>{''.join(paths)}</g>"


def _rectangle(i: Rectangle, build: str) -> str:
    radius = f' rx="{_n(i.radius)}"' if i.radius else ""
    tag = (
        f'<rect x="{_n(i.x)}" y="{_n(i.y)}" width="{_n(i.width)}" height="{_n(i.height)}"{radius}'
        f"{_class('box', i.tone, _wire(i.colour))}/>"
    )
    return _linked(_titled(tag, i.title), i.link, build, i.title or i.link)


def _dots(dots: list[Circle], build: str) -> str:
    """Circles; those of one kind without words or link share a group."""
    out: list[str] = []
    for (name, single), run in groupby(dots, key=lambda i: (_class("box", i.tone, _wire(i.colour)), i.title or i.link)):
        given = list(run)
        tags = [f'<circle cx="{_tenth(i.x)}" cy="{_tenth(i.y)}" r="{_n(i.radius)}"/>' for i in given]
        if single or len(tags) == 1:
            named = [f"<circle{name}{tag[7:]}" for tag in tags]
            out += [
                _linked(_titled(t, i.title), i.link, build, i.title or i.link)
                for t, i in zip(named, given, strict=True)
            ]
        else:
            out.append(f"<g{name}>{''.join(tags)}</g>")
    return "".join(out)


def _style(i: Words) -> tuple[str, str, float, float, str]:
    return i.tone, i.anchor, i.size, i.turn, i.link


def _words(run: Iterable[Words], build: str) -> str:
    """Words of one style; turned ones stand in a group that is turned with them."""
    given = list(run)
    tone, anchor, size, turn, link = _style(given[0])
    c, s = cos(radians(turn)), sin(radians(turn))
    out = []
    for i in given:
        x, y = (i.x * c + i.y * s, i.y * c - i.x * s) if turn else (i.x, i.y)
        out.append(f'<text x="{_tenth(x)}" y="{_tenth(y)}">{text(i.text)}</text>')
    place = f' text-anchor="{anchor}"' if anchor != "start" else ""
    turned = f' transform="rotate({_n(turn)})"' if turn else ""
    style = f'{_class(tone)} font-size="{_n(size)}"{place}{turned}'
    if len(out) == 1:
        return _linked(f"<text{style}{out[0][5:]}", link, build)
    return _linked(f"<g{style}>{''.join(out)}</g>", link, build)


def _shape(i: Item) -> str:
    if not isinstance(i, Shape):
        return ""
    return f'<path d="{quoted(i.path)}"{_class("line", i.tone, _wire(i.colour))}/>'


def _in_styles(words: list[Words]) -> Iterator[list[Words]]:
    """Words of one style together, styles in the order in which they come first."""
    found: dict[tuple[str, str, float, float, str], list[Words]] = {}
    for i in words:
        found.setdefault(_style(i), []).append(i)
    yield from found.values()


def _labels(items: list[Item], build: str) -> str:
    """Words and dots in a row: they do not cover each other, so that those of one kind may come together."""
    kinds: dict[tuple[str, str], list[Circle]] = {}
    for i in items:
        if isinstance(i, Circle):
            kinds.setdefault((i.tone, i.colour), []).append(i)
    dots = "".join([_dots(found, build) for found in kinds.values()])
    return dots + "".join([_words(run, build) for run in _in_styles([i for i in items if isinstance(i, Words)])])


def _shapes(items: list[Item], cased: bool, build: str) -> str:
    out = []
    for look, run in groupby(items, key=lambda i: _look(i) if isinstance(i, Line) else ""):
        for line, part in groupby(run, key=lambda i: isinstance(i, Line)):
            given = list(part)
            lines = [i for i in given if isinstance(i, Line)]
            if line and cased and lines[0].colour:
                out += [_edge(i) + _lines([i], look) for i in lines]
            elif line:
                out.append(_lines(lines, look))
            else:
                out += [
                    _rectangle(i, build) if isinstance(i, Rectangle) else _shape(i)
                    for i in given
                    if not isinstance(i, Line)
                ]
    return "".join(out)


def svg(drawing: Drawing, *, scale: str = "", style: str = "", build: str = "") -> Markup:
    """The drawing as an SVG element; `scale` of `mm` gives it its true size, `style` goes into it (for paper)."""
    size = f' width="{_n(drawing.width)}mm" height="{_n(drawing.height)}mm"' if scale == "mm" else ""
    name = "".join([c if c.isalnum() else "-" for c in drawing.name])
    cased = not any(i.tone == "wire-edge" for i in drawing.items)  # else the drawing lays its own edges
    role = "group" if any(getattr(i, "link", "") for i in drawing.items) else "img"  # an img hides the links inside it
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(drawing.width)} {_n(drawing.height)}"{size} '
        f'stroke-width="{_WIDTH}" class="drawing" role="{role}" aria-label="{quoted(drawing.alt)}" id="d-{name}">'
    )
    # On paper the alternative text is read from a title, on screens from the label.
    within = f"<title>{text(drawing.alt)}</title><style>{style}</style>" if style else ""
    body = [
        _labels(list(run), build) if words else _shapes(list(run), cased, build)
        for words, run in groupby(drawing.items, key=lambda i: isinstance(i, Words | Circle))
    ]
    return Markup(head + within + "".join(body) + "</svg>")
