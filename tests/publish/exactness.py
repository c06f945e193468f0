"""Whether an incremental publish gives what a clean one would, given the same kept outputs: every
file, byte for byte.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from shutil import copytree, rmtree

from click.testing import CliRunner
from hypothesis import strategies as st

from builder.cli.main import cli
from builder.options import PublishOptions
from builder.pipeline.check import read
from builder.publish.kept.belief import Belief, keep_belief, rows_of
from builder.publish.kept.manifest import MANIFEST, Manifest, as_bytes, manifest_bytes
from builder.publish.kept.manifest import read_manifest as parsed
from builder.publish.kept.stale import sha
from tests.publish.edits import EDITS
from tests.publish.sources import Sources

Publish = Callable[[PublishOptions], tuple[str, ...]]


@dataclass(frozen=True)
class Step:
    """Edits that are saved together, a file of the site that is lost before the publish, and
    whether with PDF.
    """

    edits: tuple[tuple[int, int, int], ...]
    loses: int = 0
    pdf: bool = False

    def __repr__(self) -> str:
        names = ", ".join(f"{EDITS[e].__name__}({a}, {b})" for e, a, b in self.edits)
        return f"Step[{names}; loses={self.loses}, pdf={self.pdf}]"


def steps(*, pdf: bool = False, most: int = 5) -> st.SearchStrategy[list[Step]]:
    """Sequences of edits, each followed by a publish."""
    small = st.integers(0, 7)
    edit = st.tuples(st.integers(0, len(EDITS) - 1), small, small)
    loses = st.one_of(st.just(0), st.just(0), st.integers(0, 40))
    with_pdf = st.sampled_from((True, True, False)) if pdf else st.just(False)
    return st.lists(
        st.builds(Step, st.lists(edit, max_size=4).map(tuple), loses, with_pdf),
        min_size=1,
        max_size=most,
    )


def publish_here(options: PublishOptions) -> tuple[str, ...]:
    """The command in this process, its fast path for nothing to do too; gives what it says of
    errors of its own.
    """
    words = [
        "publish",
        "--workspace",
        str(options.workspace),
        "--workers",
        str(options.workers),
        "--base",
        options.base,
    ]
    words += ["--pdf" if options.pdf else "--no-pdf", *(["--draft"] if options.draft else [])]
    done = CliRunner().invoke(cli, words)
    return (
        *(line for line in done.output.splitlines() if "inside Benchleaf" in line),
        *(
            [repr(done.exception)]
            if done.exception and not isinstance(done.exception, SystemExit)
            else []
        ),
    )


def site_files(workspace: Path) -> dict[str, bytes]:
    """Every file of the site, dot-files too."""
    site = workspace / "site"
    return {
        p.relative_to(site).as_posix(): p.read_bytes()
        for p in sorted(site.rglob("*"))
        if p.is_file()
    }


def read_manifest(site: Path) -> Manifest:
    """The manifest of a site; an empty one where there is none."""
    read = parsed(manifest_bytes(site, 1000))
    assert read is not None
    return read


def write_kept(workspace: Path, manifest: Manifest, files: dict[str, bytes]) -> None:
    """A site of these files, as if this account had published it so."""
    content = as_bytes(manifest)
    for path, held in (files | {MANIFEST: content}).items():
        (workspace / "site" / path).parent.mkdir(parents=True, exist_ok=True)
        (workspace / "site" / path).write_bytes(held)
    assert keep_belief(
        workspace, Belief(frozenset({sha(content)}), rows_of(workspace / "site", files))
    )


def _lose(workspace: Path, number: int) -> None:
    """Somebody deletes a file of the site, or empties it."""
    paths = [
        p
        for p in sorted((workspace / "site").rglob("*"))
        if p.is_file() and not p.name.startswith(".")
    ]
    if not number or not paths:
        return
    victim = paths[number % len(paths)]
    victim.unlink()
    if number % 2:
        victim.write_bytes(b"")


def _clean_publish(
    options: PublishOptions, before: dict[str, bytes], old: Manifest, do: Publish
) -> dict[str, bytes]:
    """The site of the same sources, published into a folder that holds what was kept and nothing
    else.
    """
    clean = options.workspace.parent / "clean"
    rmtree(clean, ignore_errors=True)
    now = read_manifest(options.workspace / "site").jobs
    stays = {
        n for n in now if n.startswith("pdf:") and not options.pdf
    }  # printed before, and still right
    kept = {n: old.jobs[n] for n, record in now.items() if record.kept or n in stays}
    files = {path: before[path] for record in kept.values() for path in record.outputs}
    if kept:
        write_kept(clean, Manifest(kept), files)
    for folder in ("builds", "templates"):
        if (options.workspace / folder).is_dir():
            copytree(options.workspace / folder, clean / folder)
    assert do(replace(options, workspace=clean)) == ()
    return site_files(clean)


def _check_paper(options: PublishOptions, after: dict[str, bytes], do: Publish) -> None:
    """What a publish without PDFs left of earlier ones is what one with PDFs would print now."""
    jobs = read_manifest(options.workspace / "site").jobs
    left = [p for n, r in jobs.items() if n.startswith("pdf:") and not r.kept for p in r.outputs]
    if left and not options.pdf:
        printed = _clean_publish(replace(options, pdf=True), after, Manifest(jobs), do)
        assert {p: after[p] for p in left} == {p: printed.get(p) for p in left}, (
            "a sheet of other wiring stayed"
        )


def check_sequence(folder: Path, sequence: list[Step], do: Publish = publish_here) -> None:
    """Runs a sequence of edits and compares after every publish."""
    rmtree(folder, ignore_errors=True)
    workspace, sources = folder / "edited", Sources()
    sources.write(workspace)
    assert do(sources.options(workspace)) == ()
    for step in sequence:
        for edit, a, b in step.edits:
            EDITS[edit](sources, a, b)
        sources.write(workspace)
        _lose(workspace, step.loses)
        before, old = site_files(workspace), read_manifest(workspace / "site")
        options = sources.options(workspace, pdf=step.pdf)
        assert do(options) == ()
        after = site_files(workspace)
        if read(workspace)[1].stops_all:
            assert after == before, "a workspace that cannot be read at all changed the site"
            continue
        clean = _clean_publish(options, before, old, do)
        differing = [p for p in sorted(clean.keys() | after.keys()) if clean.get(p) != after.get(p)]
        assert differing == [], f"after {step} these differ from a clean publish: {differing[:6]}"
        _check_paper(options, after, do)
