"""Pictures that a builder lists are seen: all on the page of parts, the first on the sheet."""

from dataclasses import replace

from builder.model.source.build_source import Photo
from builder.pages.blocks import Picture
from builder.pages.brief.picked import blocks_in
from builder.pages.page_map import PARTS
from builder.pages.sections.photographs import photographs
from builder.pages.sheet_input import SheetInput
from builder.pages.site.build_page import build_page, topic_page
from builder.pipeline.check import Checked


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
