"""What one publish knows and gathers while it runs."""

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from builder.diagnostics.finding import Finding, as_plain, from_plain, is_remark
from builder.load.files import Loaded
from builder.load.limits import Limits
from builder.model.guide.chapter import GuideChapter
from builder.model.guide.given_along import GivenAlong
from builder.model.read.workspace import Workspace
from builder.options import PublishOptions
from builder.pages.site.picture_files import PictureFile, guide_pictures
from builder.pages.site.site_pages import SitePages
from builder.pages.summaries.summary import Summary
from builder.pipeline.beside.guides import GuideSource
from builder.pipeline.jobs import Made
from builder.pipeline.owners import Owners, addresses_of, clash_mistake
from builder.publish.kept.manifest import JobRecord, Manifest, Output
from builder.publish.kept.stale import Lying, output_of, own_digest, sha
from builder.publish.kept.stopped_file import StoppedJobs
from builder.publish.plain_files import is_address
from builder.publish.stage import Stage
from builder.publish.workers.crew import Crew

# Told the names of the jobs that are about to run, and then each name as it ends.
Progress = Callable[[tuple[str, ...], str], None]


@dataclass(eq=False)
class PublishRun:
    """One publish while it runs: what it knows, and the records and files that it gathers. Local to
    a call.
    """

    options: PublishOptions
    model: Workspace
    site: SitePages
    templates: Mapping[str, str]
    code: str
    old: Manifest
    progress: Progress
    limits: Limits
    stage: Stage
    lying: Lying
    crew: Crew
    loaded: Loaded
    records: dict[str, JobRecord] = field(default_factory=dict)
    found: dict[str, tuple[Finding, ...]] = field(default_factory=dict)  # by job
    errors: list[str] = field(default_factory=list)
    left_out: dict[str, str] = field(default_factory=dict)
    remarks: dict[str | int, str] = field(default_factory=dict)
    remarks_before: int = (
        0  # of builds that are as they were; what else was found in them is found again
    )
    unprinted: bool = False
    pictures: dict[str, list[str]] = field(default_factory=dict)  # names of jobs, by build
    owners: Owners = field(default_factory=Owners)
    guides: dict[str, GuideSource] = field(default_factory=dict)  # by build
    along: dict[str, tuple[GivenAlong, ...]] = field(default_factory=dict)  # files, by build
    stopped_before: StoppedJobs = field(
        default_factory=dict
    )  # what ran into its limits in an earlier publish
    stopped: dict[str, tuple[str, str]] = field(
        default_factory=dict
    )  # and what did so, or would, in this one

    def limited(self, digest: str) -> str:
        """The digest of a job with its limits: what decides whether it runs into them."""
        return self.digest(digest, self.limits.seconds, self.limits.worker_megabytes)

    def was_stopped(self, name: str, digest: str) -> str:
        """What a job ran out of when it was tried before from the same, within the same limits; ''
        for any other.
        """
        before, kind = self.stopped_before.get(name, ("", ""))
        return kind if before == self.limited(digest) and not self.options.everything else ""

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the jobs found, in the order of their names, whichever ended first."""
        return tuple(f for _, findings in sorted(self.found.items()) for f in findings)

    @property
    def ready(self) -> dict[str, str]:
        """Builds that can be read and whose pictures can be published, each with its digest."""
        stops = ("data/picture", "data/too-slow", "data/address-taken")
        stopped = {f.build for f in self.findings if f.code in stops}
        stopped |= {f.build for f in self.found.get("guides", ())}
        return {n: digest for n, digest in self.model.digests.items() if n not in stopped}

    def digest(self, *pieces: object) -> str:
        """The digest of a job: what is its own, the code, the site's pages and the options."""
        digest = self._of_all.copy()
        digest.update("\0".join(map(str, pieces)).encode())
        return digest.hexdigest()

    def texts_digest(self, name: str) -> str:
        """The digest of a build's chapters as this version reads them; '' where it has none."""
        source = self.guides.get(name)
        return self.digest("texts", source.digest) if source is not None else ""

    def printed_chapters(self, name: str) -> tuple[GuideChapter, ...]:
        """The chapters of a build that are printed with its bench sheet."""
        return self.chapters(name) if self._prints_guide(name) else ()

    def printed_texts(self, name: str) -> str:
        """The digest of the chapters that are printed; '' where none are."""
        return self.texts_digest(name) if self._prints_guide(name) else ""

    def _prints_guide(self, name: str) -> bool:
        """Whether a build prints its chapters, without reading one that is as it was published."""
        if name not in self.guides:
            return False
        record = self.old.jobs.get(f"build:{name}")
        if record is not None and record.plain.get("model") == self.model.digests[name]:
            return bool(record.plain.get("guide_on_paper"))
        return self.model.builds[name].source.guide_on_paper

    def guide_before(self, name: str) -> Mapping[str, Any] | None:
        """What is known of a guide that is as it was when it was published."""
        record = self.old.jobs.get(f"guide:{name}")
        same = record is not None and record.plain.get("texts") == self.texts_digest(name)
        return record.plain if record is not None and same else None

    def chapters(self, name: str) -> tuple[GuideChapter, ...]:
        """The chapters of a build."""
        source = self.guides.get(name)
        return source.chapters if source is not None else ()

    def guide_writer(self, name: str) -> str:
        """The build whose chapters a build shows: itself, or one of its bases."""
        return self.guides[name].writer if name in self.guides else name

    def outline(self, name: str) -> str:
        """The digest of what other pages show of a guide; '' for a build without chapters."""
        if name not in self.guides:
            return ""
        before = self.guide_before(name)
        return self.guides[name].outline if before is None else str(before.get("outline", ""))

    def guide_pictures(self, name: str) -> tuple[PictureFile, ...]:
        """The pictures of a build's chapters."""
        if name not in self.guides:
            return ()
        before = self.guide_before(name)
        if before is None:
            return guide_pictures(self.guides[name].chapters)
        return tuple(PictureFile.from_plain(each) for each in before.get("pictures", ()))

    def picture_digest(self, *pieces: object) -> str:
        """The digest of a picture's job: neither templates nor the site's pages change a picture."""
        parts = (own_digest(), *pieces)
        words = "\0".join(map(str, parts))
        return sha(words.encode())

    def pictures_of_build(self, name: str) -> tuple[JobRecord, ...]:
        """What is kept of a build's pictures, one each."""
        names = self.pictures.get(name, ())
        made = [name for name in names if name in self.records]
        return tuple(self.records[name] for name in made)

    @cached_property
    def _of_all(self) -> "hashlib._Hash":
        return hashlib.sha256(f"{self.code}\0{self.site}\0{self.options.as_text()}\0".encode())

    def keep(self, name: str, *, kept: bool) -> bool:
        """Takes a job's published outputs over as they lie; False if they do not lie there whole."""
        record = self.old.jobs.get(name)
        if record is None or not self.lying.holds_all(record, careful=self.options.careful):
            return False
        if kept and name.startswith("build:") and not _has_summary(record):
            return False
        if (
            not all(map(is_address, record.outputs))
            or self.owners.claim(name, record.outputs) is not None
        ):
            return False
        self.records[name] = record if record.kept == kept else replace(record, kept=kept)
        return True

    def fresh(self, name: str, digest: str) -> bool:
        """Whether a job need not run: published from the same, and whole on the disk."""
        record = self.old.jobs.get(name)
        if (
            record is None
            or record.digest != digest
            or self.options.everything
            or not self.keep(name, kept=False)
        ):
            return False
        said = record.plain.get("findings", ())
        stops = [f for f in said if not is_remark(f)]
        self.found[name] = tuple(from_plain(f) for f in stops)
        self.remarks_before += len(said) - len(stops)
        return True

    def claim(self, name: str, *addresses: str) -> bool:
        """Gives a job its addresses; False, with a mistake that names both, where one of them is
        another's.
        """
        clash = self.owners.claim(name, addresses or addresses_of(name))
        if clash is not None:
            self.found[name] = (*self.found.get(name, ()), clash_mistake(name, clash))
        return clash is None

    def take(self, name: str, digest: str, made: Made) -> None:
        """Keeps what a job made: written to the stage, but for files that lie in the site as they
        were made now.
        """
        self.found[name] = made.findings
        if not self.claim(name, *made.files):
            return
        plain = {**made.plain, "findings": [as_plain(f) for f in made.findings]}
        outputs = {path: output_of(content) for path, content in made.files.items()}
        self.records[name] = JobRecord(digest, outputs, plain)
        for path, output in outputs.items():
            if not self._lies_there(path, output):
                self.stage.put(path, made.files[path])

    def _lies_there(self, path: str, output: Output) -> bool:
        published = self.old.outputs.get(path) == output
        return published and self.lying.holds(path, output, careful=self.options.careful)

    @property
    def summaries(self) -> tuple[Summary, ...]:
        """Of all builds that are on the site now, by name."""
        out = []
        for name, record in sorted(self.records.items()):
            if name.startswith("build:"):
                out.append(Summary.from_plain({**record.plain["summary"], "kept": record.kept}))
        return tuple(out)


def _has_summary(record: JobRecord) -> bool:
    """Whether the tables can show a kept build: an older version of Benchleaf may have kept less of
    it.
    """
    try:
        Summary.from_plain(record.plain["summary"])
    except (LookupError, TypeError, ValueError, AttributeError):
        return False
    return True
