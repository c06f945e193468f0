"""A workspace becomes a site: which jobs there are, which of them are stale, and the swap."""

from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from builder.diagnostics.finding import mistake
from builder.diagnostics.show import harmless
from builder.load.files import Loaded
from builder.model.read.workspace import Workspace
from builder.options import PublishOptions
from builder.pages.site.site_pages import site_pages
from builder.pages.summaries.summary import Summary
from builder.pipeline.answers import answer, opened
from builder.pipeline.check import read
from builder.pipeline.choose_jobs import wanted_choices
from builder.pipeline.guide_jobs import take_guides, wanted_given, wanted_of_guides
from builder.pipeline.job_bounds import expected_seconds, too_much
from builder.pipeline.jobs import Made, Wanted
from builder.pipeline.owners import Owners
from builder.pipeline.published import Published
from builder.pipeline.run import Progress, PublishRun
from builder.pipeline.wanted import wanted_of_all, wanted_of_builds, wanted_pictures
from builder.publish.kept.before import Before, site_before
from builder.publish.kept.belief import Belief, keep_belief, read_belief, rows_of
from builder.publish.kept.manifest import (
    MANIFEST,
    Manifest,
    as_bytes,
    manifest_bytes,
    read_manifest,
)
from builder.publish.kept.read_cache_file import keep_known, read_known
from builder.publish.kept.stale import code_digest, sha
from builder.publish.kept.stopped_file import keep_stopped, read_stopped
from builder.publish.plain_files import is_address
from builder.publish.stage import Stage
from builder.publish.swap import PublishError, clean_leftovers, explain_error, locked
from builder.publish.workers.bounded import TooLong
from builder.publish.workers.cluster import Carrier
from builder.publish.workers.crew import Crew
from builder.publish.workers.pool import run
from builder.render.assets import asset_files
from builder.render.html.page import (
    BadTemplate,
    check_templates,
    refuse_links,
    template_folder,
    template_texts,
)
from builder.render.paper.pdf_libraries import LibrariesLacking
from builder.system.packages import install_words

_NO_PDF = (
    "No bench sheet was printed: this machine lacks {}. Install {} (`make setup` does where"
    " it may), or publish with --no-pdf and print the page from a browser."
)
_HELD = (
    "{} is open in another program: that part of the site is as it was, the others are new."
    " Close it there and publish again."
)
_NO_WORKERS = (
    "This machine starts no worker processes (they need /dev/shm); all was made in one process."
)
_WATCHED = (
    "This machine sets no limit to the memory of a process; each was watched, and stopped when it"
    " held too much."
)

_OF_BUILDS = ("build", "choose", "guide", "source", "given", "pdf", "compare", "pictures")
_NOT_OURS = "`site/` was not published by this account on this machine, and stays as it is."
_MEND_TEMPLATE = "Fix it, or take it away to get ours; the old site is untouched."


def _do(run_: PublishRun, wanted: Wanted) -> None:
    """Runs the stale ones of these jobs and takes what they make; a job that makes nothing keeps
    what was published.
    """
    wanted = {n: job for n, job in wanted.items() if run_.claim(n)}
    stale = {n: make for n, (digest, make) in wanted.items() if not run_.fresh(n, digest)}
    for name in [
        n for n in stale if run_.was_stopped(n, wanted[n][0])
    ]:  # it would be stopped again
        stale.pop(name)
        _stopped(run_, name, wanted[name][0], run_.was_stopped(name, wanted[name][0]))
    bounds = (run_.limits.seconds, run_.limits.worker_megabytes)
    pool = run_.crew.executor(expected_seconds(stale))
    if run_.crew.lacking:
        run_.remarks["workers"] = _NO_WORKERS
    run_.progress(tuple(stale), "")
    for done in run(stale, pool, *bounds, run_.crew.at_once):
        run_.progress((), done.name)
        if done.watched:
            run_.remarks["memory"] = _WATCHED
        if done.value is not None and done.value.files:
            run_.take(done.name, wanted[done.name][0], done.value)
            continue
        if isinstance(done.error, PublishError):  # who does the work is gone, or does not do
            raise done.error
        if done.value is not None:
            run_.found[done.name] = done.value.findings
        elif isinstance(done.error, TooLong | MemoryError):
            kind = "time" if isinstance(done.error, TooLong) else "memory"
            _stopped(run_, done.name, wanted[done.name][0], kind)
            continue
        elif isinstance(done.error, BadTemplate):
            run_.found[done.name] = (mistake("data/template", f"{done.error}.", _MEND_TEMPLATE),)
        elif isinstance(done.error, LibrariesLacking):
            run_.left_out["pdf"] = _NO_PDF.format(
                " ".join(done.error.names), install_words(done.error.names)
            )
        else:
            run_.errors.append(f"{done.name}: {type(done.error).__name__}: {done.error}")
        run_.keep(done.name, kept=True)


