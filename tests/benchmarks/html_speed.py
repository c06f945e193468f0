"""HTML: clean, growth, memory, and what an edit costs."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from shutil import rmtree

from tests.benchmarks.make_workspace import make_workspace
from tests.benchmarks.measured import Line, Took, at_most, pace, publish
from tests.publish.exactness import read_manifest


def growth(folder: Path, sizes: tuple[int, ...], main: int) -> Iterator[Line]:
    """Clean publishes of growing workspaces; the one of `main` builds is left for what follows."""
    before: tuple[int, Took] | None = None
    for size in sizes:
        workspace = make_workspace(folder / f"builds-{size}", size)
        first = pace()
        clean = publish(workspace, "--no-pdf")
        yield Line(
            f"{size} builds: pace of the machine before and after", f"{first:.1f}, {pace():.1f} ms"
        )
        yield Line(
            f"{size} builds, HTML, clean: wall, CPU, peak",
            f"{clean.wall:.1f} s, {clean.cpu:.1f} s, {clean.peak:.0f} MB",
        )
        if size == main:
            yield at_most(
                f"{size} builds, clean: CPU a build, all pages",
                1000 * clean.cpu / size,
                18,
                "ms",
                1,
            )
            yield at_most(
                f"{size} builds, clean: wall a build, two workers",
                1000 * clean.wall / size,
                9,
                "ms",
                1,
            )
            (folder / "clean-seconds").write_text(str(clean.wall))
        yield at_most(f"{size} builds: peak memory of any process", clean.peak, 400, "MB", 0)
        if before is not None and size == 2 * before[0]:
            ratio = clean.wall / before[1].wall
            yield at_most(f"{size} builds against {before[0]}: time", ratio, 2.1, "x")
        before = (size, clean)
        if size != main:
            rmtree(workspace)


def sheet_cpu(workspace: Path, sample: int) -> Iterator[Line]:
    """CPU of one build's sheet, order of work, numbers page and data alone, in one process readied
    as a worker is.
    """
    import time

    from builder.pages.site.site_pages import site_pages
    from builder.pipeline.build_jobs import BuildJob
    from builder.pipeline.check import read
    from builder.publish.workers.garbage import collect_seldom
    from builder.render.html.page import template_texts

    collect_seldom()
    _, model = read(workspace)
    site, texts = site_pages(model.site, ""), template_texts(None)
    names = sorted(model.builds)[:: max(len(model.builds) // sample, 1)]
    builds = [model.builds[name] for name in names]
    for build in builds[:5]:
        BuildJob(build, site, texts, False)()
    start = time.process_time()
    for build in builds:
        BuildJob(build, site, texts, False)()
    each = 1000 * (time.process_time() - start) / len(names)
    yield Line("pace of the machine after it", f"{pace():.1f} ms")
    yield at_most(
        f"sheet, numbers page and data of a build, CPU, mean of {len(names)}", each, 18, "ms", 1
    )


def _edited(path: Path, change: Callable[[str], str]) -> None:
    text = path.read_text("utf-8")
    new = change(text)
    assert new != text
    path.write_text(new, "utf-8")


def _written(said: str) -> int:
    found = re.search(r"\((\d+) written", said)
    assert found is not None, said[-300:]
    return int(found[1])


def edits(workspace: Path, clean: float) -> Iterator[Line]:
    """Nothing changed, a comment, one build, one part of the shelf. The site of the workspace is
    published already.
    """
    from time import sleep

    sleep(
        2.1
        # a file younger than this is looked at more closely, which nobody's second publish of the day
        # is
    )
    publish(workspace, "--no-pdf")
    same = min((publish(workspace, "--no-pdf") for _ in range(3)), key=lambda t: t.wall)
    yield at_most("nothing changed: wall", same.wall, 0.2, "s", 3)
    yield at_most("nothing changed: share of the clean time", 100 * same.wall / clean, 2, "%", 2)
    builds = sorted(p for p in (workspace / "builds").glob("dipper-[0-9]*"))
    _edited(builds[-1] / "build.yaml", lambda t: "# a comment\n" + t)
    comment = publish(workspace, "--no-pdf")
    yield Line(
        "a comment edited: files written",
        str(_written(comment.out)),
        "none",
        _written(comment.out) == 0,
    )
    yield Line("a comment edited: wall", f"{comment.wall:.2f} s")
    _edited(
        builds[-1] / "build.yaml", lambda t: t.replace("summary: A small", "summary: One small", 1)
    )
    one = publish(workspace, "--no-pdf")
    yield at_most("one build edited, without its PDF: wall", one.wall, 0.6, "s")
    yield Line("pace of the machine after it", f"{pace():.1f} ms")
    yield Line("one build edited: files written", str(_written(one.out)))
    yield from _one_part(workspace)


def _one_part(workspace: Path) -> Iterator[Line]:
    before = read_manifest(workspace / "site").jobs
    users = {
        n
        for n, r in before.items()
        if n.startswith("build:") and "frame-dip" in str(r.plain["summary"]["parts"])
    }
    frames = workspace / "builds" / "shelf" / "frames.yaml"
    name, _, rest = frames.read_text("utf-8").partition("frame-dip:")
    frames.write_text(
        name + "frame-dip:" + re.sub(r"each: [\d.]+", "each: 77.77", rest, count=1), "utf-8"
    )
    users = {n for n in users if re.search(r"use: frame-dip[,}]", _source(workspace, n))} | {
        n for n in users if "based_on" in _source(workspace, n)
    }
    done = publish(workspace, "--no-pdf")
    after = read_manifest(workspace / "site").jobs
    made = {n for n, r in after.items() if n.startswith("build:") and r.digest != before[n].digest}
    yield Line(
        "one part of the shelf edited: builds made again, and users",
        f"{len(made)} of {len(users)} at most",
        "only builds that use it",
        bool(made) and made <= users,
    )
    yield Line("one part of the shelf edited: wall", f"{done.wall:.2f} s")


def _source(workspace: Path, job: str) -> str:
    return (workspace / "builds" / job.partition(":")[2] / "build.yaml").read_text("utf-8")
