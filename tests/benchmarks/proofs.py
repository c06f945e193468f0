"""Proofs that take long: random edits, random kills, a cluster. Each line says how many, and what
went wrong.
"""

import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.benchmarks.measured import ROOT, Line, took
from tests.publish.killed import Counts, kill_many

_BENCH_PYTHON = ROOT / ".venv-bench" / "bin" / "python"


def exactness(count: int, seed: int, *, pdf: bool) -> Iterator[Line]:
    """Random sequences of edits; an incremental publish equals a clean one after each."""
    what = f"random edits, {'with PDF' if pdf else 'HTML'}: exact sequences of {count}"
    words = [
        sys.executable,
        "-m",
        "tests.benchmarks.sequences",
        "--count",
        str(count),
        "--seed",
        str(seed),
    ]
    try:
        said = took([*words, *(["--pdf"] if pdf else [])]).out.strip().splitlines()[-1]
        yield Line(what, said.partition(", all")[0], "all", True)
    except RuntimeError as error:
        print(error, file=sys.stderr)
        yield Line(what, "see above", "all", False)


def kills(count: int, seed: int) -> Iterator[Line]:
    """Half at random instants of the clock with workers, half before a random touch of the disk."""
    counts = Counts()
    with tempfile.TemporaryDirectory() as folder:
        for now in kill_many(Path(folder), count // 2, count - count // 2, seed):
            counts = now
    for wrong in counts.wrong:
        print(wrong, file=sys.stderr)
    came = f"{counts.old} old, {counts.new} new"
    yield Line(
        f"killed {count} times: the site is the old or the new one",
        came,
        "always",
        not counts.wrong,
    )
    yield Line(
        "of these: left something to clean, ended before the kill",
        f"{counts.left_over}, {counts.ended}",
    )


def cluster() -> Iterator[Line]:
    """The tests of the cluster in the environment that has its library."""
    what = "a local cluster of two workers: the same bytes"
    if not _BENCH_PYTHON.exists():
        yield Line(what, "not installed", "make bench installs it")
        return
    try:
        took([str(_BENCH_PYTHON), "-m", "pytest", "-q", "tests/publish/test_cluster.py"])
        yield Line(what, "yes", "yes", True)
    except RuntimeError as error:
        print(error, file=sys.stderr)
        yield Line(what, "see above", "yes", False)


def pairs() -> Iterator[Line]:
    """Each two builds in both orders, on the screen and on both papers; the tests take one of them."""
    what = "each two builds in both orders, on the screen and on both papers"
    files = ("tests/render/test_any_two.py", "tests/render/test_compare_print.py")
    try:
        took([sys.executable, "-m", "pytest", "-q", *files], env={"BENCHLEAF_LONG": "1"})
        yield Line(what, "yes", "yes", True)
    except RuntimeError as error:
        print(error, file=sys.stderr)
        yield Line(what, "see above", "yes", False)
