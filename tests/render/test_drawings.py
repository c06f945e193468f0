"""Drawings as SVG 1.1: well-formed, without style, the same every time, links only where they are
harmless.
"""

from collections.abc import Callable
from xml.etree import ElementTree

from builder.pages.drawing import Drawing, Line, Rectangle, Words
from builder.render.html.svg import svg

SVG = "{http://www.w3.org/2000/svg}"
ALLOWED = {"svg", "g", "rect", "circle", "path", "text", "title", "a"}


def test_drawings_are_well_formed_and_need_no_style(
    drawing_of: Callable[[str, str], Drawing], payload: str
) -> None:
    tree = ElementTree.fromstring(str(svg(drawing_of("a", payload))))
    assert {e.tag.removeprefix(SVG) for e in tree.iter()} <= ALLOWED
    for element in tree.iter():
        assert not [a for a in element.attrib if a == "style" or a.startswith("on")]
    assert payload in "".join(tree.itertext())


def test_a_drawing_says_what_it_shows_and_has_its_own_id(
    drawing_of: Callable[[str, str], Drawing],
) -> None:
    first, second = (
        ElementTree.fromstring(str(svg(drawing_of(n, "")))) for n in ("left board", "right")
    )
    assert first.get("aria-label", "").startswith("A board seen from above")
    assert first.get("id") != second.get("id")


def test_a_drawing_with_links_is_a_group_because_an_image_hides_what_is_inside() -> None:
    plain = Drawing("a", 10, 10, (Rectangle(0, 0, 1, 1),), "Plain.")
    linked = Drawing("a", 10, 10, (Rectangle(0, 0, 1, 1, link="#x", title="that"),), "Linked.")
    assert ElementTree.fromstring(str(svg(plain))).get("role") == "img"
    tree = ElementTree.fromstring(str(svg(linked)))
    assert tree.get("role") == "group"
    assert [a.get("aria-label") for a in tree.iter(SVG + "a")] == ["that"]


def test_links_that_run_are_left_out() -> None:
    drawing = Drawing("a", 10, 10, (Words(0, 0, "x", link="javascript:alert(1)"),), "Text.")
    assert not list(ElementTree.fromstring(str(svg(drawing))).iter(SVG + "a"))


def test_a_coloured_wire_has_an_edge_so_that_it_shows_on_any_ground() -> None:
    drawing = Drawing(
        "a",
        10,
        10,
        (Line(((0, 0), (5, 5)), colour="white", width=1.0), Line(((0, 0), (1, 1)))),
        "Wires.",
    )
    lines = list(ElementTree.fromstring(str(svg(drawing))).iter(SVG + "path"))
    assert [line.get("class") for line in lines] == ["casing", "line w-white", "line"]
    assert float(lines[0].get("stroke-width", "0")) > float(lines[1].get("stroke-width", "0"))


def test_numbers_are_short_and_never_minus_zero() -> None:
    drawing = Drawing("a", 10, 10, (Line(((-0.0001, 1 / 3), (2.0, 10.5))),), "Line.")
    assert 'd="M0 0.3L2 10.5"' in str(svg(drawing))


def test_paper_size_is_the_true_size() -> None:
    tree = ElementTree.fromstring(str(svg(Drawing("a", 90, 42.5, (), "Empty."), scale="mm")))
    assert (tree.get("width"), tree.get("height"), tree.get("viewBox")) == (
        "90mm",
        "42.5mm",
        "0 0 90 42.5",
    )
