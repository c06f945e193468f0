"""Which job makes what the preview shows, and of what it is made."""

import hashlib
from dataclasses import dataclass, replace
from typing import cast

from builder.diagnostics.finding import Finding
from builder.model.guide.chapter import GuideChapter, guide_address
from builder.pages.page_map import BENCH, CHOOSE, NUMBERS, PRINTED, page_address
from builder.pages.site.picture_files import guide_pictures, picture_files, printed_pictures
from builder.pages.site.reference_page import MISSING_PAGE
from builder.pages.site.source_given import chain_of, part_given, source_given
from builder.pages.summaries.summary import Summary
from builder.pipeline.beside.guides import GivenFiles, given_files, outline_digest
from builder.pipeline.build_jobs import BuildJob, CompareJob, PdfJob
from builder.pipeline.choose_jobs import ChooseJob
from builder.pipeline.guide_jobs import GuideJob, SourceJob
from builder.pipeline.jobs import Made, PartJob
from builder.pipeline.part_jobs import WantedPart, wanted_parts
from builder.pipeline.picture_jobs import picture_jobs
from builder.pipeline.preview.preview_memory import NOTHING_MADE, PreviewMemory
from builder.pipeline.sheet_job import SheetJob
from builder.pipeline.table_jobs import ReferenceJob, TablesJob, limits_shown, listed_parts


@dataclass(eq=False)
class PreviewJobs(PreviewMemory):
    """The pages, pictures and files of the site, each made anew where what it is made of is not as it was."""

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
            return NOTHING_MADE
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
            return NOTHING_MADE
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
        _, before = self._made.get(all_of_it, ("", NOTHING_MADE))
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
            return NOTHING_MADE
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
            return self._made.get(f"part:{name}", ("", NOTHING_MADE))[1]
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
            page_address(n, page)
            for n in sources.builds
            for page in (NUMBERS, BENCH, PRINTED, CHOOSE)
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
