"""Hundreds of random sequences of edits, each publish in a new process as on the command line.

.venv/bin/python -m tests.benchmarks.sequences --count 500 --seed 1
"""

import argparse
import tempfile
import time
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

from hypothesis import HealthCheck, Phase, given, seed, settings

from builder.options import PublishOptions
from tests.publish.exactness import Step, check_sequence, publish_here, steps


def run_sequences(count: int, first: int, *, pdf: bool = False) -> tuple[int, int]:
    """So many sequences and publishes that all came out exact. AssertionError for one that did not."""
    context = get_context("forkserver")
    context.set_forkserver_preload(["tests.publish.exactness", *(["weasyprint"] if pdf else [])])
    done = [0, 0]
    with (
        tempfile.TemporaryDirectory() as folder,
        ProcessPoolExecutor(1, mp_context=context, max_tasks_per_child=1) as pool,
    ):

        def publish(options: PublishOptions) -> tuple[str, ...]:
            done[1] += 1
            return pool.submit(publish_here, options).result()

        @seed(first)
        @settings(
            max_examples=count,
            deadline=None,
            database=None,
            phases=[Phase.generate],
            suppress_health_check=list(HealthCheck),
        )
        @given(steps(pdf=pdf))
        def sequences(sequence: list[Step]) -> None:
            check_sequence(Path(folder) / "sequence", sequence, publish)
            done[0] += 1

        sequences()
    return done[0], done[1]


def main() -> None:
    """The command."""
    parser = argparse.ArgumentParser(
        description="Random edits: is an incremental publish a clean one?"
    )
    parser.add_argument("--count", type=int, default=500)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--pdf", action="store_true")
    options = parser.parse_args()
    start = time.perf_counter()
    sequences, publishes = run_sequences(options.count, options.seed, pdf=options.pdf)
    print(
        f"{sequences} sequences, {publishes} publishes, all exact,"
        f" {time.perf_counter() - start:.0f} s"
    )


if __name__ == "__main__":
    main()
