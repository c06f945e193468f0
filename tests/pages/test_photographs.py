"""Pictures that a builder lists are seen: all on the page of parts, the first on the sheet."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Browser
from pydantic import ValidationError

from builder.model.source.build_along import Photo
from builder.pages.bench.at_bench_page import at_bench_page
from builder.pages.bench.screens import screens_of
from builder.pages.blocks import Picture, Section
from builder.pages.brief.picked import blocks_in
from builder.pages.page_map import PARTS, WORK
from builder.pages.sections.photographs import photographs
from builder.pages.sheet_input import SheetInput
from builder.pages.site.build_page import build_page, topic_page
from builder.pages.site.picture_files import sized_picture
from builder.pages.site.site_pages import site_pages
from builder.pages.site.source_given import SourceGiven
from builder.pipeline.check import Checked
from builder.render.html.page import Renderer, template_texts
from tests.pages.views.drawn import lay_out_assets


def _with_photos(sheet: SheetInput, *photos: Photo) -> SheetInput:
    source = sheet.build.source.model_copy(update={"photos": photos})
    return replace(sheet, build=replace(sheet.build, source=source))


PHOTOS = (
    Photo(file="one.jpg", alt="The nose."),
    Photo(file="two.jpg", alt="The tail.", side="rear", caption="After the first flight."),
)


def test_each_picture_has_its_words_and_its_place(demo: Checked) -> None:
    sheet = _with_photos(demo.sheets["pipit"], *PHOTOS)
    page = topic_page(sheet, PARTS)
    section = next(s for s in page.sections if s.anchor == "photographs")
    assert [(p.address, p.alt, p.caption) for p in section.blocks if isinstance(p, Picture)] == [
        ("pipit/one.jpg", "The nose.", ""),
        ("pipit/two.jpg", "The tail.", "After the first flight. Side: rear."),
    ]
    brief = next(s for s in build_page(sheet).sections if s.anchor == "brief-photographs")
    shown = [b.address for b in blocks_in(brief) if isinstance(b, Picture)]
    assert shown == ["pipit/one.jpg"]


def test_a_build_without_pictures_has_no_such_section(demo: Checked) -> None:
    sheet = _with_photos(demo.sheets["pipit"])
    assert photographs(sheet).blocks == ()
    assert "photographs" not in {s.anchor for s in topic_page(sheet, PARTS).sections}
    assert "brief-photographs" not in {s.anchor for s in build_page(sheet).sections}


def _gates(blocks: Iterable[object]) -> Iterator[Section]:
    for one in blocks:
        if isinstance(one, Section) and one.anchor in ("gate-a", "gate-b", "gate-c"):
            yield one
        elif isinstance(one, Section):
            yield from _gates(one.blocks)


def test_what_was_taken_at_a_gate_stands_at_that_gate_alone(demo: Checked) -> None:
    """On the page of the work and at the bench, and it changes no words that a tick hangs on."""
    plain = demo.sheets["pipit"]
    sheet = _with_photos(plain, Photo(file="b.jpg", alt="The rails.", step="gate B"), *PHOTOS)
    for page in (topic_page(sheet, WORK), at_bench_page(sheet)):
        shown = {
            s.anchor: [b.address for b in blocks_in(s) if isinstance(b, Picture)]
            for s in _gates(page.sections)
        }
        assert shown == {"gate-a": [], "gate-b": ["pipit/b.jpg"], "gate-c": []}
    assert [s.wording for s in screens_of(sheet).screens] == [
        s.wording for s in screens_of(plain).screens
    ]


_PLACES = """() => { const p = document.querySelector('.marked img').getBoundingClientRect();
  const box = e => { const b = e.getBoundingClientRect(); return [b.left, b.right, b.top, b.bottom]; };
  return {picture: [p.left, p.right, p.top, p.bottom],
    points: [...document.querySelectorAll('.callouts circle')].map(box),
    words: [...document.querySelectorAll('.callouts text')].map(box),
    wide: document.documentElement.scrollWidth, screen: innerWidth}; }"""
MARKS = ("41 %, 63 %", "20%, 20%", "70 %, 30 %")


@pytest.mark.parametrize("width", [390, 1280])
def test_marks_lie_on_their_points_and_words_at_the_margin(
    browser: Browser, tmp_path: Path, demo: Checked, width: int
) -> None:
    words = ("pigtail leaves below the arm", "soft mount", "camera cable goes round the post")
    marks = [{"at": at, "text": said} for at, said in zip(MARKS, words, strict=True)]
    photo = Photo.model_validate({"file": "one.png", "alt": "The stack.", "marks": marks})
    page_of_parts = topic_page(_with_photos(demo.sheets["pipit"], photo), PARTS)
    made = Renderer(template_texts(None)).page(page_of_parts, site_pages(demo.workspace.site))
    lay_out_assets(tmp_path)
    (tmp_path / "pipit/parts").mkdir(parents=True)
    (tmp_path / "pipit/parts/index.html").write_bytes(made)
    Image.new("RGB", (600, 400), (120, 140, 150)).save(tmp_path / "pipit/one.png")
    page = browser.new_page(viewport={"width": width, "height": 900})
    page.goto((tmp_path / "pipit/parts/index.html").as_uri())
    page.locator(".marked img").scroll_into_view_if_needed()
    page.evaluate("document.querySelector('.marked img').decode()")
    found = page.evaluate(_PLACES)
    left, right, top, bottom = found["picture"]
    read = sorted(
        (
            round(100 * ((a + b) / 2 - left) / (right - left)),
            round(100 * ((c + d) / 2 - top) / (bottom - top)),
        )
        for a, b, c, d in found["points"]
    )
    assert read == [(20, 20), (41, 63), (70, 30)]
    assert found["wide"] <= found["screen"]
    boxes = sorted(found["words"], key=lambda b: float(b[2]))
    for a, b, _, _ in boxes:
        assert right < a < b <= found["screen"]
    for above, below in pairwise(boxes):
        assert above[3] <= below[2] + 1
    page.close()


@pytest.mark.parametrize(
    ("at", "said"),
    [
        ("41 %", "is no place in a picture"),
        ("141 %, 3 %", "lies outside of the picture"),
        ("4 mm, 3 %", "mm"),
    ],
)
def test_a_wrong_place_is_told(at: str, said: str) -> None:
    given = {"file": "one.png", "alt": "The stack.", "marks": [{"at": at, "text": "nut"}]}
    with pytest.raises(ValidationError, match=said):
        Photo.model_validate(given)


def test_more_marks_than_fit_are_told() -> None:
    marks = [{"at": "1 %, 1 %", "text": "nut"}] * 7
    with pytest.raises(ValidationError, match="Here stand 7 marks"):
        Photo.model_validate({"file": "one.png", "alt": "The stack.", "marks": marks})


def test_a_photograph_keeps_its_place_and_a_phone_takes_a_small_file(
    browser: Browser, tmp_path: Path, demo: Checked
) -> None:
    photo = Photo(file="one.jpg", alt="The nose.")
    marked = Photo.model_validate(
        {"file": "two.jpg", "alt": "The tail.", "marks": [{"at": "50 %, 50 %", "text": "here"}]}
    )
    page_of_parts = topic_page(_with_photos(demo.sheets["pipit"], photo, marked), PARTS)
    sizes = {"pipit/one.jpg": (1600, 1200), "pipit/two.jpg": (1200, 1600)}
    made = Renderer(template_texts(None)).page(
        page_of_parts, site_pages(demo.workspace.site), sizes=sizes
    )
    lay_out_assets(tmp_path)
    (tmp_path / "pipit/parts").mkdir(parents=True)
    (tmp_path / "pipit/widths").mkdir()
    (tmp_path / "pipit/parts/index.html").write_bytes(made)
    for address, (width, height) in sizes.items():
        for each in (480, 960, width):
            file = tmp_path / sized_picture(address, each)
            Image.new("RGB", (each, each * height // width), (120, 140, 150)).save(file)
    page = browser.new_page(viewport={"width": 390, "height": 900})
    page.goto((tmp_path / "pipit/parts/index.html").as_uri())
    images = page.locator("#photographs img")
    assert images.count() == 2
    for i, (width, height) in enumerate(sizes.values()):
        image = images.nth(i)
        box = image.bounding_box()  # before it comes: its place is kept
        assert box is not None
        assert abs(box["height"] / box["width"] - height / width) < 0.02
        image.scroll_into_view_if_needed()
        page.wait_for_load_state("networkidle")
        assert image.get_attribute("loading") == "lazy"
    taken = [images.nth(i).evaluate("e => e.currentSrc.split('/').pop()") for i in range(2)]
    assert taken == ["one.jpg-480.webp", "two.jpg-480.webp"]
    page.close()


def _given(pictures: dict[str, bytes], title: str = "A") -> SourceGiven:
    return SourceGiven("a", {"a/build.yaml": {"title": title}}, pictures, {"build": "a"})


def test_bytes_of_a_photograph_are_no_words_that_a_source_gives_away() -> None:
    """In forty megabytes of photographs the words of a password stand by chance; in a drawing, a name
    or a title they are meant.
    """
    words = b"\npassword: otter\n"
    for begins in (b"\xff\xd8\xff\xe0", b"\x89PNG\r\n\x1a\n", b"RIFF\x10\x00\x00\x00WEBP"):
        assert _given({"a/a.jpg": begins + words}).gives_away == ""
    drawn = b"<svg xmlns='http://www.w3.org/2000/svg'><text>" + words + b"</text></svg>"
    assert _given({"a/a.svg": drawn}).gives_away == "a password"
    assert _given({"a/my password: otter.jpg": b"\xff\xd8\xff"}).gives_away == "a password"
    assert _given({}, "My password: otter").gives_away == "a password"
    assert _given({}).gives_away == ""