def _stopped(run_: PublishRun, name: str, digest: str, kind: str) -> None:
    """A job that ran into its limits now or before, from the same: it is said, and what was
    published of it stays.
    """
    run_.found[name] = (too_much(name, kind, run_.limits),)
    run_.stopped[name] = (run_.limited(digest), kind)
    run_.keep(name, kept=True)


def _do_builds(run_: PublishRun) -> None:
    """Sheets and PDFs, then pairs: a build whose own pages take too much is not tried beside
    others.
    """
    wanted = wanted_of_builds(run_)
    pairs = {name: job for name, job in wanted.items() if name.startswith("compare:")}
    _do(run_, {name: job for name, job in wanted.items() if name not in pairs})
    stopped = {name.partition(":")[2] for name in run_.stopped if name.startswith("build:")}
    left_out = [name for name in pairs if stopped & set(name.split(":")[1:])]
    for name in left_out:
        pairs.pop(name)
        run_.keep(name, kept=True)
    _do(run_, pairs)
    _do(run_, {**wanted_of_guides(run_), **wanted_choices(run_)})


def _keep_unread(run_: PublishRun) -> None:
    """Outputs of builds that cannot be read now, and of PDFs that this run does not make, stay as
    published.
    """
    known, readable = set(run_.model.names), run_.ready.keys()
    for job in sorted(
        run_.old.jobs
    ):  # sheets come first: without one there is nothing to keep of its build
        kind, _, rest = job.partition(":")
        names = rest.split(":")
        of = names[:1] if kind in ("pictures", "given") else names
        builds = set(of)
        of_builds = kind in _OF_BUILDS and builds <= known
        if not of_builds or job in run_.records or builds <= readable:
            continue
        if kind == "build" or all(f"build:{b}" in run_.records for b in builds):
            run_.keep(job, kept=True)


def _keep_parts(run_: PublishRun) -> None:
    """Pages of parts that cannot be read now stay while a kept sheet leads to them."""
    kept = [
        r.plain["summary"] for n, r in run_.records.items() if n.startswith("build:") and r.kept
    ]
    used = frozenset().union(*(Summary.from_plain(plain).uses for plain in kept))
    for job in run_.old.jobs:
        kind, _, shelf = job.partition(":")
        unread = kind == "part" and job not in run_.records and shelf not in run_.model.parts
        if unread and shelf in used:
            run_.keep(job, kept=True)


def _take_pictures(run_: PublishRun, root: Path) -> None:
    """The pictures of every build, some at a time; a build with one that cannot be published is not
    published.
    """
    for wanted, findings in wanted_pictures(run_, root):
        run_.found["pictures"] = (*run_.found.get("pictures", ()), *findings)
        _do(run_, wanted)


def _assets(workspace: Path) -> dict[str, bytes]:
    """Style sheets, scripts and people's own files. PublishError for a name that cannot lie on
    every disk.
    """
    assets = asset_files(workspace / "templates" / "static")
    odd = next((path for path in assets if not is_address(path)), None)
    clash = Owners().claim("assets", assets)
    if odd is None and clash is None:
        return assets
    name = (odd or (clash.address if clash else "")).removeprefix("assets/")
    why = (
        "has a name that not every disk takes"
        if odd
        else "has the name of another file there, but for capitals"
    )
    raise PublishError(
        harmless(f"The file templates/static/{name} {why}."),
        "Rename it; the old site is untouched.",
    )


def _claim(run_: PublishRun, assets: Iterable[str]) -> None:
    """Gives the addresses that are ours, and those of each build, away before any picture or kept
    page gets them.
    """
    run_.claim("assets", *assets)
    for job in (
        "reference",
        "tables",
        *(
            f"{kind}:{n}"
            for n in run_.model.digests
            for kind in ("build", "choose", "source", "pdf")
        ),
    ):
        run_.claim(job)


def _nothing_published(site: Path, loaded: Loaded, model: Workspace) -> Published:
    """What is said where no build can be judged: the old site stays as it is."""
    belief = read_belief(site.parent)
    content = manifest_bytes(site, len(belief.rows))
    old = (read_manifest(content) if belief.holds(content) else None) or Manifest()
    there = {n.partition(":")[2] for n in old.jobs if n.startswith("build:")}
    kept, left_out = (
        tuple(n for n in model.names if (n in there) == want) for want in (True, False)
    )
    remarks = (_NOT_OURS,) if content is not None and not old.jobs else ()
    return Published(
        loaded, model.findings, (), kept, left_out, len(old.files), 0, 0, (), remarks=remarks
    )


