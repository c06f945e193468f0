"""A chapter becomes a page: its headings, its numbers as everywhere, its links, its pictures."""

import re
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass, replace
from html.parser import HTMLParser

from builder.compute.figures.figure import Figure
from builder.model.guide.read_guide import read_guide
from builder.pages.blocks import Number, Step, Steps, Table
from builder.pages.chapter_figure import chapter_figure
from builder.pages.guide.guide_page import guide_pages
from builder.pages.guide.known_words import mistakes_of_words
from builder.pages.guide.reading_time import minutes_to_read
from builder.pages.sheet_input import SheetInput
from builder.pages.site.build_page import sheet_pages
from builder.pages.site.source_given import SourceGiven, private_in_source
from builder.rules.data._guide_names import private_lines

Html = Callable[[dict[str, str]], dict[str, str]]
ADDRESS = "pipit/guide/first/index.html"


class _Outline(HTMLParser):
    """Headings and links of a page, in order."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.headings: list[int] = []
        self.links: list[str] = []
        self.tags: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        if re.fullmatch("h[1-6]", tag):
            self.headings.append(int(tag[1]))
        self.links += [value or "" for name, value in attrs if name == "href"]


def test_headings_are_of_the_right_level_under_the_title_of_the_page(published: Html) -> None:
    text = "# First\n\nWords.\n\n## One\n\n### Within\n\na\n\n#### Deeper\n\nb\n\n## Two\n\nc\n"
    assert _Outline(published({"first.md": text})[ADDRESS]).headings == [1, 2, 3, 4, 2]


def test_a_chapter_leads_to_what_it_names(published: Html) -> None:
    text = (
        "# First\n\n[a](step:dry-fit) [b](<step:dry fit>) [c](part:motor) [d](02-next.md#at-here)"
        " [e](https://shop.example/x) [f](#at-own)\n\n## Own\n\nz\n"
    )
    pages = published({"01-first.md": text, "02-next.md": "# Next\n\n## Here\n\nx\n"})
    links = _Outline(pages[ADDRESS]).links
    for end in (
        "pipit/work/index.html#step-dry-fit",
        "parts/motor-1103/index.html",
        "pipit/guide/next/index.html#at-here",
        "https://shop.example/x",
        "pipit/guide/first/index.html#at-own",
    ):
        assert any(link.endswith(end) for link in links), end
    assert sum(link.endswith("#step-dry-fit") for link in links) == 2


def test_chapters_lead_to_the_ones_beside_them_in_the_order_of_their_files(published: Html) -> None:
    named = {f"{n}-{name}.md": f"# {name}\n\nx\n" for n, name in enumerate("cab", 1)}
    pages = published(named)
    contents = _Outline(pages["pipit/guide/index.html"]).links
    chapters = [link.split("/")[-2] for link in contents if re.search(r"/guide/[a-c]/", link)]
    assert chapters == ["c", "a", "b"]
    middle = pages["pipit/guide/a/index.html"]
    assert "rel=prev" in middle and "rel=next" in middle
    assert "rel=prev" not in pages["pipit/guide/c/index.html"]
    assert "rel=next" not in pages["pipit/guide/b/index.html"]


def _numbers(block: object) -> Iterator[Number]:
    if isinstance(block, Number):
        yield block
    elif isinstance(block, tuple | list):
        for inner in block:
            yield from _numbers(inner)
    elif is_dataclass(block):
        for field in fields(block):
            yield from _numbers(getattr(block, field.name))


def test_a_figure_in_a_sentence_is_one_that_the_pages_print(pipit: SheetInput) -> None:
    """Every figure that a page of the build prints: value and unit of the chapter are among those."""
    printed: dict[str, set[tuple[str, str, str]]] = {}
    for page in sheet_pages(pipit):
        for number in _numbers(page.sections):
            shown = (number.prefix, number.value, number.unit)
            printed.setdefault(number.anchor, set()).add(shown)
    others = {}
    for figure in pipit.figures:
        mine = chapter_figure(figure)
        there = printed.get(mine.anchor)
        if there and (mine.prefix, mine.value, mine.unit) not in there:
            others[figure.key] = (mine.prefix, mine.value, mine.unit, sorted(there))
    assert len(printed) > 150
    assert {key: v for key, v in others.items() if not _only_in_digits(v)} == {}


def _only_in_digits(found: tuple[str, str, str, list[tuple[str, str, str]]]) -> bool:
    """A table may show a digit more or less, so that its rows add up: both are right roundings."""
    prefix, value, unit, there = found
    mine = float(value.replace("\u2212", "-"))
    for before, text, its_unit in there:
        if before != prefix or its_unit not in (unit, ""):  # a column says the unit once
            continue
        places = min(len(text.partition(".")[2]), len(value.partition(".")[2]))
        if abs(float(text.replace("\u2212", "-")) - mine) <= 0.51 * 10.0**-places:
            return True
    return False


def test_a_number_stays_true_when_the_build_changes(pipit: SheetInput, published: Html) -> None:
    text = published({"first.md": "# First\n\n{figure:mass/dry} and {figure:pipit/mass/dry}\n"})
    dry = chapter_figure(pipit.results.mass.dry)
    assert isinstance(pipit.results.mass.dry, Figure)
    assert text[ADDRESS].count(f">{dry.value}<i> {dry.unit}</i></a>".replace(" ", "\u00a0")) == 2
    assert "../../numbers/index.html#" in text[ADDRESS]


def test_a_picture_is_a_figure_with_words_and_lazy(published: Html) -> None:
    text = published({"first.md": '# First\n\n![Two pads](pads.svg "Seen from above")\n'})[ADDRESS]
    image = next(tag for tag in re.findall("<img[^>]*>", text))
    assert 'alt="Two pads"' in image and "loading=lazy" in image
    assert "pipit/guide/pads.svg" in image and "<figcaption>Seen from above" in text


def _with(pipit: SheetInput, text: str) -> SheetInput:
    chapters, wrong = read_guide("pipit", [("pipit/guide/first.md", text)])
    assert wrong == ()
    return replace(pipit, guide=chapters)


def test_steps_and_parts_lead_back_to_the_chapter(pipit: SheetInput) -> None:
    sheet = _with(
        pipit, "# First\n\n[a](step:dry-fit)\n\n## B\n\n[b](part:motor) [c](part:short)\n"
    )
    pages = {page.address: page for page in sheet_pages(sheet)}
    steps = [
        item
        for block in _blocks(pages["pipit/work/index.html"].sections)
        if isinstance(block, Steps)
        for item in block.items
        if isinstance(item, Step)
    ]
    dry = next(s for s in steps if s.anchor == "step-dry-fit")
    ways = [pieces for name, pieces in dry.facts if name == "Guide"]
    assert [[getattr(p, "link", "") for p in pieces] for pieces in ways] == [[ADDRESS]]
    parts = next(
        b
        for b in _blocks(pages["pipit/parts/index.html"].sections)
        if isinstance(b, Table) and b.anchor == "parts-table"
    )
    back = [row for row in parts.rows if f"{ADDRESS}#at-b" in repr(row)]
    assert {getattr(row.cells[1].pieces[0], "text", "") for row in back} == {"motor", "short"}
    assert ADDRESS in repr(pages["pipit/index.html"])


def _blocks(sections: object) -> Iterator[object]:
    for section in sections:  # type: ignore[attr-defined]
        yield section
        yield from _blocks(getattr(section, "blocks", ()))


def test_names_that_nobody_knows_are_said_with_their_place(pipit: SheetInput) -> None:
    text = "# First\n\nIt weighs {figure:mass/drey}.\n\n[x](step:dry-fat) [y](part:moter)\n"
    found = mistakes_of_words(_with(pipit, text))
    assert [(f.code, f.where.path, f.where.offset) for f in found if f.where] == [
        ("data/guide-name", (2, 17), 10),
        ("data/guide-name", (4, 12), 4),
        ("data/guide-name", (4, 10), 22),
    ]
    for finding, near in zip(found, ("mass/dry", "dry-fit", "motor"), strict=True):
        assert repr(near) in finding.hint
    other = mistakes_of_words(_with(pipit, "# First\n\n[x](#at-nowhere)\n"))
    assert "no heading 'at-nowhere'" in other[0].message


def test_a_chapter_names_no_secret() -> None:
    found = private_lines("b", "b/guide/a.md", "# First\n\nfine\n\nbind phrase: otters at dusk\n")
    assert [(f.code, f.where.path[0]) for f in found if f.where] == [("data/guide-private", 4)]


def test_bytes_of_a_photograph_are_not_read_as_words() -> None:
    """Forty photographs hold 'pin 1234' somewhere: a source was kept back for it."""
    for name, found in (("b/a.jpg", ""), ("b/a.svg", "a password")):
        given = SourceGiven("b", {}, {name: b"\xff\xd8 pin 1234 \x00"}, {})
        assert private_in_source(given) == found


def test_time_to_read_counts_words_and_pictures() -> None:
    """180 words a minute and 12 s a picture: 890 words, a title and five pictures with a word are six minutes."""
    words, pictures = "word " * 890, "\n\n![a](a.svg)" * 5
    (chapter,), _ = read_guide("b", [("b/guide/a.md", f"# T\n\n{words}{pictures}\n")])
    assert minutes_to_read([chapter]) == 6


def test_a_build_without_chapters_has_no_guide(pipit: SheetInput) -> None:
    assert guide_pages(pipit) == ()
    assert not any("guide" in page.address for page in sheet_pages(pipit))
    assert not any(span.text == "Guide" for page in sheet_pages(pipit) for span in page.pages)
