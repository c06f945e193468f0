"""Pages of parts: pieces weighed over all builds, who uses it, what it was swapped for; and what a
variant leaves behind.
"""

from math import hypot
from statistics import mean, stdev

import pytest

from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.model.read.workspace import Workspace
from builder.pages.blocks import Facts, Illustration, Page, Paragraph, Table
from builder.pages.drawing import Words
from builder.pages.page_text import words
from builder.pages.site.part_history import swappings
from builder.pages.site.part_page import part_page
from builder.pages.summaries.summarise import summarise
from builder.pages.summaries.summary import Summary
from builder.pipeline.check import judged, judged_alone
from builder.pipeline.part_jobs import wanted_parts
from tests.compute.small_workspace import workspace

SHELF = """\
f: {kind: frame, name: Frame, mass: 60 g}
m: {kind: motor, name: Strong, mass: {maker: 10 g, scale: 0.1 g}, alternatives: [n]}
n: {kind: motor, name: Small, mass: 8 g}
"""
BUILDS = {
    "a": (
        "title: A\nparts: {frame: f, motor: {use: m, count: 4, each_weighed: [10.2 g, 10.4 g, 10.0"
        " g, 10.2 g]}}\nincidents: [{date: 2026-05-01, what: Hit a post, replaced: [motor]}]\n"
    ),
    "b": "title: B\nparts: {frame: f, motor: {use: m, count: 4, each_weighed: [10.7 g]}}\n",
    "c": "title: C\nbased_on: a\nparts: {motor: {use: n, count: 4}}\n",
    "d": "title: D\nbased_on: a\n",
}


@pytest.fixture(scope="module")
def made() -> Workspace:
    return workspace(SHELF, BUILDS)


@pytest.fixture(scope="module")
def summaries(made: Workspace) -> tuple[Summary, ...]:
    return tuple(summarise(judged_alone(b)) for b in made.builds.values())


def _page(made: Workspace, summaries: tuple[Summary, ...], shelf: str) -> Page:
    names = {n: f.name for n, f in made.parts.items()}
    wanted = next(w for w in wanted_parts(names, summaries) if w.shelf == shelf)
    return part_page(made.shelf[shelf], wanted.users, wanted.history, wanted.names, wanted.shown)


def _rows(page: Page, anchor: str) -> list[list[str]]:
    section = next(s for s in page.sections if s.anchor == anchor)
    table = next(b for b in section.blocks if isinstance(b, Table))
    return [[words(c.pieces) for c in r.cells] for r in table.rows]


def test_pieces_of_all_builds_have_a_mean_and_a_scatter(
    made: Workspace, summaries: tuple[Summary, ...]
) -> None:
    """Mean and sample standard deviation (n less 1), as the standard library has them."""
    ours, single = [10.2, 10.4, 10.0, 10.2], [10.7]
    rows = _rows(_page(made, summaries, "m"), "weighed")
    assert rows[0] == [
        "A",
        "motor",
        "10.20, 10.40, 10.00, 10.20",
        f"{mean(ours):.2f}",
        f"± {stdev(ours):.2f}",
    ]
    assert rows[1][3:] == ["10.70", "one piece"]
    both = ours + single
    assert rows[2] == ["All together", "", "5 pieces", f"{mean(both):.2f}", f"± {stdev(both):.2f}"]


def test_builds_that_use_it_are_listed(made: Workspace, summaries: tuple[Summary, ...]) -> None:
    assert [r[:2] for r in _rows(_page(made, summaries, "m"), "builds")] == [
        ["A", "4 x motor"],
        ["B", "4 x motor"],
        ["D", "4 x motor"],
    ]


def test_what_it_was_swapped_for_comes_from_variants_alternatives_and_incidents(
    made: Workspace, summaries: tuple[Summary, ...]
) -> None:
    rows = _rows(_page(made, summaries, "m"), "swapped")
    assert ["Small", "C", "as motor, a variant of A", ""] in rows
    assert ["Small", "B", "as motor, named as an alternative", ""] in rows
    assert ["its like", "A", "2026-05-01: Hit a post", ""] in rows
    back = _rows(_page(made, summaries, "n"), "swapped")
    assert ["Strong", "A", "as motor, on which C is based", ""] in back
    assert not [h for h in swappings(summaries) if h.shelf == "f"]


def test_an_alternative_that_a_build_checked_says_so_with_its_grams(made: Workspace) -> None:
    """Four motors of 8 g in place of four of 10.7 g as weighed: lighter, as that build's own page says."""
    sheets = {n: judged(b) for n, b in made.builds.items()}
    summaries = tuple(summarise(s) for s in sheets.values())
    rows = _rows(_page(made, summaries, "m"), "swapped")
    said = next(r for r in rows if r[:3] == ["Small", "B", "as motor, named as an alternative"])
    (tried,) = sheets["b"].alternatives.tried
    assert isinstance(tried.mass_change, Figure)
    grams = f"{1000 * tried.mass_change.value:.1f}".replace("-", "\u2212")
    assert said[3].endswith(f", {grams} g")
    assert said[3].startswith("fits") == (tried.answer == "yes")


