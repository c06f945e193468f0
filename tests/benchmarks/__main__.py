"""`make bench`: figures measured side by side in one run, each with its target and whether it is
met.

make bench                                 everything; over an hour on two cores
make bench ARGS=--quick                    small sizes, a few minutes
make bench ARGS='--only html pdf'          some of: html, pdf, exact, killed, cluster, pairs, mutants, drawings, photos
"""

import argparse
import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.benchmarks import (
    drawing_speed,
    geometry_mutants,
    html_speed,
    other_sites,
    paper_speed,
    photo_speed,
    proofs,
    rule_mutants,
)
from tests.benchmarks.measured import ROOT, Line

_GROUPS = ("html", "pdf", "exact", "killed", "cluster", "pairs", "mutants", "drawings", "photos")


def _html(folder: Path, sizes: tuple[int, ...], main: int) -> Iterator[Line]:
    yield from html_speed.growth(folder, sizes, main)
    workspace, clean = folder / f"builds-{main}", float((folder / "clean-seconds").read_text())
    yield from html_speed.sheet_cpu(workspace, 60)
    edit = 0.0
    for line in html_speed.edits(workspace, clean):
        yield line
        if line.figure.startswith("one build edited, without"):
            edit = float(line.value.split()[0])
    yield from other_sites.side_by_side(folder, workspace / "site", clean, edit)


def _lines(only: list[str], folder: Path, options: argparse.Namespace) -> Iterator[Line]:
    quick = options.quick
    sizes = tuple(options.sizes or ((25, 50) if quick else (250, 500, 1000, 2000)))
    if "html" in only:
        yield from _html(folder, sizes, options.main or (50 if quick else 1000))
    if "pdf" in only:
        yield from paper_speed.paper(folder, options.paper or (6 if quick else 60))
    if "exact" in only:
        yield from proofs.exactness(5 if quick else 500, options.seed, pdf=False)
        yield from proofs.exactness(1 if quick else 20, options.seed, pdf=True)
    if "killed" in only:
        yield from proofs.kills(6 if quick else 200, options.seed)
    if "cluster" in only:
        yield from proofs.cluster()
    if "pairs" in only:
        yield from proofs.pairs()
    if "mutants" in only:
        yield from rule_mutants.killed(["pack"] if quick else [])
        yield from geometry_mutants.killed(["straps"] if quick else [])
    if "drawings" in only:
        yield from drawing_speed.drawings(ROOT)
    if "photos" in only:
        yield from photo_speed.photographs(folder, 5 if quick else 100)


def main() -> None:
    """The command. Prints each line as soon as it is known."""
    parser = argparse.ArgumentParser(
        prog="make bench", description="Ratios and proofs, measured in one run."
    )
    parser.add_argument("--quick", action="store_true", help="small sizes")
    parser.add_argument("--only", nargs="+", choices=_GROUPS, default=list(_GROUPS))
    parser.add_argument("--sizes", nargs="+", type=int, help="numbers of builds, growing")
    parser.add_argument(
        "--main", type=int, help="the size at which edits and other generators are measured"
    )
    parser.add_argument("--paper", type=int, help="how many bench sheets are printed each way")
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    missed = 0
    with tempfile.TemporaryDirectory() as folder:
        for line in _lines(options.only, Path(folder), options):
            print(line, flush=True)
            missed += line.met is False
    print(f"{missed} of the targets above are not met" if missed else "all targets above are met")


if __name__ == "__main__":
    main()
