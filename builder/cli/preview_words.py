"""What the preview says in the terminal: what was found in what was just read, and what was mended
since.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from threading import Lock

import click

from builder.cli.common import count, print_findings
from builder.diagnostics.finding import Finding, Severity
from builder.diagnostics.show import harmless
from builder.pipeline.preview.preview import Preview


def _by_file(mistakes: Iterable[Finding]) -> Counter[str]:
    return Counter(f.where.file if f.where is not None else f.build for f in mistakes)


def mended(before: Iterable[Finding], now: Iterable[Finding]) -> list[str]:
    """A sentence for each file that had mistakes and has none any more, or fewer of them."""
    had, has = _by_file(before), _by_file(now)
    said = []
    for file, number in had.items():
        if not has[file]:
            said.append(f"{file}: fixed; it can be read again.")
        elif has[file] < number:
            said.append(f"{file}: {count(number - has[file], 'mistake')} fixed, {has[file]} left.")
    return [harmless(s) for s in said]


@dataclass(eq=False)
class Terminal:
    """Says what changes from one reading to the next; one reading at a time, however many threads
    ask.
    """

    preview: Preview
    _mistakes: tuple[Finding, ...] = ()
    _faults: dict[str, tuple[str, ...]] = field(default_factory=dict)
    _lock: Lock = field(default_factory=Lock)

    def tell(self, changed: Iterable[str]) -> None:
        """What was found in what was read now, as `check` says it, and what is found no more."""
        with self._lock:
            sources = self.preview.sources
            mistakes = sources.model.findings
            print_findings(mistakes, sources.loaded)
            root = sources.loaded.root  # a file that was taken away was not mended
            before = (
                f for f in self._mistakes if f.where is None or (root / f.where.file).exists()
            )
            for line in mended(before, mistakes):
                click.echo(line)
            self._mistakes = mistakes
            for name in changed:
                self._tell_build(name)

    def _tell_build(self, name: str) -> None:
        found = self.preview.findings(name)
        print_findings(found, self.preview.sources.loaded)
        faults = tuple(f.code for f in found if f.severity == Severity.FAULT)
        remarks = sum(f.severity == Severity.REMARK for f in found)
        gone = Counter(self._faults.get(name, ())) - Counter(faults)
        self._faults[name] = faults
        words = f"; fixed: {', '.join(sorted(gone.elements()))}" if gone else ""
        click.echo(f"{name}: {count(len(faults), 'fault')}, {count(remarks, 'remark')}{words}")
