"""The demo files with a few things changed, thousands of ways: read, judged and drawn, or said;
never a traceback.

`BENCHLEAF_LONG=1` makes it thousands. What coverage-guided fuzzing (tests/fuzz) found stands here
as cases of its own.
"""

import os
import subprocess
import sys

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from builder.model.build import Build
from builder.model.read.workspace import Workspace
from builder.pages.paper.bench_sheet import bench_sheet
from builder.pages.site.build_page import sheet_pages
from builder.pages.site.site_pages import site_pages
from builder.pages.summaries.summarise import summarise
from builder.pipeline.check import judged
from builder.publish.workers.bounded import bounded
from builder.render.data.csv_and_text import parts_csv
from builder.render.html.page import Renderer, template_texts
from tests.fuzz.nasty import spoilt
from tests.hostile.in_memory import said
from tests.workspace_edits import ROOT

LONG = bool(os.environ.get("BENCHLEAF_LONG"))
FILES = (
    "site.yaml",
    *(f"shelf/{p.name}" for p in sorted((ROOT / "builds" / "shelf").glob("*.yaml"))),
)
BUILDS = ("pipit", "curlew", "redshank", "dipper")
RENDERER = Renderer(template_texts(None))


def _text(file: str) -> str:
    return (ROOT / "builds" / file).read_text("utf-8")


def _draw(build: Build, model: Workspace) -> None:
    """All that a publish makes of a build, but its PDF."""
    with bounded(20):
        sheet = judged(build, draft=True)
        site = site_pages(model.site)
        for page in sheet_pages(sheet):
            RENDERER.page(page, site)
        bench_sheet(sheet, site, "")
        parts_csv(sheet)
        summarise(sheet)


@settings(
    max_examples=4000 if LONG else 30,
    deadline=None,
    suppress_health_check=list(HealthCheck),
    derandomize=not LONG,
    database=None,
)
@given(st.sampled_from(BUILDS), st.integers(0, len(FILES)), st.integers(0, 2**32))
def test_a_mutated_demo_build_is_said_or_drawn(name: str, which: int, seed: int) -> None:
    files = {f: _text(f) for f in (*FILES, f"{name}/build.yaml")}
    file = tuple(files)[which]
    files[file] = spoilt(files[file], seed)
    model = said(files)
    for build in model.builds.values():
        _draw(build, model)


@pytest.mark.parametrize("share", [10, 50, 90, 99])
def test_a_file_that_was_cut_off_is_said_or_read(share: int) -> None:
    for name in BUILDS:
        files = {f: _text(f) for f in (*FILES, f"{name}/build.yaml")}
        for file in (*FILES[:2], f"{name}/build.yaml"):
            text = files[file]
            said({**files, file: text[: len(text) * share // 100]})


WORST = """
import io, re
from pathlib import Path
from PIL import Image
from builder.render.pictures.published import published_picture
from tests.hostile.in_memory import said
said({"a/build.yaml": "title: T\\nquestions: [" + "{ask: a, answer: b}," * 15_000 + "]"})
said({"shelf/a.yaml": "".join(f"p{i}: {{kind: motor, name: x, maas: 1}}\\n" for i in range(6_000))})
said({"a/build.yaml": "title: T\\nsummary: |\\n" + "  x\\n" * 130_000})
out = io.BytesIO()
Image.new("RGBA", (8000, 5000), (1, 2, 3, 4)).save(out, "PNG")
assert published_picture("a.png", out.getvalue())
print(int(re.search(r"VmHWM:\\s+(\\d+) kB", Path("/proc/self/status").read_text())[1]) // 1024)
"""


def test_the_largest_files_that_are_taken_need_no_500_megabytes() -> None:
    """A process of its own reads them, and a picture of as many pixels as are taken.

    Its own high-water mark: the one that getrusage gives begins with what its parent had when it
    was started.
    """
    made = subprocess.run(
        [sys.executable, "-c", WORST], capture_output=True, text=True, check=True, cwd=ROOT
    )
    assert 40 < int(made.stdout) < 500
