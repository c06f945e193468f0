"""What a drawing comes to is bounded, whatever its elements refer to.

The count is held against one that really draws: every reference is written out, element by element,
as SVG 2 says of `use` (section 5.6), patterns and gradients (14), markers (13.7), clip paths and
masks (CSS Masking 1).
"""

import random
import re
from collections.abc import Callable
from xml.etree import ElementTree

import pytest

from builder.render.pictures.bad_picture import BadPicture
from builder.render.pictures.drawing_files import clean_drawing

SVG = "{http://www.w3.org/2000/svg}"
SHAPES = ("path", "rect", "line")


def _drawing(inside: str) -> bytes:
    return f'<svg xmlns="http://www.w3.org/2000/svg">\n{inside}</svg>'.encode()


def _written_out(content: bytes) -> int:
    """How many elements there are once every reference is written out, by really walking through
    all of it.
    """
    root = ElementTree.fromstring(content)
    named = {e.get("id"): e for e in root.iter() if e.get("id")}

    def draw(e: ElementTree.Element, inherited: tuple[tuple[str, str], ...]) -> int:
        mine = inherited
        number = 1
        for key, value in e.attrib.items():
            target = re.fullmatch(r"url\(#([\w-]+)\)", value)
            if target and key in ("clip-path", "mask"):
                number += draw(named[target[1]], ())
            elif target:
                mine = (*mine, (key, target[1]))
        if e.tag.removeprefix(SVG) in SHAPES:
            corners = len(re.findall(r"[ML]", e.get("d", "")))
            for key, name in mine:
                number += (corners if key.startswith("marker") else 1) * draw(named[name], ())
        for inner in e:
            number += draw(inner, mine)
        if e.get("href"):
            number += draw(named[e.get("href", "")[1:]], mine if e.tag == f"{SVG}use" else ())
        return number

    return draw(root, ())


ROW = "<rect/>" * 9


def _uses(n: int) -> str:
    return f'<g id="a">{ROW}</g>' + '<use href="#a"/>' * n


def _filled(n: int) -> str:
    return f'<pattern id="a">{ROW}</pattern><g fill="url(#a)">{"<rect/>" * n}</g>'


def _filled_by_use(n: int) -> str:
    return (
        f'<pattern id="a">{ROW}</pattern><g id="b">{"<rect/>" * n}</g><use href="#b"'
        ' fill="url(#a)"/>'
    )


def _clipped(n: int) -> str:
    return f'<clipPath id="a">{ROW}</clipPath>' + '<rect clip-path="url(#a)"/>' * n


def _masked(n: int) -> str:
    return f'<mask id="a">{ROW}</mask>' + '<rect style="mask:url(#a)"/>' * n


def _nested(n: int) -> str:
    inner = '<use href="#a"/>' * 9
    return f'<g id="a">{ROW}</g><symbol id="b">{inner}</symbol>' + '<use href="#b"/>' * n


KINDS: dict[str, tuple[Callable[[int], str], Callable[[int], int]]] = {
    "use": (_uses, lambda n: 1 + 10 + n * 11),
    "pattern": (_filled, lambda n: 1 + 10 + 1 + n * 11),
    "pattern inherited through use": (
        _filled_by_use,
        lambda n: 1 + 10 + (1 + n) + 1 + (1 + n) + n * 10,
    ),
    "clip path": (_clipped, lambda n: 1 + 10 + n * 11),
    "mask": (_masked, lambda n: 1 + 10 + n * 11),
    "use of use": (_nested, lambda n: 1 + 10 + (1 + 9 * 11) + n * (1 + 1 + 9 * 11)),
}


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_drawn_again_is_counted(kind: str) -> None:
    make, number = KINDS[kind]
    content = _drawing(make(30))
    if kind != "mask":  # the walker reads no declarations
        assert _written_out(content) == number(30)
    assert clean_drawing(content, 5_000, number(30))
    with pytest.raises(BadPicture, match="draws over") as caught:
        clean_drawing(content, 5_000, number(30) - 1)
    assert caught.value.place is not None


