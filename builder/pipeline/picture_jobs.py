"""The pictures of all builds as jobs, some megabytes at a time, so that a workspace of photographs
fits into memory.
"""

import hashlib
from collections.abc import Iterable, Iterator
from pathlib import Path

from builder.diagnostics.finding import Finding
from builder.load.limits import Limits
from builder.pages.site.picture_files import PictureFile
from builder.pipeline.jobs import Job, PicturesJob
from builder.pipeline.pictures_of import pictures_of

_AT_ONCE = 64 * 2**20  # bytes that are held while their pictures are made

Jobs = dict[str, tuple[str, Job]]


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
    for name, files in wanted:
        pictures, wrong = pictures_of(name, files, root, limits)
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
