"""A line that counts pages, PDFs and pictures while a publish runs, on a terminal."""

import sys
from types import TracebackType
from typing import TextIO

import click


def _ending(job: str, ending: str) -> int:
    """How many files of a kind a job writes."""
    from builder.pipeline.owners import addresses_of  # a publish that has nothing to do needs none

    return sum(address.endswith(ending) for address in addresses_of(job))


def _pages(job: str) -> int:
    """A guide counts as one page, however many chapters it has: it is made at one go."""
    return _ending(job, ".html")


def _pdfs(job: str) -> int:
    return _ending(job, ".pdf")


def _pictures(job: str) -> int:
    return int(job.startswith("pictures:"))


_COUNTED = (("pages", _pages), ("PDFs", _pdfs), ("pictures", _pictures))


class Bars:
    """Counts what jobs make. Totals grow as the pages that need others first become known."""

    def __init__(self, where: TextIO | None = None) -> None:
        self._bar = click.progressbar(
            length=1,
            label="pages, PDFs, pictures",
            file=where or sys.stderr,
            item_show_func=self._counts,
            show_eta=False,
        )
        self._now = ""
        self.done = {name: 0 for name, _ in _COUNTED}
        self.all = {name: 0 for name, _ in _COUNTED}

    def __enter__(self) -> "Bars":
        self._bar.__enter__()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        at: TracebackType | None,
    ) -> None:
        self._bar.__exit__(kind, error, at)

    def _counts(self, _: object) -> str:
        counts = [f"{self.done[name]}/{total}" for name, total in self.all.items() if total]
        return " ".join((*counts, self._now))

    def tell(self, jobs: tuple[str, ...], ended: str) -> None:
        """Takes the jobs that are about to run, and the one that has ended."""
        for name, count in _COUNTED:
            self.all[name] += sum(count(job) for job in jobs)
            self.done[name] += count(ended)
        if any(count(ended) for _, count in _COUNTED):
            self._now = ended.partition(":")[2].replace(":", " ")
        self._bar.length = max(1, sum(self.all.values()))
        self._bar.pos = sum(self.done.values())
        self._bar.update(0, self._now)
