"""A job that is done in the process of the publish itself is bounded too: in time, in memory, in
code that hears nothing.
"""

import subprocess
import sys
import time
from pathlib import Path

import pytest

from builder.publish.workers.bounded import TooLong
from builder.publish.workers.pool import run

ROOT = Path(__file__).resolve().parents[2]
DEAF = """
import ctypes, signal
from builder.publish.workers.pool import run
libc = {library}(None)
def job():
    signal.pthread_sigmask(signal.SIG_BLOCK, {{signal.SIGALRM}})
    for _ in range(60):
        {call}
list(run({{"build:a": lambda: job}}, None, 1, 0))
print("went on")
"""


def _loops() -> None:
    while True:
        pass


def test_it_ends_after_its_time_and_the_next_is_done() -> None:
    first, second = run({"a": lambda: _loops, "b": lambda: lambda: 5}, None, 1, 0)
    assert isinstance(first.error, TooLong)
    assert second.value == 5


def test_it_may_take_so_much_memory_and_the_next_may_again() -> None:
    first, second = run(
        {"a": lambda: lambda: bytearray(300 * 2**20), "b": lambda: lambda: bytearray(9)},
        None,
        60,
        100,
    )
    assert isinstance(first.error, MemoryError)
    assert second.value == bytearray(9)
    assert len(bytearray(300 * 2**20)) == 300 * 2**20  # the limit went with the job


@pytest.mark.parametrize(
    ("library", "call", "said"),
    [
        ("ctypes.CDLL", "libc.sleep(60)", "could not be stopped"),
        ("ctypes.PyDLL", "sum(range(10**12))", ""),  # holds everything, and nobody can say a word
    ],
)
def test_code_that_hears_no_signal_ends_all_within_bounds(
    library: str, call: str, said: str
) -> None:
    """The alarm is blocked, as code in C that restarts what a signal broke off would not hear it."""
    script = DEAF.format(library=library, call=call)
    began = time.monotonic()
    done = subprocess.run(
        [sys.executable, "-c", script],
        check=False,
        capture_output=True,
        text=True,
        cwd=ROOT,
        timeout=60,
    )
    assert time.monotonic() - began < 30
    assert (done.returncode, "went on" in done.stdout, "Traceback" in done.stderr) == (
        1,
        False,
        False,
    )
    assert said in done.stderr