def test_pieces_that_were_weighed_count_in_the_weight_of_their_build(made: Workspace) -> None:
    """All four lay on the scale, so nothing scatters; one of four leaves three that may.

    A reading is worth its step (GUM F.2.2.1: d / √12) and one digit from reading to reading; both
    average out over four. The 0.1 % that the scale may read wrong does not (from memory).
    """
    digit = hypot(0.0001 / 12**0.5, 0.0001)
    whole, part = (compute(made.builds[n]).mass.lines for n in ("a", "b"))
    a, b = (next(x for x in lines if x.key == "motor") for lines in (whole, part))
    assert isinstance(a.line, Figure)
    assert isinstance(b.line, Figure)
    assert a.line.value == pytest.approx(0.0408)
    assert a.line.spread == pytest.approx(4 * hypot(digit / 2, 0.001 * 0.0102))
    assert b.line.value == pytest.approx(4 * 0.0107)
    assert b.line.spread == pytest.approx(
        hypot(4 * hypot(digit, 0.001 * 0.0107), 3**0.5 * 0.01 * 0.0107)
    )
    assert [o.basis for o in a.others] == ["maker"]


def test_a_variant_weighs_as_the_pieces_it_took_over_and_lists_none_of_them(
    made: Workspace, summaries: tuple[Summary, ...]
) -> None:
    """One aircraft: what stays on it weighs what its pieces weighed. Another part does not."""
    assert [s.name for s in summaries if s.weighed] == ["a", "b"]
    stayed, swapped = (
        next(x.line for x in compute(made.builds[n]).mass.lines if x.key == "motor") for n in "dc"
    )
    assert isinstance(stayed, Figure)
    assert isinstance(swapped, Figure)
    assert stayed.value == pytest.approx(4 * mean([0.0102, 0.0104, 0.0100, 0.0102]))
    assert swapped.value == pytest.approx(4 * 0.008)


def test_a_summary_of_an_older_version_can_still_be_read(summaries: tuple[Summary, ...]) -> None:
    plain = summaries[0].as_plain()
    assert Summary.from_plain(plain) == summaries[0]
    for key in ("weighed", "alternatives", "replaced"):
        del plain[key]
    assert Summary.from_plain(plain).weighed == ()


VIDEO = """\
f: {kind: frame, name: Frame}
v: {kind: video-transmitter, name: Any, supply: {accepts: 7-26 V, draw: 200 mA}, alternatives: [w]}
w: {kind: video-transmitter, name: Five, supply: {accepts: 4.5-5.5 V, draw: 200 mA}}
x: {kind: video-transmitter, name: Unsaid, supply: {draw: 200 mA}}
"""
FLOWN = {n: f"title: {n}\nparts: {{frame: f, video: {n}}}\n" for n in ("v", "w", "x")}


def test_a_part_says_the_volts_it_accepts_and_that_an_alternative_is_not_judged_there() -> None:
    """Who swaps by this page alone must see that a part for 5 V is none for 9 V."""
    made = workspace(VIDEO, FLOWN)
    known = tuple(summarise(judged_alone(b)) for b in made.builds.values())
    said = {}
    for shelf in "vwx":
        page = _page(made, known, shelf)
        about = next(b for s in page.sections for b in s.blocks if isinstance(b, Facts))
        said[shelf] = {name: words(c.pieces) for name, c in about.items}["Volts it accepts"]
    assert said == {"v": "7 to 26 V", "w": "4.5 to 5.5 V", "x": "not known"}
    swapped = next(s for s in _page(made, known, "w").sections if s.anchor == "swapped")
    table = next(b for b in swapped.blocks if isinstance(b, Table))
    assert "not checked" in table.note and "faults" in table.note


def test_a_part_with_pads_is_drawn_side_by_side_with_each_pad_once() -> None:
    """Pads of an edge stand in the order in which the shelf lists them; the underside is turned over
    about the line that points up, so its order from left to right is the other way round.
    """
    shelf = """\
f: {kind: frame, name: Frame, mass: 60 g}
b:
  kind: buzzer
  name: Board
  mass: 2 g
  pads:
    {A: {role: ground}, B: {role: ground}, C: {role: ground}, Z: {role: ground},
     U: {role: ground, side: under}, V: {role: ground, side: under}}
  edges: {front: [A, B], left: [C], under: {front: [U, V]}}
"""
    made = workspace(shelf, {"a": "title: A\nparts: {frame: f, board: b}\n"})
    users = tuple(summarise(judged_alone(b)) for b in made.builds.values())
    page = _page(made, users, "b")
    blocks = next(s for s in page.sections if s.anchor == "pads").blocks
    drawn = [b.drawing for b in blocks if isinstance(b, Illustration)]
    names = [[i.text for i in d.items if isinstance(i, Words) and "mono" in i.tone] for d in drawn]
    assert names == [["A", "B", "C"], ["V", "U"]]
    said = [words(b.pieces) for b in blocks if isinstance(b, Paragraph)]
    assert said == ["Nobody says where on the part these are: Z."]
    assert len({d.name for d in drawn}) == 2
