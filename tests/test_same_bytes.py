"""All that is published, PDF included, from two processes that share nothing but the sources: the
same bytes.

The second runs with another hash seed, time zone, locale, working folder and number of workers, and
on a copy of the workspace whose files were made in the opposite order.
"""

import os
import shutil
import subprocess
import sys
from hashlib import sha256
from pathlib import Path

import pytest

from builder.render.paper.pdf_libraries import lacking
from tests.workspace_edits import ROOT

# A variant with its base, so that comparisons, pictures and taken-over figures are among what is
# published.
_BUILDS = ("dipper", "dipper-light")


def made(folder: Path, *, backwards: bool) -> Path:
    """A workspace of few builds; its files are made in order of their names or against it, one
    second apart.
    """
    all_builds = ROOT / "builds"
    sources = [p for p in sorted(all_builds.rglob("*")) if p.is_file()]
    wanted = [p for p in sources if p.relative_to(all_builds).parts[0] in (*_BUILDS, "shelf")]
    for number, path in enumerate(reversed(wanted) if backwards else wanted):
        target = folder / path.relative_to(ROOT)
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(path, target)
        os.utime(target, (1_700_000_000 + number, 1_700_000_000 + number))
    settings = (ROOT / "builds" / "site.yaml").read_text("utf-8")
    head = settings[: settings.index("compare:")]
    (folder / "builds" / "site.yaml").write_text(
        f"{head}compare:\n  - [dipper, dipper-light]\n", "utf-8"
    )
    return folder


def published(workspace: Path, cwd: Path, *options: str, **environment: str) -> dict[str, str]:
    """The digest of every file, by its address, as published by a process of its own."""
    argv = [sys.executable, "-m", "builder", "publish", "--workspace", str(workspace), *options]
    kept = {
        name: os.environ[name] for name in ("PATH", "LD_LIBRARY_PATH", "HOME") if name in os.environ
    }
    done = subprocess.run(
        argv,
        cwd=cwd,
        env={**kept, "PYTHONPATH": str(ROOT), **environment},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == 0, done.stderr
    site = workspace / "site"
    return {
        str(p.relative_to(site)): sha256(p.read_bytes()).hexdigest()
        for p in site.rglob("*")
        if p.is_file()
    }


def test_other_seed_zone_locale_folder_order_and_workers_give_the_same_bytes(
    tmp_path: Path,
) -> None:
    pdf = () if not lacking() else ("--no-pdf",)
    first = made(tmp_path / "first", backwards=False)
    second = made(tmp_path / "elsewhere" / "second", backwards=True)
    a = published(
        first,
        first,
        *pdf,
        "--workers",
        "1",
        PYTHONHASHSEED="1",
        TZ="Pacific/Kiritimati",
        LC_ALL="C.UTF-8",
    )
    b = published(
        second,
        tmp_path,
        *pdf,
        "--workers",
        "2",
        PYTHONHASHSEED="2",
        TZ="America/Anchorage",
        LC_ALL="C",
        LANG="de_DE",
    )
    assert sorted(a) == sorted(b)
    assert [name for name in a if a[name] != b[name]] == []
    assert {
        "index.html",
        "feed.xml",
        "dipper/sheet.json",
        "compare/dipper/dipper-light/index.html",
    } <= set(a)
    if pdf:
        pytest.skip(f"all but PDFs were compared: this machine lacks {' '.join(lacking())}")
    assert {"dipper/bench-sheet.pdf", "dipper-light/bench-sheet.pdf"} <= set(a)
