"""The site as it would be published now, each file made when it is asked for and held in memory;
nothing is written.

Pages are made in one process, sheets to print and pictures in another, each job within the bounds
that a publish sets.

What cannot be read or made any more keeps the last pages that could be, and the reason is said
beside them.
"""

import hashlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path
from threading import Condition
from typing import TypeVar, cast

from builder.diagnostics.finding import Finding
from builder.load.files import Loaded
from builder.model.build import Build
from builder.model.guide.chapter import GuideChapter, guide_address
from builder.model.read.workspace import Workspace
from builder.pages.compare.pairs import pairs_to_compare
from builder.pages.page_map import BENCH, NUMBERS, PRINTED, page_address
from builder.pages.site.card import card_address
from builder.pages.site.picture_files import guide_pictures, picture_files, printed_pictures
from builder.pages.site.reference_page import MISSING_PAGE, missing_page
from builder.pages.site.site_pages import SitePages, site_pages
from builder.pages.site.source_given import chain_of, part_given, source_given
from builder.pages.summaries.summary import Summary
from builder.pipeline.beside.guides import (
    GivenFiles,
    GuideSource,
    given_files,
    guide_source,
    outline_digest,
)
from builder.pipeline.check import read
from builder.pipeline.choose_jobs import ChooseJob
from builder.pipeline.guide_jobs import GuideJob, SourceJob
from builder.pipeline.job_bounds import too_much
from builder.pipeline.jobs import BuildJob, CompareJob, Job, Made, PartJob, PdfJob
from builder.pipeline.part_jobs import WantedPart, wanted_parts
from builder.pipeline.picture_jobs import picture_jobs
from builder.pipeline.preview_state import State
from builder.pipeline.sheet_job import SheetJob
from builder.pipeline.table_jobs import ReferenceJob, TablesJob, limits_shown, listed_parts
from builder.publish.workers.bounded import TooLong
from builder.publish.workers.one_at_a_time import OwnProcess
from builder.render.assets import asset_files
from builder.render.html.page import Renderer, refuse_links, template_texts

_NOTHING = Made({})
_ON_PAPER = ("pdf:", "pictures:")  # names of jobs that take long

_STOPPED = ("data/too-slow", "data/too-large")

_T = TypeVar("_T")


@dataclass(frozen=True, eq=False)
class _Sources:
    """What was read last; builds that cannot be read now are those that could be read before."""

    loaded: Loaded
    model: Workspace
    builds: dict[str, Build]
    site: SitePages
    texts: dict[str, str]
    assets: dict[str, bytes]
    turn: int  # how often the sources were read
    guides: dict[str, GuideSource] = field(default_factory=dict)
    chapters: dict[str, tuple[GuideChapter, ...]] = field(default_factory=dict)

    @cached_property
    def shared(self) -> str:
        """What every page depends on besides its own."""
        return hashlib.sha256(repr((self.site, sorted(self.texts.items()))).encode()).hexdigest()

    @cached_property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """Which builds are put side by side."""
        return pairs_to_compare(
            self.builds,
            {n: b.source.based_on or "" for n, b in self.builds.items()},
            self.model.site.compare,
        )


def _chapters(
    guides: dict[str, GuideSource], old: _Sources | None
) -> dict[str, tuple[GuideChapter, ...]]:
    """The chapters of each build; one with a mistake as it was before it had that."""
    made: dict[str, tuple[GuideChapter, ...]] = {}
    for name, source in guides.items():
        before = old.chapters.get(name, ()) if old is not None else ()
        held = {chapter.file: chapter for chapter in before}
        held |= {chapter.file: chapter for chapter in source.chapters}
        there = [each.file for each in source.files]
        there += [_file(each) for each in source.unread]
        named = sorted(set(there))
        made[name] = tuple(held[file] for file in named if file in held)
    return made


def _is_other(name: str, old: _Sources, new: _Sources) -> bool:
    """Whether a build or its chapters are not as they were."""
    if name not in old.builds:
        return True
    was, now = old.builds[name], new.builds[name]
    if was.digest != now.digest:
        return True
    before, after = old.guides[name], new.guides[name]
    return before.digest != after.digest


