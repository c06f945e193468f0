"""The bench sheet measured as it is printed: how many pages, how full each is, whether a gate is
torn, how small its type is, and whether all that keeps people safe is on it.

Pages are read back by PDFium, which had no part in making them. What has to stand on them is listed
from the model (cautions, readings, volts, gates), never from the blocks that print it.
"""

import re
from collections.abc import Callable
from dataclasses import replace

import pypdfium2
import pytest

from builder.compute.order.work_order import Plan
from builder.pages.drawing import Words
from builder.pages.paper.bench_page import bench_page
from builder.pages.paper.bench_sheet import (
    BenchSheet,
    bench_sheet,
    field_card_sheet,
    gates_sheet,
)
from builder.pages.site.site_pages import SitePages, site_pages
from builder.pipeline.check import Checked
from builder.render.html.page import Renderer, template_texts
from builder.render.paper.pdf import bench_sheet_pdf
from builder.rules.cautions import cautions_for
from tests.render.pdf_reading import Sheet, sheets

# What is reached, without pictures: pages, pages under a third full, gates that are whole. The aim is
# 20 pages of dipper on both papers, no thin page, no torn gate. The first two may only get smaller.
REACHED = {
    ("dipper", "A4"): (19, 0, "ABCD"),
    ("dipper", "Letter"): (20, 1, "ABCD"),
    ("pipit", "A4"): (17, 0, "ABC"),
    ("pipit", "Letter"): (18, 0, "ABC"),
}
# Pages from the order of work to the setup: work, gates and boards. The aim is 9 on both papers. On Letter,
# 18 mm shorter, what holds at every gate and gate A do not fit on one page.
WORK = {("dipper", "A4"): 9, ("dipper", "Letter"): 10}
# Points of the smallest label of a drawing that is reached: of a board that is wider than its column. All wires
# have 7 pt.
SMALLEST = {"dipper": 6.4, "pipit": 6.4}
CASES = list(REACHED)
THIRD, FIFTH = 1 / 3, 1 / 5
MOST = 24  # pages of the other demo builds


def _site(demo: Checked, paper: str) -> SitePages:
    return replace(site_pages(demo.workspace.site), paper=paper)


@pytest.fixture(scope="module")
def printed(printed_sheet: Callable[[str, str], bytes]) -> dict[tuple[str, str], bytes]:
    return {case: printed_sheet(*case) for case in CASES}


@pytest.fixture(scope="module")
def read(printed: dict[tuple[str, str], bytes]) -> dict[tuple[str, str], list[Sheet]]:
    return {case: sheets(content) for case, content in printed.items()}


def _plain(words: str) -> str:
    """Words without spaces and hyphenation, which a line's end changes."""
    return re.sub(r"[\s\x02\u00ad\ufffe-]+", "", words)


def _said(words: str, text: str) -> bool:
    """Whether words stand in a text: in one piece, or line by line beside the next column."""
    pieces = [re.escape(_plain(word)) for word in words.split()]
    return _plain(words) in text or bool(re.search(".{0,60}?".join(pieces), text))


def _whole(pages: list[Sheet]) -> str:
    return _plain(" ".join(p.text for p in pages))


@pytest.mark.parametrize("case", CASES)
def test_so_many_pages(read: dict[tuple[str, str], list[Sheet]], case: tuple[str, str]) -> None:
    assert len(read[case]) <= REACHED[case][0]


@pytest.mark.parametrize("case", list(WORK))
def test_so_many_pages_of_work(
    read: dict[tuple[str, str], list[Sheet]], case: tuple[str, str]
) -> None:
    lines = [page.text.splitlines() for page in read[case]]
    first = next(i for i, page in enumerate(lines) if "Order of work" in page)
    after = next(i for i, page in enumerate(lines) if "As built" in page)  # which ends the work
    shared = lines[after][:3].count("As built") == 0  # it begins on the last page of the work
    assert after - first + shared <= WORK[case]


