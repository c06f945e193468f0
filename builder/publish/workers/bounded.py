"""A job may take so long and no longer: it is stopped from within, and where that does not help its
process ends.
"""

import faulthandler
import os
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from builder.system.interrupt import alarm


class TooLong(BaseException):
    """Raised inside a job whose time is over. No Exception, so that no library that is at work
    there swallows it.
    """

    def __init__(self, seconds: int) -> None:
        self.seconds = seconds
        super().__init__(seconds)


@contextmanager
def bounded(seconds: int) -> Iterator[None]:
    """Raises TooLong in what runs inside after so many seconds. Only a main thread can be stopped
    so; others run on.
    """
    with alarm(seconds, TooLong(seconds)):
        yield


_ENDED = (
    "benchleaf: making {} took over {} s and could not be stopped: publishing ended. The old site"
    " is as it was.\n"
)


def _end(name: str, seconds: int) -> None:
    sys.stderr.write(_ENDED.format(name, seconds))
    sys.stderr.flush()
    os._exit(1)


@contextmanager
def bounded_here(name: str, seconds: int) -> Iterator[None]:
    """As `bounded`, for a job in the process of the publish itself: where that does not help all
    ends, with a sentence.

    Code that lets no other thread run either is ended a little later, in silence.
    """
    latest = threading.Timer(2 * seconds + 2, _end, (name, seconds))
    latest.daemon = True
    latest.start()
    try:
        with _ended_after(2 * seconds + 4), bounded(seconds):
            yield
    finally:
        latest.cancel()


@contextmanager
def bounded_or_ended(seconds: int) -> Iterator[None]:
    """As `bounded`, for a process of its own: code that hears no signal is ended with its process a
    while later.
    """
    with _ended_after(2 * seconds + 2), bounded(seconds):
        yield


@contextmanager
def _ended_after(seconds: int) -> Iterator[None]:
    """This process ends after so many seconds, whatever runs in it and whether it lets others run."""
    with Path(os.devnull).open("w") as nowhere:
        faulthandler.dump_traceback_later(seconds, exit=True, file=nowhere)
        try:
            yield
        finally:
            faulthandler.cancel_dump_traceback_later()
