"""Bare ends lie on their pads: by the pad's own figures, read from the shelf's text, and the same
wherever they stand.
"""

import re
from pathlib import Path

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from builder.compute.compute import compute
from builder.compute.order.work_order import Plan
from builder.diagnostics.where import Where
from builder.model.build import Build
from builder.model.read.shared_lines import each_contact
from builder.pages.paper.bench_cuts import bench_cuts
from builder.pages.work.step_facts import step_facts
from builder.pipeline.check import Checked
from tests.compute.small_workspace import FRAME, one_build

ROOT = Path(__file__).resolve().parents[2]
DEMO = ("dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone")
SHELF = {
    key: each_contact(part, Where(path.name, (key,)))[0]
    for path in sorted((ROOT / "builds/shelf").glob("*.yaml"))
    for key, part in (yaml.load(path.read_text("utf-8"), yaml.BaseLoader) or {}).items()
}


def _mm(text: str) -> list[float]:
    return [float(n) for n in re.findall(r"\d+(?:\.\d+)?", text)]


@pytest.mark.parametrize("name", DEMO)
def test_no_bare_end_is_longer_than_its_pad_is_deep(demo: Checked, name: str) -> None:
    """In the demo's shelf the first side of a pad lies along the edge, the second across it, as
    pitch less gap shows.
    """
    build, results = demo.workspace.builds[name], demo.sheets[name].results
    checked = 0
    for joint in results.joints:
        pad = SHELF[build.parts[joint.contact.part].shelf]["pads"][joint.contact.pad]
        if "pad_size" not in pad:
            continue
        along, deep = _mm(pad["pad_size"])
        if "pitch" not in pad or abs(_mm(pad["pitch"])[0] - _mm(pad["gap"])[0] - along) > 0.1:
            deep = min(along, deep)  # which side lies along the edge does not show: the shorter one
        bare = 1000 * joint.heat.strip
        assert 0 < bare <= deep + 1e-9, (joint.key, bare, deep)
        if joint.cup:
            assert bare > deep - 0.5, "as deep as the cup"
        checked += 1
    assert checked > 8


@pytest.mark.parametrize("name", DEMO)
def test_every_place_prints_the_same_length(demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    build, results = demo.workspace.builds[name], sheet.results
    assert isinstance(results.order, Plan)
    bare = {str(j.contact): 1000 * j.heat.strip for j in results.joints}
    for paper in (False, True):
        for step in results.order.steps:
            facts = dict(step_facts(build, step, paper=paper))
            if step.joint is not None:
                said = _mm(facts["bare"][0].text)[0]  # type: ignore[union-attr]
                assert said == pytest.approx(bare[str(step.joint.contact)])
    table = bench_cuts(sheet)
    assert table is not None
    rows = 0
    for row in table.rows:
        words = ["".join(getattr(i, "text", "") for i in c.pieces) for c in row.cells]
        ends = re.match(r"(\S+) to (\S+)$", words[1]) if len(words) > 3 else None
        if ends:
            assert _mm(words[3]) == pytest.approx([bare[e] for e in ends.groups() if e in bare])
            rows += 1
    assert rows > 5


def _board(pad: dict[str, str], edge: bool) -> Build:
    words = ", ".join(f"{k}: {v}" for k, v in pad.items())
    row = "edges: {left: [A, B]}, " if edge else ""
    shelf = f"""{FRAME}
board: {{kind: flight-controller, name: Board, {row}pads: {{A: {{role: sense, {words}}}, B: {{role: ground}}}}}}
camera: {{kind: camera, name: Camera, pads: {{S: {{role: video-out}}}}}}
"""
    build = (
        "title: T\nparts: {frame: frame, board: board, camera: camera}\nwires: [{from: camera.S,"
        " to: board.A, gauge: 28 AWG}]"
    )
    return one_build(shelf, build)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.integers(8, 60),
    st.integers(8, 60),
    st.integers(3, 30),
    st.booleans(),
    st.booleans(),
    st.booleans(),
)
def test_any_pad(wide: int, deep: int, gap: int, turned: bool, edge: bool, known: bool) -> None:
    """Sides in tenths of a mm, named in either order; pitch is width and gap, as in any drawing of
    a row of pads.
    """
    sides = f"{deep / 10} x {wide / 10} mm" if turned else f"{wide / 10} x {deep / 10} mm"
    pad = {
        "pitch": f"{(wide + gap) / 10} mm",
        "gap": f"{gap / 10} mm",
        **({"pad_size": sides} if known else {}),
    }
    joint = next(j for j in compute(_board(pad, edge)).joints if str(j.contact) == "board.A")
    bare = 1000 * joint.heat.strip
    limit = (deep / 10 if edge else min(wide, deep) / 10) if known else wide / 10
    assert 0 < bare <= limit + 1e-9
    assert bare >= min(2.0, limit) - 0.5, "no shorter than a step of the strippers asks"
    assert bool(joint.heat.strip_basis) != known
    if not known:
        assert "common practice, no source" in joint.heat.strip_basis


def test_nothing_known_is_said(tmp_path: Path) -> None:
    joint = next(
        j for j in compute(_board({"copper": "signal"}, True)).joints if str(j.contact) == "board.A"
    )
    assert 0.5 <= 1000 * joint.heat.strip <= 1.5
    assert joint.heat.strip_basis.startswith("pad's size not known, usual for a pad of ")
