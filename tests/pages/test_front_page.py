"""The front page shows each build with its picture, figures and state, and stays light."""

import re
from dataclasses import replace

import pytest

from builder.compute.compute import compute
from builder.pages.blocks import Cell, Row, Span, Table, Thumbnail
from builder.pages.drawing import Circle, Line
from builder.pages.site.all_builds import all_builds_page, front_page
from builder.pages.site.picture_files import narrowest
from builder.pages.site.site_pages import site_pages
from builder.pages.summaries.summarise import summarise
from builder.pages.summaries.summary import Summary
from builder.pipeline.check import Checked
from builder.render.html.page import Renderer, template_folder, template_texts

WITHOUT = ("dipper-light", "turnstone")  # builds without a picture of their own
MOST = 32_000  # bytes of the front page of six builds
MOST_A_BUILD = 900  # bytes that the picture of a build adds


@pytest.fixture(scope="module")
def summaries(demo: Checked) -> list[Summary]:
    return [summarise(sheet) for sheet in demo.sheets.values()]


@pytest.fixture(scope="module")
def drawn(demo: Checked) -> list[Summary]:
    """The same builds as if none had a picture of its own."""
    out = []
    for sheet in demo.sheets.values():
        source = sheet.build.source.model_copy(update={"hero": None})
        build = replace(sheet.build, source=source)
        out.append(summarise(replace(sheet, build=build)))
    return out


def _rows(demo: Checked, summaries: list[Summary]) -> dict[str, Row]:
    page = front_page(summaries, site_pages(demo.workspace.site))
    (table,) = [b for s in page.sections for b in s.blocks if isinstance(b, Table)]
    return {row.anchor.removeprefix("build-"): row for row in table.rows}


def _html(demo: Checked, summaries: list[Summary]) -> str:
    site = site_pages(demo.workspace.site)
    made = Renderer(template_texts(None)).page(front_page(summaries, site), site)
    return made.decode()


def _shown(cell: Cell) -> Thumbnail:
    (piece,) = cell.pieces
    assert isinstance(piece, Thumbnail)
    return piece


def test_each_build_has_its_picture_its_state_and_its_figures(
    demo: Checked, summaries: list[Summary]
) -> None:
    rows, html = _rows(demo, summaries), _html(demo, summaries)
    assert set(rows) == set(demo.sheets) and len(rows) == 6
    for name, row in rows.items():
        status = Cell((Span(demo.sheets[name].build.source.status),))
        assert row.cells[2] == status
        hero, shown = demo.sheets[name].build.source.hero, _shown(row.cells[1])
        assert (hero is None) == (shown.drawing is not None) == (name in WITHOUT)
        if hero is None:
            continue
        assert (shown.address, shown.text) == (f"{name}/{hero.file}", hero.alt)
        tag = re.search(rf'<img[^>]*src="?{name}/{hero.file}[^>]*>', html)
        assert tag is not None
        for said in ("width=96", "height=96", "loading=lazy", 'alt="'):
            assert said in tag[0]
    assert len(html.encode()) <= MOST


def test_a_photograph_is_shown_in_its_narrowest_width(demo: Checked) -> None:
    sheet = demo.sheets["dipper"]
    hero = sheet.build.source.hero
    assert hero is not None
    address = f"dipper/{hero.file}"
    found = summarise(sheet, narrowest({address: (1600, 1200), "dipper/other.jpg": (300, 200)}))
    assert found.picture == (f"dipper/widths/{hero.file}-480.webp", hero.alt)
    assert narrowest({"dipper/a.jpg": (300, 200)}) == {
        "dipper/a.jpg": "dipper/widths/a.jpg-300.webp"
    }


def _corner(right: float, down: float) -> tuple[str, ...]:
    """The words of a spot, as far right and down of the middle; one beside it is neither front nor
    rear.
    """
    along = {-1: "front", 0: "", 1: "rear"}[round(down / max(abs(down), abs(right)))]
    across = {-1: "left", 0: "", 1: "right"}[round(right / max(abs(down), abs(right)))]
    return tuple(filter(None, (along, across)))


def test_without_one_its_rotors_are_drawn_where_they_are(
    demo: Checked, drawn: list[Summary], summaries: list[Summary]
) -> None:
    rows = _rows(demo, drawn)
    for name, sheet in demo.sheets.items():
        drawing = _shown(rows[name].cells[1]).drawing
        assert drawing is not None and sheet.build.title in drawing.alt
        circles = [i for i in drawing.items if isinstance(i, Circle)]
        motors = compute(sheet.build).settings.motors
        assert len(circles) == len(motors) == len({(c.x, c.y) for c in circles})
        middle = (drawing.width / 2, drawing.height / 2)
        corners = {_corner(c.x - middle[0], c.y - middle[1]) for c in circles}
        assert corners == {tuple(m.corner.split()) for m in motors}
        for c in circles:
            assert c.radius <= min(c.x, c.y, drawing.width - c.x, drawing.height - c.y)
        nose = [i for i in drawing.items if isinstance(i, Line) and i.tone == "accent"]
        tip = min(nose[0].points, key=lambda p: p[1])
        assert tip[0] == middle[0] and tip[1] < middle[1], "it points to the nose, which is up"
    more = len(_html(demo, drawn).encode()) - len(_html(demo, summaries).encode())
    assert more <= MOST_A_BUILD * len(rows)


def test_a_build_of_which_nothing_is_known_has_an_empty_cell(
    demo: Checked, summaries: list[Summary]
) -> None:
    bare = [replace(s, picture=(), rotors=()) for s in summaries]
    assert all(row.cells[1] == Cell(()) for row in _rows(demo, bare).values())
    assert "class=small" not in _html(demo, bare)


def test_what_is_kept_is_read_as_it_was(summaries: list[Summary], drawn: list[Summary]) -> None:
    for summary in (*summaries, *drawn):
        assert Summary.from_plain(summary.as_plain()) == summary
        older = summary.as_plain()
        del older["picture"], older["rotors"]
        assert Summary.from_plain(older) == replace(summary, picture=(), rotors=())


def test_nothing_is_sorted_by_pictures(demo: Checked, summaries: list[Summary]) -> None:
    """A column without a heading gets no button: one without words could not be read out."""
    script = (template_folder() / "static" / "tables.js").read_text("utf-8")
    assert script.index("if (!head.firstChild) { return; }") < script.index(
        'createElement("button")'
    )
    head = _html(demo, summaries).partition("<thead>")[2].partition("<tbody>")[0]
    assert head.count("<td></td>") == 1 and head.count("<th") == 7


def test_each_row_of_the_table_over_all_builds_has_its_picture_too(
    demo: Checked, summaries: list[Summary], drawn: list[Summary]
) -> None:
    site = site_pages(demo.workspace.site)
    for given in (summaries, drawn):
        page = all_builds_page(given, (), site)
        (table,) = [b for s in page.sections for b in s.blocks if isinstance(b, Table)]
        assert len(table.rows) == sum(len(s.packs) for s in given) > len(given)
        for row in table.rows:
            picture, name = row.cells[0].pieces
            assert isinstance(picture, Thumbnail) and isinstance(name, Span) and name.link
            assert bool(picture.address) != (picture.drawing is not None)
        html = Renderer(template_texts(None)).page(page, site).decode()
        ids = re.findall(r"id=\"?(d-[^\s\">]+)", html)
        assert len(ids) == len(set(ids))
        pictures = [i for i in ids if "-small-" in i]
        assert len(pictures) == sum(len(s.packs) for s in given if not s.picture)
        assert len(html) < MOST
