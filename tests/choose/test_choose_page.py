"""The page of swaps: what it says of each limit is true of what was found; and a publish makes it anew
for a part that may stand in the build, for no other, and no other page of the build with it.
"""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from builder.options import PublishOptions
from builder.pages.blocks import Paragraph, Section, Table
from builder.pages.choose.choose_page import choose_page
from builder.pages.page_text import words
from builder.pipeline.check import Checked
from builder.pipeline.publish import publish_site
from builder.publish.kept.manifest import MANIFEST
from builder.rules.choose.search import Choices
from tests.workspace_edits import pipit_alone

pytestmark = pytest.mark.slow  # publishes

LIMIT = 0.25  # kg, the class of builds/site.yaml that is less than, not up to


def _found(demo: Checked, name: str) -> Choices:
    found = demo.sheets[name].choices
    assert found is not None
    return found


def _under(demo: Checked, name: str, found: Choices) -> Section:
    page = choose_page(demo.sheets[name], found)
    return next(s for s in page.sections if s.anchor == "choose-limits")


def test_the_last_row_under_a_limit_is_the_longest_in_the_air_below_it(demo: Checked) -> None:
    found = _found(demo, "dipper")
    table = next(b for b in _under(demo, "dipper", found).blocks if isinstance(b, Table))
    known = [p for c in found.right if (p := c.figures.of_known) is not None]
    longest = max(-p[2] for p in known if p[0] < LIMIT)
    masses = [row.cells[2].sort for row in table.rows]
    assert all(isinstance(m, float) and m < LIMIT for m in masses)
    assert table.rows[-1].cells[4].sort == longest
    assert table.anchor == "limit-1"


def test_where_nothing_is_under_a_limit_the_lightest_is_named(demo: Checked) -> None:
    found = _found(demo, "curlew")
    section = _under(demo, "curlew", found)
    said = [words(b.pieces) for b in section.blocks if isinstance(b, Paragraph)]
    known = [p for c in found.right if (p := c.figures.of_known) is not None]
    assert len(said) == len(section.blocks) == 1
    assert "250.0 g (250 g class) or 249.5 g (0.55 lb)" in said[0]
    assert all(f"{1000 * min(known)[0]:.1f} g" in text for text in said)


def test_what_nothing_passes_names_no_limit(demo: Checked) -> None:
    nothing = replace(_found(demo, "curlew"), right=(), now=())
    page = choose_page(demo.sheets["curlew"], nothing)
    assert [s.anchor for s in page.sections] == ["choose"]


def _digests(home: Path) -> dict[str, str]:
    """What each job of pipit was made from, by the manifest."""
    plain = json.loads((home / "site" / MANIFEST).read_text("utf-8"))
    return {n: job["digest"] for n, job in plain["jobs"].items() if n.endswith(":pipit")}


def _noted(home: Path, file: str, part: str) -> None:
    """One part of the shelf says something more."""
    path = home / "builds" / "shelf" / file
    lines = path.read_text("utf-8").split("\n")
    at = lines.index(f"{part}:")
    lines.insert(at + 1, '  note: "for this test"')
    path.write_text("\n".join(lines), "utf-8")


def test_only_a_part_that_may_stand_in_the_build_makes_the_page_anew(tmp_path: Path) -> None:
    pipit_alone(tmp_path)
    options = PublishOptions(workspace=tmp_path, pdf=False)
    publish_site(options)
    first = _digests(tmp_path)
    assert (tmp_path / "site" / "pipit" / "choose" / "index.html").exists()
    _noted(tmp_path, "bench.yaml", "key-m5")
    publish_site(options)
    assert _digests(tmp_path)["choose:pipit"] == first["choose:pipit"]
    _noted(tmp_path, "motors.yaml", "motor-2507")
    publish_site(options)
    after = _digests(tmp_path)
    assert after["choose:pipit"] != first["choose:pipit"]
    assert after["build:pipit"] == first["build:pipit"]
