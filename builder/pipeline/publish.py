"""A workspace becomes a site: which jobs there are, which of them are stale, and the swap."""

from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from builder.diagnostics.show import harmless
from builder.load.files import Loaded
from builder.model.read.workspace import Workspace
from builder.options import PublishOptions
from builder.pages.site.site_pages import site_pages
from builder.pipeline.answers import answer, opened
from builder.pipeline.check import read
from builder.pipeline.guide_jobs import take_guides, wanted_given
from builder.pipeline.jobs import Made
from builder.pipeline.owners import Owners
from builder.pipeline.publish_run import (
    MEND_TEMPLATE,
    keep_parts,
    keep_unread,
    run_builds,
    run_stale,
    take_pictures,
)
from builder.pipeline.published import Published
from builder.pipeline.run import Progress, PublishRun
from builder.pipeline.wanted import wanted_of_all
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
from builder.publish.workers.cluster import Carrier
from builder.publish.workers.crew import Crew
from builder.render.assets import asset_files
from builder.render.html.page import (
    BadTemplate,
    check_templates,
    refuse_links,
    template_folder,
    template_texts,
)

_HELD = (
    "{} is open in another program: that part of the site is as it was, the others are new."
    " Close it there and publish again."
)
_NOT_OURS = "`site/` was not published by this account on this machine, and stays as it is."


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
        raise PublishError(f"{error}.", MEND_TEMPLATE) from error
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
            run_stale(state, wanted_given(state, loaded.root))
            take_pictures(state, loaded.root)
            run_builds(state)
            keep_unread(state)
            run_stale(state, wanted_of_all(state))
            keep_parts(state)
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
