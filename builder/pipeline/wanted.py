"""Which jobs a publish has, with the digest of all that each depends on; one is made when its turn
comes.
"""

import hashlib
import json
from collections.abc import Iterator
from functools import partial
from pathlib import Path

from builder.diagnostics.finding import Finding
from builder.model.read.read_cache import digest_of
from builder.model.values.names import picture_mistake
from builder.model.words_aside import words_aside
from builder.pages.compare.pairs import pairs_to_compare
from builder.pages.site.picture_files import PictureFile, picture_files, printed_pictures
from builder.pages.site.reference_page import MISSING_PAGE
from builder.pages.site.source_given import chain_of, part_given, source_given, tree_of
from builder.pipeline.build_jobs import BuildJob, CompareJob, PdfJob
from builder.pipeline.jobs import Job, Made, PartJob, Wanted
from builder.pipeline.part_jobs import WantedPart, on_part_pages, wanted_parts
from builder.pipeline.picture_jobs import picture_jobs
from builder.pipeline.run import PublishRun
from builder.pipeline.table_jobs import ReferenceJob, TablesJob, limits_shown, listed_parts
from builder.publish.workers.pool import Maker
from builder.render.paper.pdf_libraries import lacking


def _build_job(run: PublishRun, name: str, printed: bool) -> Job:
    pictures, writer = pictures_of_chain(run, name), run.guide_writer(name)
    given = source_given(name, run.model, run.loaded, pictures, writer)
    build = run.model.builds[name]
    return BuildJob(
        build,
        run.site,
        run.templates,
        run.options.draft,
        printed,
        given,
        picture_sizes(run, name),
        run.chapters(name),
        run.along.get(name, ()),
        run.model.digests[name],
    )


def pictures_of_chain(run: PublishRun, name: str) -> dict[str, bytes]:
    """The published pictures of a build and of its bases, by address."""
    made = [path for each in chain_of(name, run.model) for path in pictures_made(run, each)]
    return {path: run.stage.read(path) for path in made}


def source_digest(run: PublishRun, name: str) -> str:
    """The digest of what a build's source holds beside the build as it was resolved: its bases, what
    each variant says itself, and the pictures.
    """
    chain = chain_of(name, run.model)
    models = [run.model.digests[each] for each in chain]
    said = [tree_of(run.loaded, f"{each}/build.yaml") for each in chain[:-1]]
    pictures = [sorted(pictures_made(run, each).items()) for each in chain]
    return digest_of(models, said, pictures)


def _build_digest(run: PublishRun, name: str, digest: str, printed: bool) -> str:
    """The digest of a build's pages: those that lead to a PDF are others than those that do not."""
    return run.digest("build", name, digest, *(() if printed else ("unprinted",)))


def _prints(run: PublishRun) -> bool:
    """Whether PDFs are made: they are asked for, and not known to be out of reach here."""
    return run.options.pdf and bool(run.options.cluster or not lacking())


def pictures_made(run: PublishRun, name: str) -> dict[str, str]:
    """The digests of a build's published pictures, by address."""
    made = run.pictures_of_build(name)
    return {path: output.sha for one in made for path, output in one.outputs.items()}


def picture_sizes(run: PublishRun, name: str) -> dict[str, tuple[int, int]]:
    """Width and height of a build's photographs, as their jobs wrote them down."""
    sizes: dict[str, tuple[int, int]] = {}
    for made in run.pictures_of_build(name):
        said = made.plain.get("sizes", {})
        for address, size in said.items():
            wide, high = map(int, size)
            sizes[address] = (wide, high)
    return sizes


def _along(run: PublishRun, name: str) -> list[list[object]]:
    """What a page shows of the files that are given along."""
    return [[f.name, f.what, f.size, f.digest] for f in run.along.get(name, ())]


def _pdf_job(run: PublishRun, name: str) -> Job:
    build, made = run.model.builds[name], pictures_made(run, name)
    guide = run.printed_chapters(name)
    shown = printed_pictures(build, guide)
    pictures = {path: run.stage.read(path) for path in shown if path in made}
    most, draft, digest = run.limits.paper_kilobytes, run.options.draft, build.digest
    return PdfJob(build, run.site, run.templates, draft, digest, most, pictures, guide)


def _compare_job(run: PublishRun, first: str, second: str) -> Job:
    a, b = (words_aside(run.model.builds[name]) for name in (first, second))
    return CompareJob(a, b, run.site, run.templates, run.options.draft)


