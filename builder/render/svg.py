"""Drawings as SVG: attributes and classes only, so that pages need no inline style; the same bytes every time."""

from markupsafe import Markup, escape

from builder.pages.drawing import Circle, Drawing, Item, Line, Rectangle, Shape, Words
from builder.render.markdown import allowed_link

_CASING = 0.35  # mm that a wire's edge is wider than the wire, so that white and black wires show on any ground


def _n(value: float) -> str:
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _class(*names: str) -> str:
    given = " ".join(n for n in names if n)
    return f' class="{escape(given)}"' if given else ""


def _wire(colour: str) -> str:
    return "w-" + "".join(c for c in colour.casefold() if c.isalnum()) if colour else ""


def _titled(tag: str, title: str) -> str:
    return f"{tag[:-2]}><title>{escape(title)}</title></{tag[1 : tag.index(' ')]}>" if title else tag


def _linked(body: str, link: str, label: str = "") -> str:
    """A link around a shape, relative to the page; one that may not stand on a page is left out."""
    if not link or not allowed_link(link):
        return body
    name = f' aria-label="{escape(label)}"' if label else ""
    return f'<a href="{escape(link)}"{name}>{body}</a>'


def _line(i: Line, cased: bool) -> str:
    points = " ".join(f"{_n(x)},{_n(y)}" for x, y in i.points)
    dash = f' stroke-dasharray="{escape(i.dash)}"' if i.dash else ""
    edge = (
        f'<polyline points="{points}" stroke-width="{_n(i.width + _CASING)}" class="casing"/>'
        if i.colour and cased
        else ""
    )
    tag = f'<polyline points="{points}" stroke-width="{_n(i.width)}"{dash}{_class("line", i.tone, _wire(i.colour))}/>'
    return edge + _titled(tag, i.title)


def _rectangle(i: Rectangle) -> str:
    radius = f' rx="{_n(i.radius)}"' if i.radius else ""
    tag = (
        f'<rect x="{_n(i.x)}" y="{_n(i.y)}" width="{_n(i.width)}" height="{_n(i.height)}"{radius}'
        f"{_class('box', i.tone, _wire(i.colour))}/>"
    )
    return _linked(_titled(tag, i.title), i.link, i.title or i.link)


def _circle(i: Circle) -> str:
    tag = f'<circle cx="{_n(i.x)}" cy="{_n(i.y)}" r="{_n(i.radius)}"{_class("box", i.tone, _wire(i.colour))}/>'
    return _linked(_titled(tag, i.title), i.link, i.title or i.link)


def _words(i: Words) -> str:
    anchor = f' text-anchor="{i.anchor}"' if i.anchor != "start" else ""
    turn = f' transform="rotate({_n(i.turn)} {_n(i.x)} {_n(i.y)})"' if i.turn else ""
    place = f'x="{_n(i.x)}" y="{_n(i.y)}" font-size="{_n(i.size)}"{anchor}{turn}'
    body = f"<text {place}{_class(i.tone)}>{escape(i.text)}</text>"
    return _linked(body, i.link)


def _item(item: Item, cased: bool) -> str:
    if isinstance(item, Line):
        return _line(item, cased)
    if isinstance(item, Rectangle):
        return _rectangle(item)
    if isinstance(item, Circle):
        return _circle(item)
    if isinstance(item, Shape):
        return f'<path d="{escape(item.path)}"{_class("line", item.tone, _wire(item.colour))}/>'
    return _words(item)


def svg(drawing: Drawing, *, scale: str = "", style: str = "") -> Markup:
    """The drawing as an SVG element; `scale` of `mm` gives it its true size, `style` goes into it (for paper)."""
    size = f' width="{_n(drawing.width)}mm" height="{_n(drawing.height)}mm"' if scale == "mm" else ""
    name = "".join(c if c.isalnum() else "-" for c in drawing.name)
    cased = not any(i.tone == "wire-edge" for i in drawing.items)  # else the drawing lays its own edges
    role = "group" if any(getattr(i, "link", "") for i in drawing.items) else "img"  # an img hides the links inside it
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(drawing.width)} {_n(drawing.height)}"{size} '
        f'class="drawing" role="{role}" aria-label="{escape(drawing.alt)}" id="d-{name}">'
    )
    # On paper the alternative text is read from a title, on screens from the label.
    within = f"<title>{escape(drawing.alt)}</title><style>{style}</style>" if style else ""
    return Markup(head + within + "".join(_item(i, cased) for i in drawing.items) + "</svg>")