def _file(finding: Finding) -> str:
    return finding.where.file if finding.where is not None else ""


@dataclass(eq=False)
class Preview:
    """Serves any number of threads. Who waits for a job lets the others go on, with what is made or
    in other processes.
    """

    workspace: Path
    _lock: Condition = field(
        default_factory=Condition
    )  # let go while a job runs, however deep it is held
    _running: set[str] = field(default_factory=set)
    # A second one for pages starts when the first is at work: a page that hangs holds up no other.
    _pages: tuple[OwnProcess, ...] = field(default_factory=lambda: (OwnProcess(), OwnProcess()))
    _paper: OwnProcess = field(default_factory=OwnProcess)
    _made: dict[str, tuple[str, Made]] = field(default_factory=dict)
    _errors: dict[str, str] = field(default_factory=dict)
    _asked: list[str] = field(default_factory=list)
    _sources: _Sources | None = None

    def refresh(self) -> tuple[str, ...]:
        """Reads the sources again; gives the builds that became others, those last looked at first."""
        try:
            loaded, model = read(self.workspace, self._sources.loaded if self._sources else None)
            own = self.workspace / "templates"
            refuse_links(own)
            texts, assets = template_texts(own), asset_files(own / "static")
        except Exception as error:  # noqa: BLE001 - whatever a half-saved file does, the preview goes on
            with self._lock:
                self._errors["sources"] = f"reading: {type(error).__name__}: {error}"
            return ()
        with self._lock:
            old = self._sources
            self._errors.pop("sources", None)
            builds = {
                n: b
                for n, b in (old.builds if old else {}).items()
                if n in model.names or model.stops_all
            }
            builds.update(model.builds if not (old and model.stops_all) else {})
            site = old.site if old and model.stops_all else site_pages(model.site)
            guides = {
                n: guide_source(loaded.root, b.chain, loaded.limits) for n, b in builds.items()
            }
            new = _Sources(
                loaded,
                model,
                dict(sorted(builds.items())),
                site,
                texts,
                assets,
                old.turn + 1 if old else 0,
            )
            new = replace(new, guides=guides, chapters=_chapters(guides, old))
            self._sources = new
            changed = [n for n in builds if old is None or _is_other(n, old, new)]
            if old and old.shared != new.shared:
                changed = list(builds)
            return tuple(
                sorted(changed, key=lambda n: (-self._asked.index(n) if n in self._asked else 1, n))
            )

    @property
    def sources(self) -> _Sources:
        """What was read last."""
        if self._sources is None:
            self.refresh()
        if self._sources is None:
            raise RuntimeError(self._errors["sources"])
        return self._sources

    def _of_one_reading(self, what: Callable[[], _T]) -> _T:
        """What is asked of the sources; asked again where they became others in the middle and what
        was there has gone.
        """
        with self._lock:
            while True:
                before = self.sources
                try:
                    return what()
                except KeyError:
                    if before is self.sources:
                        raise

    def close(self) -> None:
        """Ends the processes, whatever they do."""
        for process in self._pages:
            process.close()
        self._paper.close()

    def file(self, address: str) -> bytes | None:
        """The bytes of a file of the site; None where there is none."""
        return self._of_one_reading(
            lambda: next(
                (made.files[address] for made in self._may_hold(address) if address in made.files),
                None,
            )
        )

    def missing(self) -> bytes:
        """The page for an address that does not exist; the preview lies at the top of its address."""
        with self._lock:
            site, texts = replace(self.sources.site, address=""), self.sources.texts
            made = self._make(
                "missing",
                "",
                lambda: Made({MISSING_PAGE: Renderer(texts).page(missing_page(), site)}),
                here=True,
            )
            return made.files.get(MISSING_PAGE, b"")

    def state(self, address: str) -> State:
        """What stands at an address, and what is to be said of it."""
        return self._of_one_reading(lambda: self._state(address))

    def _state(self, address: str) -> State:
        content = self.file(address) or self.missing()
        name = address.split("/")[0]
        if name in self.sources.builds:
            self._asked = [*(n for n in self._asked if n != name), name]
        found = [*self.sources.model.findings]
        found += self.sources.guides[name].findings if name in self.sources.guides else ()
        for kind in ("sheet", "guide", "pictures", "build", "pdf"):
            made = self._made.get(f"{kind}:{name}") if name in self.sources.builds else None
            stopped_only = kind in ("build", "pdf")  # what else they find the sheet finds as well
            found += (
                [f for f in made[1].findings if not stopped_only or f.code in _STOPPED]
                if made
                else []
            )
        page = hashlib.sha256(content)
        for asset, held in sorted(self.sources.assets.items()):
            page.update(asset.encode() + hashlib.sha256(held).digest())
        return State(
            page.hexdigest()[:16], tuple(dict.fromkeys(found)), tuple(self._errors.values())
        )

    def findings(self, build: str) -> tuple[Finding, ...]:
        """What the rules find in one build; nothing where it has gone."""
        return self._of_one_reading(
            lambda: (
                (*self._sheet(build).findings, *self._pictures(build).findings)
                if build in self.sources.builds
                else ()
            )
        )

    def _may_hold(self, address: str) -> Iterator[Made]:
        """What may hold a file, made one after the other; no address leads to the disk."""
        sources, steps = self.sources, address.split("/")
        if steps[0] == "assets":
            yield Made(sources.assets)
        elif steps[0] == "compare" and len(steps) == 4:
            yield self._compare(steps[1], steps[2])
        elif steps[0] == "parts" and len(steps) == 3:
            yield self._part(steps[1])
        elif steps[0] in sources.builds and (
            steps[-1].endswith(".pdf") or address == card_address(steps[0])
        ):
            yield self._pdf(steps[0])
        elif steps[0] in sources.builds and steps[1:2] == ["guide"] and steps[-1] == "index.html":
            yield self._guide(steps[0])
        elif steps[0] in sources.builds and steps[1:] == ["choose", "index.html"]:
            yield self._choose(steps[0])
        elif steps[0] in sources.builds and steps[1:2] == ["files"]:
            yield self._given(steps[0])
        elif steps[0] in sources.builds and steps[1:] == ["source.zip"]:
            yield self._source(steps[0])
        elif steps[0] in sources.builds:
            yield self._sheet(steps[0])
            yield self._pictures(steps[0])
            yield self._build(steps[0])
        else:
            yield self._make("reference", "", ReferenceJob(sources.site, sources.texts))
            yield self._tables()

    def _make(self, name: str, digest: str, job: Job, *, here: bool = False) -> Made:
        """What a job makes, from memory where it was made of the same; where it fails, what it made
        last.
        """
        whole = f"{self.sources.shared} {digest}"
        while name in self._running:
            self._lock.wait()
        held = self._made.get(name)
        if held is not None and held[0] == whole:
            return held[1]
        kept = held[1] if held else _NOTHING
        self._running.add(name)
        try:
            self._made[name] = (whole, job() if here else self._apart(name, job))
            self._errors.pop(name, None)
        except (TooLong, MemoryError) as error:
            kind = "time" if isinstance(error, TooLong) else "memory"
            stopped = too_much(name, kind, self.sources.loaded.limits)
            self._made[name] = (whole, replace(kept, findings=(stopped,)))
            self._errors.pop(name, None)
        except Exception as error:  # noqa: BLE001 - one page that cannot be made must not end the preview; it is said
            self._errors[name] = f"making {name}: {type(error).__name__}: {error}"
            self._made[name] = (whole, kept)
        finally:
            self._running.discard(name)
            self._lock.notify_all()
        return self._made[name][1]

    def _apart(self, name: str, job: Job) -> Made:
        """What a job makes in a process of its own; meanwhile others are served."""
        least_held_up = min(self._pages, key=lambda one: one.waiting)
        process = self._paper if name.startswith(_ON_PAPER) else least_held_up
        limits = self.sources.loaded.limits
        ended = process.submit(job, limits.seconds, limits.worker_megabytes)
        ended.add_done_callback(self._tell)
        while not ended.done():
            self._lock.wait()
        return ended.result()

    def _tell(self, ended: object) -> None:
        """Wakes all who wait for a job; the one whose it was looks."""
        with self._lock:
            self._lock.notify_all()

    def _sheet(self, name: str) -> Made:
        sources, build = self.sources, self.sources.builds[name]
        chapters = sources.chapters[name]
        given = self._along(name).given
        job = SheetJob(build, sources.site, sources.texts, chapters, given)
        outline = outline_digest(chapters)
        digest = f"{build.digest} {outline} {given!r}"
        return self._make(f"sheet:{name}", digest, job)

    def _guide(self, name: str) -> Made:
        """The chapters of a build; its other pages are not made for them."""
        sources, build = self.sources, self.sources.builds[name]
        chapters = sources.chapters[name]
        if not chapters:
            return _NOTHING
        sizes = self._sizes(name)
        job = GuideJob(build, chapters, (), sources.site, sources.texts, True, sizes=sizes)
        written = [c.markdown for c in chapters]
        return self._make(f"guide:{name}", repr((build.digest, written, sizes)), job)

    def _choose(self, name: str) -> Made:
        """The page of swaps, from the shelf as it is now."""
        sources, build = self.sources, self.sources.builds[name]
        shelf = dict(sources.model.shelf)
        job = ChooseJob(build, shelf, sources.site, sources.texts, True)
        parts = [facts.digest for facts in sources.model.parts.values()]
        return self._make(f"choose:{name}", repr((build.digest, parts)), job)

    def _sizes(self, name: str) -> dict[str, tuple[int, int]]:
        """Width and height of the photographs of a build."""
        said = self._pictures(name).plain.get("sizes", {})
        return cast(dict[str, tuple[int, int]], said)

    def _given(self, name: str) -> Made:
        """A file that is given along."""
        contents = self._along(name).contents
        return Made({f"{name}/files/{each}": content for each, content in contents.items()})

    def _along(self, name: str) -> GivenFiles:
        """The files that a build gives along, read now."""
        sources = self.sources
        loaded = sources.loaded
        build = sources.builds[name]
        return given_files(build, loaded.root, loaded.limits)

    def _build(self, name: str) -> Made:
        sources, build = self.sources, self.sources.builds[name]
        pictures: dict[str, bytes] = {}
        for each in chain_of(name, sources.model):
            pictures |= self._pictures(each).files
        writer = sources.guides[name].writer
        given = source_given(name, sources.model, sources.loaded, pictures, writer)
        seen = [hashlib.sha256(content).hexdigest() for content in pictures.values()]
        chapters = sources.chapters[name]
        along = self._along(name).given
        job = BuildJob(
            build,
            sources.site,
            sources.texts,
            True,
            given=given,
            guide=chapters,
            along=along,
        )
        outline = outline_digest(chapters)
        words = [chapter.markdown for chapter in self._printed(name)]
        shown = (build.digest, outline, repr(along), repr(words), *seen)
        digest = " ".join(shown)
        return self._make(f"build:{name}", digest, job)

    def _source(self, name: str) -> Made:
        """What a build was made from, to start from."""
        sources = self.sources
        pictures: dict[str, bytes] = {}
        for each in chain_of(name, sources.model):
            pictures |= self._pictures(each).files
        source = sources.guides[name]
        given = source_given(name, sources.model, sources.loaded, pictures, source.writer)
        if given is None:
            return _NOTHING
        files: dict[str, bytes] = {}
        for each in dict.fromkeys((source.writer, name)):
            contents = self._along(each).contents
            listed = sources.builds[each].source.files
            files |= {f"{each}/{f.file}": contents[f.name] for f in listed if f.name in contents}
        texts = {f.file: f.text for f in source.files}
        titles = tuple(chapter.title for chapter in sources.chapters[name])
        whole = replace(given, chapters=texts, files=files, titles=titles)
        job = SourceJob(whole)
        return job()

    def _pdf(self, name: str) -> Made:
        sources, build = self.sources, self.sources.builds[name]
        published, guide = self._pictures(name).files, self._printed(name)
        shown = printed_pictures(build, guide)
        pictures = {p: published[p] for p in shown if p in published}
        most = sources.loaded.limits.paper_kilobytes
        job = PdfJob(build, sources.site, sources.texts, True, build.digest, most, pictures, guide)
        seen = [hashlib.sha256(content).hexdigest() for content in pictures.values()]
        words = repr([chapter.markdown for chapter in guide])
        return self._make(f"pdf:{name}", " ".join((build.digest, words, *seen)), job)

    def _printed(self, name: str) -> tuple[GuideChapter, ...]:
        """The chapters that are printed with a build's bench sheet."""
        asked = self.sources.builds[name].source.guide_on_paper
        return self.sources.chapters[name] if asked else ()

    def _pictures(self, name: str) -> Made:
        sources = self.sources
        all_of_it = f"pictures:{name}"
        _, before = self._made.get(all_of_it, ("", _NOTHING))
        files: dict[str, bytes] = {}
        findings: list[Finding] = []
        shown = picture_files(sources.builds[name]), guide_pictures(sources.chapters[name])
        wanted = [(name, (*shown[0], *shown[1]))]
        sizes: dict[str, object] = {}
        for jobs, wrong in picture_jobs(wanted, sources.loaded.root, sources.loaded.limits):
            findings += wrong
            for job_name, (digest, job) in jobs.items():
                made = self._make(job_name, digest, job)
                files |= made.files
                findings += made.findings
                sizes |= cast(dict[str, object], made.plain.get("sizes", {}))
        kept = before.files if findings else {}
        there = {**kept, **files}
        whole = Made(there, {"sizes": sizes}, tuple(findings))
        self._made[all_of_it] = ("", whole)
        return whole

    def _compare(self, first: str, second: str) -> Made:
        sources = self.sources
        if (first, second) not in sources.pairs:
            return _NOTHING
        a, b = sources.builds[first], sources.builds[second]
        job = CompareJob(a, b, sources.site, sources.texts, True)
        return self._make(f"compare:{first}:{second}", f"{a.digest} {b.digest}", job)

    def _summaries(self) -> tuple[Summary, ...]:
        made = [self._sheet(name) for name in self.sources.builds]
        said = [cast(dict[str, object], m.plain["summary"]) for m in made if m.plain]
        return tuple(Summary.from_plain({**one, "kept": False}) for one in said)

    def _parts(self) -> dict[str, WantedPart]:
        names = {shelf: facts.name for shelf, facts in self.sources.model.parts.items()}
        return {w.shelf: w for w in wanted_parts(names, self._summaries())}

    def _part(self, name: str) -> Made:
        wanted = self._parts().get(name)
        if wanted is None:
            return self._made.get(f"part:{name}", ("", _NOTHING))[1]
        sources = self.sources
        given = part_given(name, sources.model, sources.loaded)
        digest = f"{sources.model.parts[name].digest} {wanted!r} {bool(given)}"
        return self._make(
            f"part:{name}",
            digest,
            PartJob(sources.model.shelf[name], wanted, sources.site, sources.texts, given),
        )

    def _tables(self) -> Made:
        sources, summaries = self.sources, self._summaries()
        addresses = [
            page_address(n, page) for n in sources.builds for page in (NUMBERS, BENCH, PRINTED)
        ]
        addresses += [a for n in sources.builds for a in self._sheet(n).files]
        for name, chapters in sources.chapters.items():
            if chapters:
                addresses.append(guide_address(name))
            addresses += [chapter.page for chapter in chapters]
        addresses += [f"compare/{a}/{b}/index.html" for a, b in sources.pairs]
        addresses += [f"parts/{p}/index.html" for p in self._parts()]
        reference = self._make("reference", "", ReferenceJob(sources.site, sources.texts))
        addresses += [a for a in reference.files if a.endswith(".html") and a != MISSING_PAGE]
        pairs = tuple(sorted(sources.pairs, key=":".join))  # the order of their jobs
        limits = limits_shown(sources.model.site)
        used = tuple(self._parts().values())
        parts = listed_parts(sources.model.shelf, used)
        pages = tuple(addresses)
        job = TablesJob(summaries, pairs, sources.site, sources.texts, pages, limits, parts)
        made_of = repr((summaries, pairs, pages, limits, parts))
        return self._make("tables", made_of, job)
