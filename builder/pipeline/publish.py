"""A workspace becomes a site: which jobs there are, which of them are stale, and the swap."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.where import Where
from builder.load.files import Loaded
from builder.load.limits import Limits
from builder.model.workspace import Workspace
from builder.options import PublishOptions
from builder.pages.pairs import pairs_of
from builder.pages.reference_page import MISSING_PAGE
from builder.pages.site_pages import site_pages
from builder.pipeline.check import read
from builder.pipeline.jobs import BuildJob, CompareJob, Job, Made, PdfJob, ReferenceJob, TablesJob, limits_shown
from builder.pipeline.part_jobs import part_jobs
from builder.pipeline.picture_jobs import picture_bytes, picture_jobs, printed_pictures
from builder.pipeline.run import Progress, Run
from builder.publish.bounded import TooLong
from builder.publish.manifest import MANIFEST, Manifest, Output, as_bytes, manifest_bytes, read_manifest
from builder.publish.stale import code_digest, lies_there
from builder.publish.swap import PublishError, clean_leftovers, foreign_files, locked, swap_in
from builder.publish.who_works import executor_for, wants_workers
from builder.publish.workers import run
from builder.render.assets import asset_files
from builder.render.html import BadTemplate, check_templates, template_folder, template_texts
from builder.render.pdf_libraries import LibrariesLacking

_NO_PDF = (
    "No bench sheet was printed: this machine lacks {}. Install what is missing (`make setup` does where it may), "
    "or publish with --no-pdf."
)
_NO_WORKERS = "This machine starts no worker processes (they need /dev/shm); all was made in one process."

_MEND_TEMPLATE = "Mend it, or take it away to get ours; the old site is untouched."


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
    unprinted: bool = False  # a page links to a bench sheet that is not there, as it was not to be made

    @property
    def unsettled(self) -> bool:
        """Whether it might end otherwise when it is run again: errors inside, time or memory, what was lacking."""
        return bool(self.errors or self.not_made) or any(f.code == "data/too-slow" for f in self.findings)


def _first_jobs(run_: Run) -> dict[str, tuple[str, Job]]:
    """Jobs that need no more than builds: sheets, PDFs, pairs, references."""
    builds, site, texts, draft = run_.ready, run_.site, run_.templates, run_.options.draft
    jobs: dict[str, tuple[str, Job]] = {"reference": (run_.digest("reference"), ReferenceJob(site, texts))}
    for name, build in builds.items():
        digest = run_.digest("build", name, build.digest)
        jobs[f"build:{name}"] = (digest, BuildJob(build, site, texts, draft))
        paper = run_.digest("pdf", name, build.digest, *printed_pictures(run_, build))
        if run_.fresh(f"pdf:{name}", paper):
            continue
        if run_.options.pdf:
            most, pictures = run_.limits.paper_kilobytes, picture_bytes(run_, build)
            jobs[f"pdf:{name}"] = (paper, PdfJob(build, site, texts, draft, build.digest, most, pictures))
        else:  # a bench sheet that is still right stays; an old one would show other wiring
            run_.unprinted = True
    for a, b in pairs_of(builds, run_.model.site):
        digest = run_.digest("compare", a, b, builds[a].digest, builds[b].digest)
        jobs[f"compare:{a}:{b}"] = (digest, CompareJob(builds[a], builds[b], site, texts, draft))
    return jobs


def _do(run_: Run, jobs: Mapping[str, tuple[str, Job]]) -> None:
    """Runs the stale ones of these jobs and takes what they make; a job that makes nothing keeps what was published."""
    stale = {n: job for n, (digest, job) in jobs.items() if not run_.fresh(n, digest)}
    bounds = (run_.limits.seconds, run_.limits.worker_megabytes)
    pool = executor_for(run_.options, len(stale), bounds[1])
    if pool is None and wants_workers(run_.options, len(stale)):
        run_.remarks["workers"] = _NO_WORKERS
    try:
        run_.progress(tuple(stale), "")
        for done in run(stale, pool, *bounds):
            run_.progress((), done.name)
            if done.value is not None and done.value.files:
                run_.take(done.name, jobs[done.name][0], done.value)
                continue
            if done.value is not None:
                run_.found[done.name] = done.value.findings
            elif isinstance(done.error, TooLong | MemoryError):
                run_.found[done.name] = (_too_much(done.name, done.error, run_.limits),)
            elif isinstance(done.error, BadTemplate):
                run_.found[done.name] = (mistake("data/template", f"{done.error}.", _MEND_TEMPLATE),)
            elif isinstance(done.error, LibrariesLacking):
                run_.left_out["pdf"] = _NO_PDF.format(" ".join(done.error.names))
            else:
                run_.errors.append(f"{done.name}: {type(done.error).__name__}: {done.error}")
            run_.keep(done.name, kept=True)
    finally:
        if pool is not None:
            pool.shutdown(cancel_futures=True)


def _too_much(job: str, error: BaseException, limits: Limits) -> Finding:
    """A job that was stopped because it took more than it may, as a mistake of its build."""
    kind, _, rest = job.partition(":")
    build = rest.split(":")[0] if kind in ("build", "pdf", "pictures", "compare") else ""
    took = f"{limits.seconds} s" if isinstance(error, TooLong) else f"{limits.worker_megabytes} MB of memory"
    setting = "seconds" if isinstance(error, TooLong) else "worker_megabytes"
    words = {"build": "its pages", "pdf": "its PDF", "pictures": "its pictures", "compare": "its comparison"}
    problem = f"Making {words.get(kind, job)} took over {took} and was stopped; all others are published."
    hint = f"Make it smaller, or raise {setting} under at_most in site.yaml."
    return mistake("data/too-slow", problem, hint, Where(f"{build}/build.yaml") if build else None, build)


def _keep_unread(run_: Run) -> None:
    """Outputs of builds that cannot be read now, and of PDFs that this run does not make, stay as published."""
    known, readable = set(run_.model.names), set(run_.ready)
    for job in run_.old.jobs:
        kind, _, rest = job.partition(":")
        builds = set(rest.split(":"))
        of_builds = kind in ("build", "pdf", "compare", "pictures") and builds <= known
        if of_builds and job not in run_.records and not builds <= readable:
            run_.keep(job, kept=True)


def _second_jobs(run_: Run) -> dict[str, tuple[str, Job]]:
    """Jobs that need the summaries of all builds."""
    summaries = run_.summaries
    plain = {s.name: json.dumps(s.as_plain(), sort_keys=True) for s in summaries}  # as the manifest gives it back
    jobs: dict[str, tuple[str, Job]] = {}
    for shelf, job in part_jobs(run_.model.shelf, summaries, run_.site, run_.templates).items():
        parts = (job.entry.part, *(plain[s.name] for s in job.users), job.history, job.names, sorted(job.shown))
        jobs[f"part:{shelf}"] = (run_.digest("part", shelf, *parts), job)
    pairs = tuple((n.split(":")[1], n.split(":")[2]) for n in sorted(run_.records) if n.startswith("compare:"))
    pages = (p for r in run_.records.values() for p in r.outputs if p.endswith(".html"))
    addresses = tuple(sorted(p for p in pages if p != MISSING_PAGE))
    addresses += tuple(f"parts/{n.split(':')[1]}/index.html" for n in jobs)
    limits = limits_shown(run_.model.site)
    digest = run_.digest("tables", plain, pairs, addresses, limits)
    jobs["tables"] = (digest, TablesJob(summaries, pairs, run_.site, run_.templates, addresses, limits))
    return jobs


def _keep_parts(run_: Run) -> None:
    """Pages of parts that cannot be read now stay while a kept sheet leads to them."""
    kept = [s for s in run_.summaries if s.kept]
    for job in run_.old.jobs:
        kind, _, shelf = job.partition(":")
        unread = kind == "part" and job not in run_.records and shelf not in run_.model.shelf
        if unread and any(shelf in s.uses for s in kept):
            run_.keep(job, kept=True)


def _take_pictures(run_: Run, root: Path) -> None:
    """The pictures of every build, some at a time; a build with one that cannot be published is not published."""
    for jobs, findings in picture_jobs(run_.model.builds, root, run_.limits):
        run_.found["pictures"] = (*run_.found.get("pictures", ()), *findings)
        _do(run_, {n: (run_.digest(n, digest), job) for n, (digest, job) in jobs.items()})


def _take_assets(run_: Run) -> None:
    assets = asset_files(run_.options.workspace / "templates" / "static")
    run_.take("assets", run_.digest("assets"), Made(assets))


def _nothing_published(site: Path, loaded: Loaded, model: Workspace) -> Published:
    """What is said where no build can be judged: the old site stays as it is."""
    old = read_manifest(site)
    there = {n.partition(":")[2] for n in old.jobs if n.startswith("build:")}
    kept, left_out = (tuple(n for n in model.names if (n in there) == want) for want in (True, False))
    return Published(loaded, model.findings, (), kept, left_out, len(old.files), 0, 0, ())


def _templates(own: Path) -> Mapping[str, str]:
    """All templates, with the workspace's own. PublishError for one that cannot be used."""
    try:
        texts = template_texts(own)
        if own.is_dir():
            check_templates(texts)
    except BadTemplate as error:
        raise PublishError(f"{error}.", _MEND_TEMPLATE) from error
    return texts


