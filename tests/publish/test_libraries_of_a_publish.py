"""Any change of our code, and another version of any library that the wheel requires, makes all
pages anew.

What is required is said by the packages themselves (core metadata, Requires-Dist), read here with
the reference library for it, `packaging`.
"""

import os
import subprocess
import sys
import tomllib
from importlib import metadata
from pathlib import Path
from shutil import copytree, ignore_patterns

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from builder.publish.kept import stale


def _direct(root: Path) -> list[Requirement]:
    return [
        Requirement(r)
        for r in tomllib.loads((root / "pyproject.toml").read_text())["project"]["dependencies"]
    ]


def _installed_below(waiting: list[Requirement]) -> set[str]:
    """Every installed distribution below these, with markers asked of this machine."""
    seen: set[tuple[str, frozenset[str]]] = set()
    while waiting:
        requirement = waiting.pop()
        name, extras = canonicalize_name(requirement.name), frozenset(requirement.extras)
        if (name, extras) in seen:
            continue
        seen.add((name, extras))
        for line in metadata.requires(name) or ():
            other = Requirement(line)
            if other.marker is None or any(
                other.marker.evaluate({"extra": e}) for e in (*extras, "")
            ):
                waiting.append(other)
    return {name for name, _ in seen}


def test_what_the_wheel_requires_is_listed(root: Path) -> None:
    assert list(stale.REQUIRED) == [canonicalize_name(r.name) for r in _direct(root)]


def test_every_library_below_is_in_with_its_version(root: Path) -> None:
    below = _installed_below(_direct(root))
    assert below >= {
        "pillow",
        "pypdfium2",
        "fontpkg-ibm-plex-sans",
        "pydyf",
        "tinycss2",
        "pydantic-core",
        "brotli",
    }
    versions = stale.library_versions()
    assert {n: versions.get(n) for n in below} == {n: metadata.version(n) for n in below}
    assert {"pytest", "numpy", "ruff"}.isdisjoint(versions), "extras that nobody asked for"


@pytest.mark.parametrize("name", ["pillow", "fontpkg-ibm-plex-mono", "brotli", "pydantic-core"])
def test_another_version_of_one_of_them_changes_the_digest(
    monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    real = metadata.metadata

    def faked(asked: str) -> object:
        about = real(asked)
        if asked == name:
            about.replace_header("Version", "0.0.1")  # type: ignore[attr-defined]  # it is a message of the standard library
        return about

    before = stale.own_digest.__wrapped__()
    monkeypatch.setattr(metadata, "metadata", faked)
    assert stale.library_versions()[name] == "0.0.1"
    assert stale.own_digest.__wrapped__() != before
    monkeypatch.undo()
    assert stale.own_digest.__wrapped__() == before


def test_one_that_is_taken_away_is_absent(monkeypatch: pytest.MonkeyPatch) -> None:
    real = metadata.metadata

    def faked(asked: str) -> object:
        if asked == "pillow":
            raise metadata.PackageNotFoundError(asked)
        return real(asked)

    monkeypatch.setattr(metadata, "metadata", faked)
    assert stale.library_versions()["pillow"] == "absent"


def test_none_of_them_is_imported_for_it() -> None:
    script = (
        "import sys; from builder.publish.kept import stale; stale.own_digest();"
        " print(*sys.modules)"
    )
    said = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    ).stdout.split()
    slow = {
        "PIL",
        "weasyprint",
        "fontTools",
        "pypdfium2",
        "pydantic",
        "jinja2",
        "yaml",
        "segno",
        "packaging",
    }
    assert slow.isdisjoint(said)


def test_a_look_at_an_unchanged_site_does_not_ask_for_it() -> None:
    script = "import sys; import builder.publish.kept.unchanged; print(*sys.modules)"
    said = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    ).stdout.split()
    assert {"importlib.metadata", "builder.publish.kept.stale"}.isdisjoint(said)


def test_a_change_in_any_stage_changes_the_digest(root: Path, tmp_path: Path) -> None:
    """Of a copy of the code, asked by a Python of its own each time."""
    copytree(root / "builder", tmp_path / "builder", ignore=ignore_patterns("__pycache__"))
    script = "from builder.publish.kept import stale; print(stale.own_digest())"
    own = {**os.environ, "PYTHONPATH": str(tmp_path), "PYTHONDONTWRITEBYTECODE": "1"}

    def digest() -> str:
        words = [sys.executable, "-c", script]
        return subprocess.run(
            words, capture_output=True, text=True, check=True, env=own, cwd=tmp_path
        ).stdout

    stages = [f for f in sorted((tmp_path / "builder").iterdir()) if f.is_dir()]
    assert {"compute", "rules", "pages", "render"} <= {s.name for s in stages}
    seen = {digest()}
    for number, stage in enumerate(stages, 2):
        file = next(p for p in sorted(stage.rglob("*")) if p.is_file())
        file.write_bytes(file.read_bytes() + b"\n")
        seen.add(digest())
        assert len(seen) == number, file
