"""PDF: a publish with bench sheets against the PDF library alone on the same HTML, and against a
warm browser.
"""

import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pikepdf

from builder.pages.paper.bench_sheet import bench_sheet
from builder.pages.site.picture_files import printed_pictures
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import judged_alone, read
from builder.render.assets import asset_files
from builder.render.html.page import template_texts
from builder.render.paper.pdf import bench_sheet_html
from tests.benchmarks.make_workspace import make_workspace
from tests.benchmarks.measured import Line, at_most, publish, took

_WORKERS = 2


def _sheets(workspace: Path, folder: Path) -> None:
    """The HTML that each PDF is made from, with what a browser needs beside it."""
    _, model = read(workspace)
    site, texts = site_pages(model.site, ""), template_texts(None)
    (folder / "assets").mkdir(parents=True)
    for address, content in asset_files().items():
        (folder / address).parent.mkdir(parents=True, exist_ok=True)
        (folder / address).write_bytes(content)
    for name, build in model.builds.items():
        pictures = printed_pictures(build)
        text = bench_sheet_html(
            bench_sheet(judged_alone(build), site, build.digest), site, texts, pictures
        )
        (folder / f"{name}.html").write_text(text, "utf-8")
        for address in pictures:
            (folder / address).parent.mkdir(exist_ok=True)
            shutil.copyfile(workspace / "site" / address, folder / address)


def _bare(which: str, folder: Path) -> tuple[int, int, float, float]:
    said = took([sys.executable, "-m", "tests.benchmarks.bare_paper", which, str(folder)])
    sheets, pages, wall, cpu = said.out.strip().splitlines()[-1].split()
    return int(sheets), int(pages), float(wall), float(cpu)


def paper(folder: Path, builds: int) -> Iterator[Line]:
    """`builds` sheets each way, one after the other in this run."""
    workspace = make_workspace(folder / "paper", builds)
    without = publish(workspace, "--no-pdf", workers=_WORKERS)
    shutil.rmtree(workspace / "site")
    whole = publish(workspace, workers=_WORKERS)
    pages = 0
    for path in (workspace / "site").glob("*/bench-sheet.pdf"):
        with pikepdf.open(path) as pdf:
            pages += len(pdf.pages)
    ours_wall, ours_cpu = whole.wall - without.wall, whole.cpu - without.cpu
    _sheets(workspace, folder / "sheets")
    sheets, bare_pages, bare_wall, bare_cpu = _bare("weasyprint", folder / "sheets")
    yield Line(
        f"{builds} builds with PDF, clean: wall, CPU, peak",
        f"{whole.wall:.1f} s, {whole.cpu:.1f} s, {whole.peak:.0f} MB",
    )
    yield Line(
        "their bench sheets: PDFs, pages",
        f"{sheets}, {pages}",
        f"bare: {bare_pages} pages",
        pages == bare_pages,
    )
    yield at_most(
        "PDFs' share of the wall over bare time / workers",
        ours_wall / (bare_wall / _WORKERS),
        1.10,
        "x",
    )
    yield at_most("CPU a printed page, as published", 1000 * ours_cpu / pages, 60, "ms", 1)
    yield Line(
        "CPU a printed page, the PDF library alone", f"{1000 * bare_cpu / bare_pages:.1f} ms"
    )
    yield Line(
        "wall a sheet: published, alone", f"{ours_wall / sheets:.3f} s, {bare_wall / sheets:.3f} s"
    )
    yield at_most("with PDF: peak memory of any process", whole.peak, 400, "MB", 0)
    if shutil.which("chromium") or shutil.which("chromium-browser"):
        drawn, drawn_pages, drawn_wall, _ = _bare("chromium", folder / "sheets")
        yield Line(
            f"a warm Chromium prints them ({drawn_pages} pages): wall a sheet",
            f"{drawn_wall / drawn:.3f} s",
        )
        ratio = (ours_wall / sheets) / (drawn_wall / drawn)
        yield Line("ours with two workers over the warm Chromium", f"{ratio:.2f} x", "reported")
    else:
        yield Line("a warm Chromium", "not installed")