def publish(options: PublishOptions, progress: Progress = lambda names, ended: None) -> Published:
    """Publishes a workspace. Raises PublishError for what keeps the site from being written."""
    loaded, model = read(options.workspace)
    if model.stops_all:
        return _nothing_published(options.workspace / "site", loaded, model)
    with locked(options.workspace):
        clean_leftovers(options.workspace)
        folder = options.workspace / "site"
        old = read_manifest(folder)
        foreign = foreign_files(folder, old.files)
        if foreign:
            shown = ", ".join(foreign[:3]) + (f" and {len(foreign) - 3} more" if len(foreign) > 3 else "")
            raise PublishError(
                f"The folder `site` holds files that are not ours: {shown}.",
                "Move them away; your own files belong in templates/static/.",
            )
        overrides = options.workspace / "templates"
        texts = _templates(overrides)
        code = code_digest(template_folder(), *((overrides,) if overrides.is_dir() else ()))
        state = Run(options, model, site_pages(model.site, options.base), texts, code, old, progress, loaded.limits)
        _take_pictures(state, loaded.root)
        _do(state, _first_jobs(state))
        _keep_unread(state)
        _do(state, _second_jobs(state))
        _keep_parts(state)
        _take_assets(state)
        manifest = Manifest(state.records)
        return _finish(state, loaded, manifest)


