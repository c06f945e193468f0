"""The list of parts leads with the builds that use a part and what was found there."""

import pytest

from builder.model.read.workspace import Workspace
from builder.pages.blocks import Page, Row, Table
from builder.pages.page_text import words
from builder.pages.site.part_list import listed_part, part_list_page
from builder.pages.summaries.summarise import summarise
from builder.pipeline.check import judged
from builder.pipeline.part_jobs import wanted_parts
from tests.compute.small_workspace import workspace

SHELF = """\
f: {kind: frame, name: Frame, mass: 60 g, wheelbase: 142 mm}
m: {kind: motor, name: Strong, mass: 10 g, kv: 3800 rpm/V, alternatives: [x]}
n: {kind: motor, name: Small, mass: 8 g, kv: 11500 rpm/V}
p: {kind: pack, name: Battery, mass: 70 g, cells: 4S, capacity: 850 mAh}
o: {kind: other, name: Pad}
s: {kind: tool, name: Spanner}
x: {kind: motor, name: On no build, mass: 9 g, kv: 900 rpm/V, cells: 1S}
"""
BUILDS = {
    "a": "title: A\nparts: {frame: f, motor: {use: m, count: 4, each_weighed: [10.2 g, 10.4 g]},"
    " spanner: s}\npacks: {p: p}\n"
    "flights: [{date: 2026-05-02, pack: p, airborne: 4 min},"
    " {date: 2026-05-03, pack: p, airborne: 5 min},"
    " {date: 2026-05-03, pack: p, airborne: 1 min, leave_out: yes}]\n"
    "incidents: [{date: 2026-05-01, what: Hit a post, replaced: [motor]}]\n",
    "b": "title: B\nparts: {frame: f, motor: {use: n, count: 4}, pad: o}\n",
}


@pytest.fixture(scope="module")
def page() -> Page:
    return _listed(workspace(SHELF, BUILDS))


def _listed(made: Workspace) -> Page:
    summaries = tuple(summarise(judged(b)) for b in made.builds.values())
    wanted = wanted_parts({n: f.name for n, f in made.parts.items()}, summaries)
    lines = [listed_part(w.shelf, made.shelf[w.shelf].part) for w in wanted]
    users = {w.shelf: w.users for w in wanted}
    names = {shelf: name for w in wanted for shelf, name in w.names.items()}
    return part_list_page(lines, users, {w.shelf: w.history for w in wanted}, names)


def _rows(page: Page) -> dict[str, Row]:
    table = next(b for s in page.sections for b in s.blocks if isinstance(b, Table))
    return {r.anchor: r for r in table.rows}


def _said(row: Row) -> list[str]:
    return [words(c.pieces) for c in row.cells]


def test_what_builds_found_comes_first_and_every_used_part_is_there_once(page: Page) -> None:
    rows = _rows(page)
    assert (list(rows)[:2], list(rows)[-1]) == (["part-m", "part-f"], "part-s")
    assert set(rows) == {f"part-{n}" for n in "fmnops"}
    found = _said(rows["part-m"])
    assert found[:2] == ["Strong", "A (4), flights: 2"]
    weighed = "A: 2 pieces weighed, 10.30 g each; A: replaced, 2026-05-01: Hit a post"
    assert found[2] == f"{weighed}; A: On no build in its place: does not fit, \u22125.2 g"


def test_builds_that_agree_on_a_swap_say_it_once() -> None:
    files = {
        n: f"title: {n.upper()}\nparts: {{frame: f, motor: {{use: m, count: 4}}}}\n" for n in "ab"
    }
    row = _rows(_listed(workspace(SHELF, files)))["part-m"]
    assert (
        _said(row)[2]
        == "2 builds: On no build in its place: not known whether it fits, \u22124.0 g"
    )


def test_a_battery_has_its_own_flights_only_those_that_count(page: Page) -> None:
    assert _said(_rows(page)["part-p"])[1] == "A, flights: 2, 4.5 min each"


def test_each_kind_is_told_by_its_own_figure_and_sorts_inside_of_it(page: Page) -> None:
    rows = _rows(page)
    assert _said(rows["part-m"])[3:] == ["motor", "3800 rpm/V", "10 g"]
    assert _said(rows["part-p"])[3:] == ["battery", "4S, 850 mAh", "70 g"]
    assert _said(rows["part-o"])[3:] == ["other", "not known", "not known"]
    assert _said(rows["part-o"])[2] == "nothing noted"
    order = sorted(rows.values(), key=lambda r: str(r.cells[4].sort))
    motors = [r.anchor for r in order if r.data["kind"] == "motor"]
    assert motors == ["part-m", "part-n"], "3800 is less than 11500, by number"
    kinds = [r.data["kind"] for r in order]
    assert kinds == sorted(kinds)
