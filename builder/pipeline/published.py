"""What a publish ends with."""

from dataclasses import dataclass

from builder.diagnostics.finding import Finding
from builder.load.files import Loaded


@dataclass(frozen=True)
class Published:
    """What a publish did: findings, builds by what became of them, and how many files were made."""

    loaded: Loaded
    findings: tuple[Finding, ...]
    published: tuple[str, ...]
    kept: tuple[str, ...]
    left_out: tuple[str, ...]
    files: int
    written: int
    removed: int
    errors: tuple[str, ...]
    not_made: tuple[str, ...] = ()  # what this machine could not make, a sentence each
    remarks: tuple[str, ...] = ()  # how it was done otherwise than asked for
    unprinted: bool = (
        False  # a bench sheet is not there, as it was not to be made, so no page links to it
    )
    remarks_before: int = 0  # remarks on builds that are as they were, which are not said again

    @property
    def unsettled(self) -> bool:
        """Whether it might end otherwise when it is run again: errors inside, time or memory, what
        was lacking.
        """
        return bool(self.errors or self.not_made) or any(
            f.code == "data/too-slow" for f in self.findings
        )
