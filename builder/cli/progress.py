"""A bar for pages and one for PDFs while a publish runs, on a terminal."""

import sys
from types import TracebackType
from typing import TextIO

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TaskID, TextColumn

# HTML pages that a job of a kind makes; what is not named here makes none.
_PAGES = {"build": 3, "compare": 1, "part": 1, "reference": 3, "tables": 3}


def _pages(job: str) -> int:
    return _PAGES.get(job.partition(":")[0], 0)


def _pdfs(job: str) -> int:
    return int(job.startswith("pdf:"))


class Bars:
    """Counts what jobs make. Totals grow as the pages that need others first become known."""

    def __init__(self, where: TextIO | None = None) -> None:
        columns = (
            TextColumn("{task.description:>6}"),
            BarColumn(),
            MofNCompleteColumn(),
            TextColumn("{task.fields[now]}"),
        )
        self._bars = Progress(*columns, console=Console(file=where or sys.stderr), transient=True)
        self._tasks: dict[str, TaskID] = {}
        self.done = {"pages": 0, "PDFs": 0}
        self.all = {"pages": 0, "PDFs": 0}

    def __enter__(self) -> "Bars":
        self._bars.__enter__()
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self._bars.__exit__(kind, error, at)

    def tell(self, jobs: tuple[str, ...], ended: str) -> None:
        """Takes the jobs that are about to run, and the one that has ended."""
        for name, count in (("pages", _pages), ("PDFs", _pdfs)):
            self.all[name] += sum(count(job) for job in jobs)
            self.done[name] += count(ended)
            if self.all[name] and name not in self._tasks:
                self._tasks[name] = self._bars.add_task(name, total=self.all[name], now="")
            if name in self._tasks:
                now = ended.partition(":")[2] if count(ended) else ""
                self._bars.update(self._tasks[name], completed=self.done[name], total=self.all[name], now=now)
