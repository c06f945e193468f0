"""What a command took: seconds on the clock, seconds of CPU of it and all it started, and the
largest memory of any.
"""

import os
import subprocess
import sys
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent


@dataclass(frozen=True, slots=True)
class Took:
    """Wall and CPU in seconds; `peak` is the resident memory of the largest process, in MB."""

    wall: float
    cpu: float
    peak: float
    out: str


@dataclass(frozen=True, slots=True)
class Line:
    """A figure, its target, and whether it is met (None: reported without a target)."""

    figure: str
    value: str
    target: str = ""
    met: bool | None = None

    def __str__(self) -> str:
        verdict = {True: "met", False: "NOT MET", None: ""}[self.met]
        return f"{self.figure:<62} {self.value:>22}  {self.target:<26} {verdict}".rstrip()


def at_most(figure: str, value: float, bound: float, unit: str, digits: int = 2) -> Line:
    """A figure that may be so large and no larger."""
    return Line(figure, f"{value:.{digits}f} {unit}", f"at most {bound:g} {unit}", value <= bound)


def took(
    words: Sequence[str], *, cwd: Path = ROOT, env: Mapping[str, str] | None = None, status: int = 0
) -> Took:
    """Runs a command to its end. RuntimeError if it ends with another status."""
    variables = {**os.environ, "PYTHONPATH": str(ROOT), **(env or {})}
    variables.pop("PYTHONDONTWRITEBYTECODE", None)  # modules stay compiled, as on anybody's machine
    start = time.perf_counter()
    child = subprocess.Popen(
        words, cwd=cwd, env=variables, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    assert child.stdout is not None
    out = child.stdout.read()
    _, ended, usage = os.wait4(child.pid, 0)
    wall = time.perf_counter() - start
    child.returncode = os.waitstatus_to_exitcode(ended)
    if child.returncode != status:
        raise RuntimeError(f"{' '.join(words)} ended with {child.returncode}:\n{out[-2000:]}")
    return Took(wall, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024, out)


def pace() -> float:
    """Milliseconds of CPU of a fixed piece of work: how fast this machine is just now, for many
    share their processor.
    """
    start = time.process_time()
    for _ in range(20):
        sorted([str(i * 7919 % 100_003) for i in range(20_000)])
    return 1000 * (time.process_time() - start) / 20


def publish(workspace: Path, *more: str, workers: int = 2) -> Took:
    """A publish of a workspace by the command, as people run it."""
    words = [
        sys.executable,
        "-m",
        "builder",
        "publish",
        "--workspace",
        str(workspace),
        "--workers",
        str(workers),
    ]
    return took([*words, *more])