def _fill(content: bytes, page: int) -> float:
    """How far down the ink reaches, within the frame, as a share of the page's height."""
    document = pypdfium2.PdfDocument(content)
    image = document[page].render(scale=0.5).to_pil().convert("L")
    document.close()
    width, height = image.size
    inner = image.crop((width // 8, height // 14, width * 7 // 8, int(height * 0.945)))
    box = inner.point(lambda v: 255 if v < 128 else 0).getbbox()
    return box[3] / inner.size[1] if box else 0.0


@pytest.mark.parametrize("case", CASES)
def test_few_pages_are_under_a_third_full(
    printed: dict[tuple[str, str], bytes],
    read: dict[tuple[str, str], list[Sheet]],
    case: tuple[str, str],
) -> None:
    """But the last of all."""
    fills = [_fill(printed[case], at) for at in range(len(read[case]) - 1)]
    assert sum(fill < THIRD for fill in fills) <= REACHED[case][1]


@pytest.mark.slow  # prints four builds more
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", ["dipper-light", "redshank", "curlew", "turnstone"])
def test_other_builds_fill_their_pages_and_tear_no_gate(
    demo: Checked, printed_sheet: Callable[[str, str], bytes], name: str, paper: str
) -> None:
    """No page is under a third full but the last of a part, and one before a gate that is kept whole
    under a fifth; nor does a gate, or a part of one that goes on below 'continued', end on another
    page than it begins.
    """
    sheet, content = demo.sheets[name], printed_sheet(name, paper)
    pages = [_plain(p.text) for p in sheets(content)]
    assert len(pages) <= MOST
    thin = [at for at in range(len(pages) - 1) if _fill(content, at) < THIRD]
    within = [at for at in thin if not _begins_a_part(pages[at + 1])]
    gates = [at for at in within if _plain("Gate ") in pages[at + 1][:220]]
    assert [at + 1 for at in within if at not in gates or _fill(content, at) < FIFTH] == []
    for gate in sheet.results.gates:
        heading, again = _plain(f"Gate {gate.letter}: "), _plain(f"Gate {gate.letter}, continued")
        first = next(p for p in pages if heading in p)
        (last,) = [p for p in pages if again in p] or [first]
        assert _plain("1. Power off") in first.split(heading, 1)[1]
        after = last.split(again if last is not first else heading, 1)[1]
        assert _plain("Never short plus to minus with a tool") in after
        assert _plain("2. Power on") in after
        if last is not first:  # all readings without power are before it
            ends = [r.between[0] for r in gate.readings][-1]
            assert _plain(ends.removesuffix(", each wire end to end")) in first


def _begins_a_part(page: str) -> bool:
    """Whether a page begins with a part of its own: the wiring, the work, the field card."""
    top = page[:220]
    return any(_plain(h) in top for h in ("All wires", "Order of work", "Before each flight"))


@pytest.mark.parametrize("case", CASES)
def test_a_gate_that_fits_on_a_page_is_on_one(
    demo: Checked, read: dict[tuple[str, str], list[Sheet]], case: tuple[str, str]
) -> None:
    """From its heading to its last lines. One with more readings than a page holds goes on."""
    pages = read[case]
    for gate in demo.sheets[case[0]].results.gates:
        if gate.letter not in REACHED[case][2]:
            continue
        heading = f"Gate {gate.letter}: {gate.title}"
        first = next(i for i, p in enumerate(pages) if _plain(heading) in _plain(p.text))
        after = _plain(pages[first].text).split(_plain(heading), 1)[1]
        ends = _plain("Power off again") in after
        empties = _plain("Never short plus to minus with a tool") in after
        assert (ends, empties) == (True, True), heading


def _labels(made: BenchSheet) -> str:
    """All letters of drawings: they have their own size."""
    found: list[str] = []
    row: list[object] = list(made.page.sections)
    while row:
        block = row.pop()
        items = getattr(getattr(block, "drawing", None), "items", ())
        found += [i.text for i in items if isinstance(i, Words)]
        for name in ("blocks", "first", "second"):
            inner = getattr(block, name, ())
            row += inner if isinstance(inner, tuple) else [inner]
    return "".join(sorted("".join(found).replace(" ", "").replace("\u00a0", "")))


@pytest.mark.parametrize("case", CASES)
def test_text_is_in_eleven_points(
    demo: Checked, read: dict[tuple[str, str], list[Sheet]], case: tuple[str, str]
) -> None:
    """But the labels of drawings: those of boards in 2.5 to 3.2 mm (7 pt and more)."""
    name, paper = case
    made = bench_sheet(demo.sheets[name], _site(demo, paper), "digest")
    small = [(x, size) for page in read[case] for x, size in page.letters if size < 10.9]
    drawn = _labels(made)
    assert len(small) <= len(drawn)
    assert all(size >= SMALLEST[name] for _, size in small if size)


def _where(first: str, second: str) -> list[str]:
    """Where the probes of a reading go. The wires of one part name the board that all of them lead
    to once: `camera to controller, end to end`.
    """
    ends = [pair.partition(" to ") for pair in second.split(", ")]
    boards = {far.rpartition(".")[0] for _, _, far in ends}
    part = first.removesuffix(", each wire end to end")
    if part == first or len(boards) > 1:
        return [first, second]
    pairs = [f"{near} to {far.rpartition('.')[2]}" for near, _, far in ends]
    return [f"{part} to {boards.pop()}, end to end", *pairs]


def _must_say(demo: Checked, name: str) -> list[str]:
    """From the model: cautions, and of each gate its title, readings and volts."""
    sheet = demo.sheets[name]
    words = [w for c in cautions_for(sheet.build) for w in (c.title, c.text)]
    for gate in sheet.results.gates:
        words += [f"Gate {gate.letter}: {gate.title}", gate.connected]
        words += [w for r in gate.readings for w in _where(*r.between)]
        words += [v.contact for v in gate.volts]
    plan = sheet.results.order
    assert isinstance(plan, Plan)
    words += [s.joint.contact.pad for s in plan.steps if s.joint is not None]
    words += [
        "Never short plus to minus with a tool",
        "If the limit trips, or something warms or smells, take the power off",
        "No ohms, no iron, no finger on a board that has power or a charged capacitor",
        "Propellers off until the last gate has passed",
        "Under power, only the red probe touches the board",
        "A lead can be shortened, never lengthened",
        "Hover at knee height",
        "Never join the balance leads of batteries that are in series",
        "If one burns: go away from the smoke",
    ]
    return words


@pytest.mark.parametrize("case", CASES)
def test_all_that_keeps_people_safe_is_on_paper_and_on_the_page(
    demo: Checked, read: dict[tuple[str, str], list[Sheet]], case: tuple[str, str]
) -> None:
    name, paper = case
    on_paper = _whole(read[case])
    page = Renderer(template_texts(None)).page(bench_page(demo.sheets[name]), _site(demo, paper))
    on_page = _plain(re.sub(r"<[^>]*>", "", page.decode()).replace("&amp;", "&"))
    for words in _must_say(demo, name):
        places = (_said(words, on_paper), _said(words, on_page))
        assert places == (True, True), words


@pytest.mark.parametrize("case", CASES)
def test_hazards_are_told_at_the_step_where_they_arise(
    demo: Checked, read: dict[tuple[str, str], list[Sheet]], case: tuple[str, str]
) -> None:
    """Each of these titles stands twice on paper: before the work and at a step (ANSI Z535.6)."""
    on_paper = _whole(read[case])
    keys = ("iron", "fumes", "eyes", "carbon", "solvents", "violet")
    found = [c for c in cautions_for(demo.sheets[case[0]].build) if c.key in keys]
    assert len(found) >= 5
    for caution in found:
        assert on_paper.count(_plain(caution.title)) >= 2, caution.key


@pytest.mark.parametrize("case", CASES)
def test_paper_says_how_long_it_takes_and_on_what_that_rests(
    read: dict[tuple[str, str], list[Sheet]], case: tuple[str, str]
) -> None:
    on_paper = _whole(read[case])
    assert re.search(r"Estimateforacopierwhosolderswell:\d+to\d+h", on_paper)
    assert _plain("usual times, from memory") in on_paper


@pytest.mark.parametrize("case", CASES)
def test_paper_derives_no_number(
    read: dict[tuple[str, str], list[Sheet]], case: tuple[str, str]
) -> None:
    on_paper = _whole(read[case])
    for words in ("Path in free space", "Weakest signal that it takes", "While it is hot it loses"):
        assert _plain(words) not in on_paper


@pytest.mark.parametrize("case", CASES)
def test_every_reading_has_room_to_be_written(
    demo: Checked, read: dict[tuple[str, str], list[Sheet]], case: tuple[str, str]
) -> None:
    """One box and one Ω a reading with the power off."""
    gates = demo.sheets[case[0]].results.gates
    ohms = sum(p.text.count("Ω") for p in read[case])
    assert ohms >= sum(len(g.readings) for g in gates)


def test_gates_and_field_card_are_files_of_their_own(demo: Checked) -> None:
    """The card is one page and folds to A6 (ISO 216: twice halved): no word crosses its middle."""
    site = _site(demo, "A4")
    sheet = demo.sheets["pipit"]
    card = field_card_sheet(sheet, site, "digest")
    gates = gates_sheet(sheet, site, "digest")
    assert card is not None
    assert gates is not None
    assert card.page.address == "pipit/field-card.pdf"
    for size in ("A4", "Letter"):
        letter = replace(card, paper=size)
        (page,) = sheets(bench_sheet_pdf(letter, _site(demo, size), template_texts(None)))
        for words in ("Before each flight", "After each flight", "Emergency", "Arming check"):
            assert words in page.text
        assert all(size >= 7 for _, size in page.letters if size)
    read_gates = _whole(sheets(bench_sheet_pdf(gates, site, template_texts(None))))
    for gate in sheet.results.gates:
        assert _plain(f"Gate {gate.letter}: {gate.title}") in read_gates
