"""The pictures of all builds as jobs, one a picture and some megabytes at a time, so that a workspace
of photographs fits into memory.
"""

import hashlib
from collections.abc import Iterable, Iterator
from pathlib import Path

from builder.diagnostics.finding import Finding
from builder.load.limits import Limits
from builder.pages.site.picture_files import PictureFile
from builder.pipeline.beside.pictures_of import pictures_of
from builder.pipeline.jobs import Job, PictureJob

_AT_ONCE = 64 * 2**20  # bytes that are held while their pictures are made

Jobs = dict[str, tuple[str, Job]]


def picture_job_name(build: str, name: str) -> str:
    """The name of the job that makes a picture of a build."""
    return f"pictures:{build}:{name}"


def picture_jobs(
    wanted: Iterable[tuple[str, tuple[PictureFile, ...]]], root: Path, limits: Limits
) -> Iterator[tuple[Jobs, tuple[Finding, ...]]]:
    """Jobs with the digest of what they depend on, and what is wrong with pictures that cannot be
    read.

    `wanted` are the names of builds with the pictures that each shows.
    """
    jobs: Jobs = {}
    findings: list[Finding] = []
    held = 0
    listed = ((build, picture) for build, files in wanted for picture in files)
    for build, picture in listed:
        read, wrong = pictures_of(build, (picture,), root, limits)
        findings += wrong
        for _, content in read:
            digest = hashlib.sha256(content).hexdigest()
            job = PictureJob(build, picture, content, limits)
            name = picture_job_name(build, picture.name)
            jobs[name] = (digest, job)
            held += len(content)
        if held > _AT_ONCE:
            yield jobs, tuple(findings)
            jobs, findings, held = {}, [], 0
    yield jobs, tuple(findings)
