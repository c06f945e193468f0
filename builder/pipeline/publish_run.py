"""The jobs of a publish: those that are stale are run, and what is kept of the others."""

from pathlib import Path

from builder.diagnostics.finding import mistake
from builder.pages.summaries.summary import Summary
from builder.pipeline.choose_jobs import wanted_choices
from builder.pipeline.guide_jobs import wanted_of_guides
from builder.pipeline.job_bounds import expected_seconds, too_much
from builder.pipeline.jobs import Wanted
from builder.pipeline.run import PublishRun
from builder.pipeline.wanted import wanted_of_builds, wanted_pictures
from builder.publish.swap import PublishError
from builder.publish.workers.bounded import TooLong
from builder.publish.workers.pool import run
from builder.render.html.page import BadTemplate
from builder.render.paper.pdf_libraries import LibrariesLacking
from builder.system.packages import install_words

_NO_PDF = (
    "No bench sheet was printed: this machine lacks {}. Install {} (`make setup` does where"
    " it may), or publish with --no-pdf and print the page from a browser."
)
_NO_WORKERS = (
    "This machine starts no worker processes (they need /dev/shm); all was made in one process."
)
_WATCHED = (
    "This machine sets no limit to the memory of a process; each was watched, and stopped when it"
    " held too much."
)
_OF_BUILDS = ("build", "choose", "guide", "source", "given", "pdf", "compare", "pictures")
MEND_TEMPLATE = "Fix it, or take it away to get ours; the old site is untouched."


def run_stale(run_: PublishRun, wanted: Wanted) -> None:
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
            run_.found[done.name] = (mistake("data/template", f"{done.error}.", MEND_TEMPLATE),)
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


def run_builds(run_: PublishRun) -> None:
    """Sheets and PDFs, then pairs: a build whose own pages take too much is not tried beside
    others.
    """
    wanted = wanted_of_builds(run_)
    pairs = {name: job for name, job in wanted.items() if name.startswith("compare:")}
    run_stale(run_, {name: job for name, job in wanted.items() if name not in pairs})
    stopped = {name.partition(":")[2] for name in run_.stopped if name.startswith("build:")}
    left_out = [name for name in pairs if stopped & set(name.split(":")[1:])]
    for name in left_out:
        pairs.pop(name)
        run_.keep(name, kept=True)
    run_stale(run_, pairs)
    run_stale(run_, {**wanted_of_guides(run_), **wanted_choices(run_)})


def keep_unread(run_: PublishRun) -> None:
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


def keep_parts(run_: PublishRun) -> None:
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


def take_pictures(run_: PublishRun, root: Path) -> None:
    """The pictures of every build, some at a time; a build with one that cannot be published is not
    published.
    """
    for wanted, findings in wanted_pictures(run_, root):
        run_.found["pictures"] = (*run_.found.get("pictures", ()), *findings)
        run_stale(run_, wanted)
