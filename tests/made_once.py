"""What is made once for all workers of a run, in the folder that they share."""

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from shutil import rmtree
from time import sleep

import pytest

from builder.system.locks import take_lock


def folder_of_the_run(factory: pytest.TempPathFactory) -> Path:
    """The temporary folder of the run; of workers side by side, the one above their own."""
    own = factory.getbasetemp()
    return own.parent if "PYTEST_XDIST_WORKER" in os.environ else own


@contextmanager
def _alone(file: Path) -> Iterator[None]:
    """One worker at a time; whoever comes later waits."""
    with file.open("ab") as lock:
        while True:
            try:
                take_lock(lock.fileno())
                break
            except OSError:
                sleep(0.1)
        yield


def made_once(factory: pytest.TempPathFactory, name: str, make: Callable[[Path], None]) -> Path:
    """A folder that `make` filled, for whichever worker asked first. Nothing in it may be changed."""
    folder = folder_of_the_run(factory) / name
    done = folder.with_name(f"{name}.done")
    with _alone(folder.with_name(f"{name}.lock")):
        if not done.exists():
            rmtree(folder, ignore_errors=True)  # a worker may have ended half-way
            folder.mkdir()
            make(folder)
            done.touch()
    return folder