def wanted_of_builds(run: PublishRun) -> Wanted:
    """Jobs that need no more than builds: sheets, PDFs, pairs, references.

    The builds that were read last come first, for they are held still; a pair comes with the later
    of its two.
    """
    ready, prints = run.ready, _prints(run)
    wanted: dict[str, tuple[str, Maker[Made]]] = {
        "reference": (run.digest("reference"), partial(ReferenceJob, run.site, run.templates)),
    }
    pairs: dict[str, list[tuple[str, str]]] = {}
    bases = {n: next(iter(run.model.builds.facts[n].bases), "") for n in ready}
    for pair in pairs_to_compare(ready, bases, run.model.site.compare):
        pairs.setdefault(min(pair), []).append(pair)
    for name, build in reversed(ready.items()):
        words = run.printed_texts(name)
        paper = run.digest("pdf", name, build, words, *pictures_made(run, name).items())
        printed = prints
        if run.options.pdf:
            wanted[f"pdf:{name}"] = (paper, partial(_pdf_job, run, name))
        if not prints:  # one that is still right stays; an old one would show other wiring
            printed = run.fresh(f"pdf:{name}", paper)
        if not (printed or run.options.pdf):
            run.unprinted = True
        beside = digest_of(source_digest(run, name), run.outline(name), _along(run, name))
        digest = f"{_build_digest(run, name, build, printed)}.{beside}.{words}"
        wanted[f"build:{name}"] = (digest, partial(_build_job, run, name, printed))
        for a, b in pairs.get(name, ()):
            digest = run.digest("compare", a, b, *map(run.model.builds.compared, (a, b)))
            wanted[f"compare:{a}:{b}"] = (digest, partial(_compare_job, run, a, b))
    return wanted


def _part_job(run: PublishRun, wanted: WantedPart) -> Job:
    given = part_given(wanted.shelf, run.model, run.loaded)
    return PartJob(run.model.shelf[wanted.shelf], wanted, run.site, run.templates, given)


def _tables_job(
    run: PublishRun,
    pairs: tuple[tuple[str, str], ...],
    addresses: tuple[str, ...],
    parts: tuple[WantedPart, ...],
) -> Job:
    """Each part of the list is read when the pages are made."""
    limits = limits_shown(run.model.site)
    lines = listed_parts(run.model.shelf, parts)
    return TablesJob(run.summaries, pairs, run.site, run.templates, addresses, limits, lines)


def wanted_of_all(run: PublishRun) -> Wanted:
    """Jobs that need the summaries of all builds: pages of parts, and those over all builds."""
    summaries = run.summaries
    wanted: dict[str, tuple[str, Maker[Made]]] = {}
    shown = {s.name: on_part_pages(s) for s in summaries}
    names = {n: f.name for n, f in run.model.parts.items()}
    parts = wanted_parts(names, summaries)
    for part in parts:
        given = run.model.site.give_source
        digest = run.digest("part", run.model.parts[part.shelf].digest, part.digest(shown), given)
        wanted[f"part:{part.shelf}"] = (digest, partial(_part_job, run, part))
    pairs = tuple(
        (n.split(":")[1], n.split(":")[2]) for n in sorted(run.records) if n.startswith("compare:")
    )
    pages = (p for r in run.records.values() for p in r.outputs if p.endswith(".html"))
    addresses = tuple(sorted(p for p in pages if p != MISSING_PAGE))
    addresses += tuple(f"parts/{n.split(':')[1]}/index.html" for n in wanted)
    limits = limits_shown(run.model.site)
    plain = hashlib.sha256()
    for name, record in sorted(run.records.items()):
        if name.startswith("build:"):
            plain.update(
                json.dumps([name, record.kept, record.plain["summary"]], sort_keys=True).encode()
            )
    known = run.model.parts
    shelf = [known[p.shelf].digest for p in parts]
    of_builds = plain.hexdigest()
    called = [sorted(p.names.items()) for p in parts]
    digest = run.digest("tables", of_builds, pairs, addresses, limits, shelf, called)
    wanted["tables"] = (digest, partial(_tables_job, run, pairs, addresses, parts))
    return wanted


def _pictures(run: PublishRun, name: str, digest: str) -> tuple[PictureFile, ...]:
    """The pictures that a build shows, without reading it where it is as it was published."""
    record = run.old.jobs.get(f"build:{name}")
    known = [_build_digest(run, name, digest, printed) for printed in (True, False)]
    if record is None or record.digest.partition(".")[0] not in known:
        return picture_files(run.model.builds[name])
    try:  # a manifest that came with a stranger's folder may say anything
        listed = tuple(PictureFile.from_plain(p) for p in record.plain["pictures"])
        if all(p.folder in run.model.builds and picture_mistake(p.name) is None for p in listed):
            return listed
    except (TypeError, ValueError, KeyError):
        pass
    return picture_files(run.model.builds[name])


def wanted_pictures(run: PublishRun, root: Path) -> Iterator[tuple[Wanted, tuple[Finding, ...]]]:
    """The pictures of every build, some at a time, and what is wrong with those that cannot be
    read.
    """
    wanted = (
        (name, (*_pictures(run, name, digest), *run.guide_pictures(name)))
        for name, digest in run.model.digests.items()
    )
    for jobs, findings in picture_jobs(wanted, root, run.limits):
        made: dict[str, tuple[str, Maker[Made]]] = {}
        for name, (digest, job) in jobs.items():
            whole = run.picture_digest(name, digest)
            maker = partial(as_it_is, job)
            made[name] = (whole, maker)
            build = name.split(":")[1]
            of_build = run.pictures.setdefault(build, [])
            of_build.append(name)
        yield made, findings


def as_it_is(job: Job) -> Job:
    """A job that is made already."""
    return job