def test_markers_are_drawn_at_each_corner() -> None:
    """At most one a number of the outline: a corner has one coordinate at least (SVG 2, 9.3.4)."""
    content = _drawing(
        f'<marker id="a">{ROW}</marker><path marker-mid="url(#a)" d="{"M1 1" + "L2 2" * 99}"/>'
    )
    written = _written_out(content)
    assert written == 1 + 10 + 1 + 100 * 10
    with pytest.raises(BadPicture, match="draws over"):
        clean_drawing(content, 5_000, written - 1)
    assert clean_drawing(content, 5_000, 2 * written)


def test_never_less_is_counted_than_is_drawn() -> None:
    for seed in range(300):
        chance = random.Random(seed)
        pieces = ["<rect/>", "<path d='M1 1L2 2'/>"]
        inside = ""
        for level in range(3):
            body = "".join(chance.choice(pieces) for _ in range(chance.randint(1, 5)))
            tag = chance.choice(["g", "symbol", "pattern", "marker", "clipPath", "mask"])
            inside += f'<{tag} id="l{level}">{body}</{tag}>'
            key = chance.choice(["fill", "stroke", "marker-end", "clip-path", "mask"])
            pieces = [
                f'<use href="#l{level}"/>',
                f'<g {key}="url(#l{level})"><path d="M1 1L2 2"/><rect/></g>',
                "<rect/>",
            ]
        content = _drawing(inside + "".join(chance.choice(pieces) for _ in range(3)))
        with pytest.raises(BadPicture):
            clean_drawing(content, 5_000, _written_out(content) - 1)


def test_a_billion_shapes_in_two_kilobytes_are_refused_at_their_line() -> None:
    rows = ['<g id="a0"><rect/></g>']
    for n in range(1, 10):
        rows.append(f'<g id="a{n}">' + f'<use href="#a{n - 1}"/>' * 10 + "</g>")
    content = _drawing("\n".join(rows))
    assert len(content) < 2500
    with pytest.raises(BadPicture, match="3 times in a row") as caught:
        clean_drawing(content)
    assert caught.value.place is not None
    line, column = caught.value.place
    assert caught.value.at == f", line {line}, column {column},"
    assert content.decode().splitlines()[line - 1][column - 1] == "<"


def _row_of(n: int) -> str:
    return '<g id="a0"><rect/></g>' + "".join(
        f'<g id="a{i}"><use href="#a{i - 1}"/></g>' for i in range(1, n + 1)
    )


def test_three_references_in_a_row_are_taken_and_four_are_not() -> None:
    assert clean_drawing(_drawing(_row_of(3)))
    for n in (4, 1500):
        with pytest.raises(BadPicture, match="3 times in a row"):
            clean_drawing(_drawing(_row_of(n)))


@pytest.mark.parametrize(
    "inside",
    [
        '<g id="a"><use href="#a"/></g>',
        '<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>',
        '<pattern id="a"><rect fill="url(#a)"/></pattern>',
        '<mask id="a" mask="url(#a)"/>',
        '<linearGradient id="a" href="#b"/><linearGradient id="b" href="#a"/>',
        '<marker id="a"><path style="marker-end: url(#a)"/></marker>',
    ],
)
def test_a_circle_is_refused(inside: str) -> None:
    with pytest.raises(BadPicture, match="circle"):
        clean_drawing(_drawing(inside))


