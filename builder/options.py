"""Options of a run, as the command line gives them. Ground floor: frozen values, no behaviour."""

from dataclasses import dataclass, field
from pathlib import Path


@dataclass(frozen=True, slots=True)
class PublishOptions:
    """How to publish. `base` is the sub-folder of the address under which the site will lie.

    `cluster` is the address of a Dask scheduler; without it the work is done on this machine.
    """

    workspace: Path = field(default_factory=Path)
    draft: bool = False
    pdf: bool = True
    workers: int = 0
    base: str = ""
    careful: bool = False
    everything: bool = False
    cluster: str = ""

    def as_text(self) -> str:
        """What of these changes the bytes of a page or a PDF."""
        return f"draft={self.draft} base={self.base}"
