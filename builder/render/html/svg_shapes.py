"""Single shapes of a drawing as SVG: lines, rectangles, circles, words, and rows of like ones.

What looks alike is said once: widths of lines are those of their class where they can be, words of
one style share a group, and dots of one kind share a path.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby, pairwise
from math import cos, radians, sin

from builder.pages.drawing import Circle, Item, Line, Rectangle, Shape, Words
from builder.render.html.anchors import anchor_on_page
from builder.render.html.escaped import quoted, text
from builder.render.html.markdown import allowed_link

# mm that a wire's edge is wider than the wire, so that white and black wires show on any ground
_CASING = 0.35
USUAL_WIDTH = 0.25  # mm of a line that says nothing else
_FEW = 3  # elements under each other that are worth a group of their own


def short_number(value: float) -> str:
    """To a hundredth, without what says nothing."""
    short = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if short in ("-0", "") else short


def tenth_mm(value: float) -> str:
    """Where something lies, to a tenth of a millimetre: what no eye tells apart."""
    short = f"{value:.1f}".removesuffix(".0")
    return "0" if short == "-0" else short


def svg_class(*names: str) -> str:
    """The class attribute of these names; nothing without one."""
    given = " ".join([n for n in names if n])
    return f' class="{quoted(given)}"' if given else ""


def wire_class(colour: str) -> str:
    """The class of a wire of this colour."""
    return "w-" + "".join([c for c in colour.casefold() if c.isalnum()]) if colour else ""


def _titled(tag: str, title: str) -> str:
    if not title:
        return tag
    name = tag[1 : tag.index(" ")]
    return f"{tag[:-2]}><title>{text(title)}</title></{name}>"


@dataclass(frozen=True, slots=True)
class SvgPage:
    """The page that a drawing is on: whose build it is, and the way to the site's root."""

    build: str
    root: str


def _way(page: str, on: SvgPage) -> str:
    """The way to a page from the one that the drawing is on; within a build it goes no further up
    than the build's folder.
    """
    within = on.build and on.root.startswith("../") and page.startswith(f"{on.build}/")
    return on.root[3:] + page[len(on.build) + 1 :] if within else on.root + page


def linked_shape(body: str, link: str, on: SvgPage, label: str = "") -> str:
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
    far = [tenth_mm(float(end) - float(start)) for start, end in to]
    by = " ".join(far).replace(" -", "-")
    return f"{name.lower()}{by}" if len(by) < len(ends) else f"{name}{ends}"


def path_data(points: tuple[tuple[float, float], ...]) -> str:
    """A line through points, level and upright pieces by one number."""
    at = [(tenth_mm(x), tenth_mm(y)) for x, y in points]
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


def line_look(i: Line) -> str:
    """Width, dashes and class of a line."""
    width = f' stroke-width="{short_number(i.width)}"' if i.width != USUAL_WIDTH else ""
    dash = f' stroke-dasharray="{quoted(i.dash)}"' if i.dash else ""
    return f"{width}{dash}{svg_class('line', i.tone, wire_class(i.colour))}"


def wire_edge(i: Line) -> str:
    """The edge below a wire, so that it shows on any ground."""
    width = f' stroke-width="{short_number(i.width + _CASING)}"'
    return f'<path d="{path_data(i.points)}"{width} class="casing"/>'


def line_run(run: Iterable[Line], look: str, apart: bool) -> str:
    """Lines of one look in a row: those without a title are one path, unless they are to stay
    apart.
    """
    paths = []
    for titled, lines in groupby(run, key=lambda i: bool(i.title)):
        if titled or apart:
            paths += [_titled(f'<path d="{path_data(i.points)}"/>', i.title) for i in lines]
        else:
            paths.append(f'<path d="{"".join([path_data(i.points) for i in lines])}"/>')
    if len(paths) == 1:
        return f"<path{look}{paths[0][5:]}"
    return f"<g{look}>{''.join(paths)}</g>"


def _rectangle(i: Rectangle, on: SvgPage) -> str:
    radius = f' rx="{short_number(i.radius)}"' if i.radius else ""
    at = f'x="{short_number(i.x)}" y="{short_number(i.y)}"'
    size = f'width="{short_number(i.width)}" height="{short_number(i.height)}"'
    tag = f"<rect {at} {size}{radius}{svg_class('box', i.tone, wire_class(i.colour))}/>"
    return linked_shape(_titled(tag, i.title), i.link, on, i.title or i.link)


def _circle(i: Circle, on: SvgPage) -> str:
    at = f'cx="{tenth_mm(i.x)}" cy="{tenth_mm(i.y)}"'
    look = svg_class("box", i.tone, wire_class(i.colour))
    tag = f'<circle {at} r="{short_number(i.radius)}"{look}/>'
    return linked_shape(_titled(tag, i.title), i.link, on, i.title or i.link)


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


def _dots(dots: list[Circle], on: SvgPage) -> str:
    """Circles of one look; those with words or a link stand alone."""
    out = [_circle(i, on) for i in dots if i.title or i.link]
    plain = [i for i in dots if not i.title and not i.link]
    if plain:
        name = svg_class("box", plain[0].tone, wire_class(plain[0].colour))
        inner = [f' r="{short_number(i.radius)}"/>' for i in plain]
        out.append(
            _group("circle", name, "", [(tenth_mm(i.x), tenth_mm(i.y)) for i in plain], inner)
        )
    return "".join(out)


def _style(i: Words) -> tuple[str, str, float, float, str]:
    return i.tone, i.anchor, i.size, i.turn, i.link


def _words(given: list[Words], on: SvgPage) -> str:
    """Words of one style; turned ones stand in a group that is turned with them."""
    tone, anchor, size, turn, link = _style(given[0])
    c, s = cos(radians(turn)), sin(radians(turn))
    at = [(i.x, i.y) for i in given]
    if turn:
        at = [(x * c + y * s, y * c - x * s) for x, y in at]
    place = f' text-anchor="{anchor}"' if anchor != "start" else ""
    turned = f"rotate({short_number(turn)})" if turn else ""
    style = f'{svg_class(tone)} font-size="{short_number(size)}"{place}'
    inner = [f">{text(i.text)}</text>" for i in given]
    return linked_shape(
        _group("text", style, turned, [(tenth_mm(x), tenth_mm(y)) for x, y in at], inner), link, on
    )


def box_run(given: list[Item], on: SvgPage) -> list[str]:
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
    return svg_class("line", i.tone, wire_class(i.colour))


def _in_styles(words: list[Words]) -> Iterable[list[Words]]:
    """Words of one style together, styles in the order in which they come first."""
    found: dict[tuple[str, str, float, float, str], list[Words]] = {}
    for i in words:
        found.setdefault(_style(i), []).append(i)
    return found.values()


def label_run(items: list[Item], on: SvgPage) -> str:
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
