"""Guides, sources and files that are given along, as jobs of their own: who mends a word of a chapter
makes that guide anew and nothing else.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path

from builder.model.build import Build
from builder.model.guide.chapter import GuideChapter
from builder.model.guide.given_along import GivenAlong
from builder.pages.guide.guide_page import guide_pages
from builder.pages.guide.known_words import mistakes_of_words
from builder.pages.sheet_input import SheetInput
from builder.pages.site.site_pages import SitePages
from builder.pages.site.source_given import SourceGiven, chain_of, source_given
from builder.pipeline.beside.guides import given_files, guide_source
from builder.pipeline.check import computed_alone
from builder.pipeline.jobs import Job, Made, PictureSizes, Wanted, stands_still
from builder.pipeline.run import PublishRun
from builder.pipeline.sides import side
from builder.pipeline.wanted import (
    as_it_is,
    picture_sizes,
    pictures_made,
    pictures_of_chain,
    source_digest,
)
from builder.publish.workers.pool import Maker
from builder.render.html.page import Renderer


@dataclass(frozen=True, eq=False)
class GuideJob:
    """The chapters of one build. What they name is known: the build's own pages were made first.

    `is_draft` is what was judged for those; None where nobody judged.
    """

    build: Build
    guide: tuple[GuideChapter, ...]
    along: tuple[GivenAlong, ...]
    site: SitePages
    templates: Mapping[str, str]
    draft: bool
    plain: Mapping[str, object] = field(default_factory=dict)
    sizes: PictureSizes = field(default_factory=dict)
    is_draft: bool | None = None

    def __call__(self) -> Made:
        """Makes them."""
        sheet = replace(self._alone(), build=self.build, guide=self.guide, given=self.along)
        if stands_still(sheet):
            return Made({})
        renderer = Renderer(self.templates)
        pages = guide_pages(sheet)
        files: dict[str, bytes] = {}
        for page in pages:
            files[page.address] = renderer.page(page, self.site, frozenset(), self.sizes)
        unknown = mistakes_of_words(sheet)
        return Made(files, self.plain, unknown)

    def _alone(self) -> SheetInput:
        if self.is_draft is not None:
            return computed_alone(self.build, draft=self.is_draft)
        return side(self.build, draft=self.draft)  # of a comparison perhaps: its words aside


@dataclass(frozen=True, eq=False)
class SourceJob:
    """What a build was made from, to start from, with its chapters and files."""

    given: SourceGiven

    def __call__(self) -> Made:
        """Makes it."""
        content = self.given.archive()
        address = f"{self.given.build}/source.zip"
        return Made({address: content})


@dataclass(frozen=True, eq=False)
class GivenJob:
    """One file that is given along, as it lies there."""

    address: str
    content: bytes

    def __call__(self) -> Made:
        """Makes it."""
        return Made({self.address: self.content})


def take_guides(run: PublishRun, root: Path) -> None:
    """Finds the chapters of every build; one with a chapter that cannot be read is not published."""
    for name in run.model.digests:
        source = guide_source(root, chain_of(name, run.model), run.limits)
        if not source.files and not source.unread:
            continue
        run.guides[name] = source
        if source.unread or run.guide_before(name) is None:
            run.found["guides"] = (*run.found.get("guides", ()), *source.findings)


def wanted_given(run: PublishRun, root: Path) -> Wanted:
    """A job for each file that is given along; a build with one that cannot be is not published."""
    wanted: dict[str, tuple[str, Maker[Made]]] = {}
    for name in run.model.digests:
        if not _gives_files(run, name):
            continue
        read = given_files(run.model.builds[name], root, run.limits)
        run.found["guides"] = (*run.found.get("guides", ()), *read.findings)
        run.along[name] = read.given
        for each in read.given:
            address = f"{name}/files/{each.name}"
            digest = run.digest("given", address, each.digest)
            job = GivenJob(address, read.contents[each.name])
            wanted[f"given:{name}:{each.name}"] = (digest, partial(as_it_is, job))
    return wanted


def _gives_files(run: PublishRun, name: str) -> bool:
    """Whether a build gives files along, without reading one that is as it was published."""
    record = run.old.jobs.get(f"build:{name}")
    same = record is not None and record.plain.get("model") == run.model.digests[name]
    if record is not None and same:
        return bool(record.plain.get("files"))
    return bool(run.model.builds[name].source.files)


def _guide_job(run: PublishRun, name: str) -> Job:
    build = run.model.builds[name]
    chapters, along = run.chapters(name), run.along.get(name, ())
    pictures = [p.as_plain() for p in run.guide_pictures(name)]
    texts, outline = run.texts_digest(name), run.outline(name)
    plain = {"texts": texts, "outline": outline, "pictures": pictures}
    sizes = picture_sizes(run, name)
    said = run.records[f"build:{name}"].plain["summary"]
    is_draft = bool(said.get("draft"))
    draft = run.options.draft
    return GuideJob(build, chapters, along, run.site, run.templates, draft, plain, sizes, is_draft)


def _source_job(run: PublishRun, name: str) -> Job:
    writer = run.guide_writer(name)
    given = source_given(name, run.model, run.loaded, pictures_of_chain(run, name), writer)
    if given is None:
        raise ValueError(f"the source of {name} was given when its pages were made")
    guide = run.guides.get(name)
    listed = guide.files if guide is not None else ()
    texts = {each.file: each.text for each in listed}
    files = _files(run, writer) | _files(run, name)
    titles = tuple(chapter.title for chapter in run.chapters(name))
    whole = replace(given, chapters=texts, files=files, titles=titles)
    return SourceJob(whole)


def _files(run: PublishRun, name: str) -> dict[str, bytes]:
    """The files that are given along, as the source names them."""
    if name not in run.along:
        return {}
    listed = run.model.builds[name].source.files
    there = {f.name: f"{name}/files/{f.name}" for f in listed}
    return {f"{name}/{f.file}": run.stage.read(there[f.name]) for f in listed}


def wanted_of_guides(run: PublishRun) -> Wanted:
    """Guides and sources of builds whose pages were made; those of a build that is kept are kept."""
    wanted: dict[str, tuple[str, Maker[Made]]] = {}
    for name, build in run.ready.items():
        record = run.records.get(f"build:{name}")
        if record is None or record.kept:
            for kind in ("guide", "source"):
                run.keep(f"{kind}:{name}", kept=True)
            continue
        if name in run.guides:
            made = sorted(pictures_made(run, name).items())
            words = run.texts_digest(name)
            digest = run.digest("guide", name, build, words, made)
            wanted[f"guide:{name}"] = (digest, partial(_guide_job, run, name))
        if record.plain.get("gives"):
            texts = run.texts_digest(name)
            given = (*run.along.get(name, ()), *run.along.get(run.guide_writer(name), ()))
            along = [(f.name, f.digest) for f in given]
            beside = source_digest(run, name)
            digest = run.digest("source", name, build, beside, texts, along)
            wanted[f"source:{name}"] = (digest, partial(_source_job, run, name))
    return wanted
