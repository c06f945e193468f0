"""How an address stands: made, in the making, or lost to a mistake."""

from dataclasses import dataclass

from builder.diagnostics.finding import Finding, Severity


@dataclass(frozen=True)
class State:
    """What a page shows and what is to be said of it: findings of its build, and of everything that
    cannot be read.
    """

    page: str
    findings: tuple[Finding, ...]
    errors: tuple[str, ...]

    @property
    def stops(self) -> int:
        """How many mistakes, faults and errors there are."""
        return sum(f.severity != Severity.REMARK for f in self.findings) + len(self.errors)