def _templates(own: Path) -> Mapping[str, str]:
    """All templates, with the workspace's own. PublishError for one that cannot be used."""
    try:
        refuse_links(own)
        texts = template_texts(own)
        if own.is_dir():
            check_templates(texts)
    except BadTemplate as error:
        raise PublishError(f"{error}.", _MEND_TEMPLATE) from error
    return texts


def publish_site(
    options: PublishOptions, progress: Progress = lambda names, ended: None
) -> Published:
    """Publishes a workspace. Raises PublishError for what keeps the site from being written."""
    before = read_known(options.workspace)
    loaded, model = read(options.workspace, known=before)
    if model.stops_all:
        return _nothing_published(options.workspace / "site", loaded, model)
    with locked(options.workspace):
        clean_leftovers(options.workspace)
        found = site_before(options.workspace)
        overrides = options.workspace / "templates"
        texts, assets = _templates(overrides), _assets(options.workspace)
        code = code_digest(template_folder(), *((overrides,) if overrides.is_dir() else ()))
        site, stage = site_pages(model.site, options.base), Stage(options.workspace)
        crew = Crew(options, loaded.limits.worker_megabytes, Carrier(answer, opened))
        state = PublishRun(
            options,
            model,
            site,
            texts,
            code,
            found.old,
            progress,
            loaded.limits,
            stage,
            found.lying,
            crew,
            loaded,
        )
        state.remarks |= dict(enumerate(found.remarks))
        state.stopped_before = read_stopped(options.workspace)
        try:
            _claim(state, assets)
            take_guides(state, loaded.root)
            _do(state, wanted_given(state, loaded.root))
            _take_pictures(state, loaded.root)
            _do_builds(state)
            _keep_unread(state)
            _do(state, wanted_of_all(state))
            _keep_parts(state)
            state.take("assets", state.digest("assets"), Made(assets))
            done = _finish(state, loaded, found)
        except KeyboardInterrupt:
            crew.abandon()
            raise
        finally:
            crew.close()
            stage.drop()
        keep_known(options.workspace, model.known, before)
        keep_stopped(options.workspace, state.stopped, state.stopped_before)
        return done


def _swap_in(run_: PublishRun, manifest: Manifest, content: bytes, before: Belief) -> None:
    """Puts the new site in place. Both manifests are believed until it is there, whenever this
    ends.
    """
    run_.stage.put(MANIFEST, content)
    try:
        both = Belief(before.manifests | {sha(content)})
        keep_belief(run_.options.workspace, both, durable=True)
    except OSError as error:
        raise explain_error(error, "Writing the site") from error
    held = run_.stage.swap_in(manifest.files - run_.stage.written)
    if held:
        run_.left_out["held"] = _HELD.format(" and ".join(f"site/{path}" for path in held[:2]))


def _remember(run_: PublishRun, manifest: Manifest, content: bytes, before: Belief) -> None:
    """Keeps which manifest is ours and how its files lie now."""
    is_as_said = "held" not in run_.left_out
    rows = rows_of(run_.lying.site, manifest.files) if is_as_said else frozenset()
    now = Belief(frozenset({sha(content)}), rows)
    if now != before:
        with suppress(OSError):  # what was kept before the swap tells as much, at more work
            keep_belief(run_.options.workspace, now)


def _finish(run_: PublishRun, loaded: Loaded, before: Before) -> Published:
    manifest, stage = Manifest(run_.records), run_.stage
    content, written = as_bytes(manifest), len(stage.written)
    removed = len(before.files - manifest.files)
    if written or removed or content != before.content:
        _swap_in(run_, manifest, content, before.belief)
    _remember(run_, manifest, content, before.belief)
    builds = {n.split(":", 1)[1]: r for n, r in run_.records.items() if n.startswith("build:")}
    findings = (*run_.model.findings, *run_.findings)
    made = tuple(n for n, r in builds.items() if not r.kept)
    kept = tuple(n for n, r in builds.items() if r.kept)
    left = tuple(n for n in run_.model.names if n not in builds)
    return Published(
        loaded,
        findings,
        made,
        kept,
        left,
        len(manifest.files),
        written,
        removed,
        tuple(run_.errors),
        tuple(run_.left_out.values()),
        tuple(run_.remarks.values()),
        run_.unprinted,
        run_.remarks_before,
    )
