"""The pictures of all builds as jobs, some megabytes at a time, so that a workspace of photographs fits into memory."""

import hashlib
from collections.abc import Iterator, Mapping
from pathlib import Path

from builder.diagnostics.finding import Finding
from builder.load.limits import Limits
from builder.model.build import Build
from builder.pages.picture_files import step_pictures
from builder.pipeline.jobs import Job, PicturesJob
from builder.pipeline.pictures_of import pictures_of
from builder.pipeline.run import Run
from builder.publish.stale import published_bytes

_AT_ONCE = 64 * 2**20  # bytes that are held while their pictures are made

Jobs = dict[str, tuple[str, Job]]


def picture_jobs(builds: Mapping[str, Build], root: Path, limits: Limits) -> Iterator[tuple[Jobs, tuple[Finding, ...]]]:
    """Jobs with the digest of what they depend on, and what is wrong with pictures that cannot be read."""
    jobs: Jobs = {}
    findings: list[Finding] = []
    held = 0
    for name, build in builds.items():
        pictures, wrong = pictures_of(build, root, limits)
        findings += wrong
        if not pictures or wrong:
            continue
        digest = hashlib.sha256()
        for picture, content in pictures:
            digest.update(f"{picture.name}\0{len(content)}\0".encode())
            digest.update(content)
            held += len(content)
        jobs[f"pictures:{name}"] = (digest.hexdigest(), PicturesJob(name, pictures, limits))
        if held > _AT_ONCE:
            yield jobs, tuple(findings)
            jobs, findings, held = {}, [], 0
    yield jobs, tuple(findings)


def printed_pictures(run_: Run, build: Build) -> tuple[str, ...]:
    """Digests of the published pictures that a bench sheet shows: it depends on them."""
    made = run_.records.get(f"pictures:{build.name}")
    outputs = made.outputs if made is not None else {}
    return tuple(f"{p} {outputs[p].sha}" for p in step_pictures(build) if p in outputs)


def picture_bytes(run_: Run, build: Build) -> dict[str, bytes]:
    """The same pictures as bytes: made in this run, or as they lie published."""
    found: dict[str, bytes] = {}
    for path in step_pictures(build):
        if path in run_.files:
            made = run_.files[path]
            found[path] = made if made is not None else published_bytes(run_.folder, path)
    return found