def _lies_there(run_: Run, path: str, output: Output) -> bool:
    """Whether what was made now was published before and lies on the disk, so that it need not be written."""
    published = run_.old.outputs.get(path) == output
    return published and lies_there(run_.folder, path, output, careful=run_.options.careful)


def _finish(run_: Run, loaded: Loaded, manifest: Manifest) -> Published:
    files = dict(run_.files)
    content = as_bytes(manifest)
    removed = len(run_.old.files - manifest.files)
    changed = {p: c for p, c in files.items() if c is not None and not _lies_there(run_, p, manifest.outputs[p])}
    if changed or removed or content != manifest_bytes(run_.folder):
        swap_in(run_.options.workspace, {**{p: changed.get(p) for p in files}, MANIFEST: content})
    builds = {n.split(":", 1)[1]: r for n, r in run_.records.items() if n.startswith("build:")}
    return Published(
        loaded,
        (*run_.model.findings, *run_.findings),
        tuple(n for n, r in builds.items() if not r.kept),
        tuple(n for n, r in builds.items() if r.kept),
        tuple(n for n in run_.model.names if n not in builds),
        len(files),
        len(changed),
        removed,
        tuple(run_.errors),
        tuple(run_.left_out.values()),
        tuple(run_.remarks.values()),
        run_.unprinted,
    )
