"""What one publish knows and gathers while it runs."""

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from builder.diagnostics.finding import Finding, as_plain, from_plain
from builder.load.limits import Limits
from builder.model.build import Build
from builder.model.workspace import Workspace
from builder.options import PublishOptions
from builder.pages.site_pages import SitePages
from builder.pages.summary import Summary
from builder.pipeline.jobs import Made
from builder.publish.manifest import JobRecord, Manifest
from builder.publish.stale import is_whole, output_of

# Told the names of the jobs that are about to run, and then each name as it ends.
Progress = Callable[[tuple[str, ...], str], None]


@dataclass(eq=False)
class Run:
    """One publish while it runs: what it knows, and the records and files that it gathers. Local to a call."""

    options: PublishOptions
    model: Workspace
    site: SitePages
    templates: Mapping[str, str]
    code: str
    old: Manifest
    progress: Progress
    limits: Limits
    records: dict[str, JobRecord] = field(default_factory=dict)
    files: dict[str, bytes | None] = field(default_factory=dict)
    found: dict[str, tuple[Finding, ...]] = field(default_factory=dict)  # by job
    errors: list[str] = field(default_factory=list)
    left_out: dict[str, str] = field(default_factory=dict)
    remarks: dict[str, str] = field(default_factory=dict)
    unprinted: bool = False

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the jobs found, in the order of their names, whichever ended first."""
        return tuple(f for _, findings in sorted(self.found.items()) for f in findings)

    @property
    def ready(self) -> Mapping[str, Build]:
        """Builds that can be read and whose pictures can be published."""
        stopped = {f.build for f in self.findings if f.code == "data/picture" or f.code == "data/too-slow"}
        return {n: b for n, b in self.model.builds.items() if n not in stopped}

    @property
    def folder(self) -> Path:
        """Where the site lies."""
        return self.options.workspace / "site"

    def digest(self, *pieces: object) -> str:
        """The digest of a job: what is its own, the code, the site's pages and the options."""
        text = "\0".join(map(str, (self.code, self.site, self.options.as_text(), *pieces)))
        return hashlib.sha256(text.encode()).hexdigest()

    def keep(self, name: str, *, kept: bool) -> bool:
        """Takes a job's published outputs over as they lie; False if they do not lie there whole."""
        record = self.old.jobs.get(name)
        if record is None or not is_whole(self.folder, record, careful=self.options.careful):
            return False
        self.records[name] = JobRecord(record.digest, record.outputs, record.plain, kept)
        self.files.update(dict.fromkeys(record.outputs))
        return True

    def fresh(self, name: str, digest: str) -> bool:
        """Whether a job need not run: published from the same, and whole on the disk."""
        record = self.old.jobs.get(name)
        if record is None or record.digest != digest or self.options.everything or not self.keep(name, kept=False):
            return False
        self.found[name] = tuple(from_plain(f) for f in record.plain.get("findings", ()))
        return True

    def take(self, name: str, digest: str, made: Made) -> None:
        """Keeps what a job made."""
        self.found[name] = made.findings
        plain = {**made.plain, "findings": [as_plain(f) for f in made.findings]}
        self.records[name] = JobRecord(digest, {p: output_of(c) for p, c in made.files.items()}, plain)
        self.files.update(made.files)

    @property
    def summaries(self) -> tuple[Summary, ...]:
        """Of all builds that are on the site now, by name."""
        out = []
        for name, record in sorted(self.records.items()):
            if name.startswith("build:"):
                out.append(Summary.from_plain({**record.plain["summary"], "kept": record.kept}))
        return tuple(out)