@pytest.mark.parametrize(
    ("fine", "not_fine", "words"),
    [
        ('<rect width="10000000"/>', '<rect width="10000001"/>', "number over"),
        ('<path d="M0 0h1e7"/>', '<path d="M0 0h1e8"/>', "number over"),
        ('<rect stroke-width="1e3"/>', '<rect style="stroke-width:1e99"/>', "number over"),
        ('<text textLength="1e6"/>', '<text textLength="1e9"/>', "number over"),
        ('<g transform="scale(1e6)"/>', '<g transform="scale(1e9)"/>', "number over"),
        (
            '<path d="M0 0h2000" stroke-dasharray="1"/>',
            '<path d="M0 0h2000" stroke-dasharray="0.9"/>',
            "dashes are finer",
        ),
        (
            '<g style="stroke-dasharray:1 1"><path d="M0 0h2000"/></g>',
            f'<g style="stroke-dasharray:{"0.5 " * 400}"><path d="M0 0h2000"/></g>',
            "dashes are finer",
        ),
    ],
)
def test_numbers_that_no_drawing_needs_are_refused(fine: str, not_fine: str, words: str) -> None:
    assert clean_drawing(_drawing(fine))
    with pytest.raises(BadPicture, match=words):
        clean_drawing(_drawing(not_fine))


@pytest.mark.parametrize("tag", ["path d", "polyline points"])
def test_a_long_outline_drawn_again_and_again_counts_by_its_length(tag: str) -> None:
    outline = f'<{tag}="{"1 1 " * 50_000}" id="a"/>'  # 200 kB: as much as a thousand elements
    assert clean_drawing(_drawing(outline + '<use href="#a"/>' * 10))
    with pytest.raises(BadPicture, match="draws over"):
        clean_drawing(_drawing(outline + '<use href="#a"/>' * 20))


@pytest.mark.parametrize(
    "what", ["<filter/>", "<animate/>", "<set/>", "<foreignObject/>", "<image/>", "<script/>"]
)
def test_what_no_drawing_here_needs_is_refused_at_its_place(what: str) -> None:
    with pytest.raises(BadPicture) as caught:
        clean_drawing(_drawing(f"<g>\n  {what}</g>"))
    assert caught.value.place == (3, 3)


def test_the_effects_of_a_filter_are_not_published() -> None:
    assert b"filter" not in clean_drawing(
        _drawing('<rect filter="url(#a)" style="filter:blur(9px)"/>')
    )


def test_a_reference_with_escapes_or_blanks_is_refused() -> None:
    """A browser resolves both to the element (WHATWG URL: blanks are stripped, fragments decoded):
    laughs uncounted.
    """
    for name in ("%61", "a%20", " a", "a ", "a&#10;", "a&#9;"):
        reached = "".join(f'<g id="{"a" * n}"><use href="#{name}"/></g>' for n in range(1, 9))
        with pytest.raises(BadPicture, match="blanks or percent signs"):
            clean_drawing(_drawing(reached))


@pytest.mark.parametrize("both", ['xlink:href="#a" href="#b"', 'href="#b" xlink:href="#a"'])
def test_of_an_old_and_a_new_reference_one_is_written(both: str) -> None:
    """Drawing programs write both; SVG 2 (16.1.6) takes the new one. An attribute twice is no XML
    at all.
    """
    used = f'<g id="a"/><g id="b"/><use xmlns:xlink="http://www.w3.org/1999/xlink" {both}/>'
    (use,) = ElementTree.fromstring(clean_drawing(_drawing(used))).iter(f"{SVG}use")
    assert use.attrib == {"href": "#b"}


def test_the_reference_that_does_not_hold_fetches_nothing_either() -> None:
    used = (
        '<use xmlns:xlink="http://www.w3.org/1999/xlink" xlink:href="https://other.example/a.svg#a"'
        ' href="#a"/>'
    )
    with pytest.raises(BadPicture, match="another file"):
        clean_drawing(_drawing(used))


@pytest.mark.parametrize(
    "root", ['<x xmlns="urn:x"/>', '<metadata xmlns="http://www.w3.org/2000/svg"/>']
)
def test_a_file_of_notes_alone_is_no_drawing(root: str) -> None:
    with pytest.raises(BadPicture, match="no drawing"):
        clean_drawing(root.encode())
