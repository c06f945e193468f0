"""A build with a hundred photographs of 12 megapixels: seconds, memory, bytes of its pages, and what a
second publish makes again.
"""

import sys
from collections.abc import Iterator
from multiprocessing import get_context
from pathlib import Path

import numpy
from PIL import Image

from tests.benchmarks.measured import Line, at_most, took

_WIDE, _HIGH = 4000, 3000
_SECONDS, _MEGABYTES = 2.0, 500.0  # of CPU a photograph; of the largest process
_PAGE = 60_000  # bytes of the page that shows a hundred
_FROM = "title: Made-up photographs\nparts: {frame: frame}\nphotos:\n"


def made_up(folder: Path, count: int) -> None:
    """Soft spots with the noise of a sensor, so that they are as large as a camera's."""
    rng = numpy.random.default_rng(24)
    spots = rng.integers(0, 255, (75, 100, 3), dtype=numpy.uint8)
    soft = Image.fromarray(spots).resize((_WIDE, _HIGH), Image.Resampling.BICUBIC)
    noise = rng.normal(0, 6, (_HIGH, _WIDE, 1))
    pixels = numpy.clip(numpy.asarray(soft) + noise, 0, 255).astype(numpy.uint8)
    own = folder / "builds" / "many"
    own.mkdir(parents=True)
    (folder / "builds" / "shelf").mkdir()
    (folder / "builds" / "shelf" / "parts.yaml").write_text("frame: {kind: frame, name: Frame}\n")
    (folder / "builds" / "site.yaml").write_text("title: Site\n")
    lines = [f"  - {{file: p{i:03}.jpg, alt: Side {i}.}}\n" for i in range(count)]
    (own / "build.yaml").write_text(_FROM + "".join(lines))
    for i in range(count):
        turned = numpy.ascontiguousarray(numpy.roll(pixels, 37 * i, axis=1))
        Image.fromarray(turned).save(own / f"p{i:03}.jpg", quality=88)


def photographs(folder: Path, count: int) -> Iterator[Line]:
    """Published twice, by the command, with a key of its own. The pictures are made by a process apart:
    the system counts what its parent held as memory of a process that it starts.
    """
    workspace, own = folder / "photographs", {"XDG_STATE_HOME": str(folder / "state")}
    making = get_context("spawn").Process(target=made_up, args=(workspace, count))
    making.start()
    making.join()
    words = [sys.executable, "-m", "builder", "publish", "--no-pdf", "--workspace", str(workspace)]
    first, again = took(words, env=own), took(words, env=own)
    yield Line(f"{count} photographs of 12 megapixels", f"{first.wall:.0f} s")
    yield at_most("CPU a photograph", first.cpu / count, _SECONDS, "s")
    yield at_most("memory of the largest process", first.peak, _MEGABYTES, "MB", 0)
    page = workspace / "site" / "many" / "parts" / "index.html"
    yield at_most("page that shows all", page.stat().st_size, _PAGE, "bytes", 0)
    none = "(0 written, 0 removed)" in again.out
    yield Line("second publish", f"{again.wall:.1f} s", "nothing written", none)
