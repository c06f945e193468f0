"""The lock covers what pyproject.toml asks for, and can be installed from any registry."""

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
LOCK = (ROOT / "requirements.lock").read_text("utf-8")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))


def normal(name: str) -> str:
    """Return a distribution's name as PEP 503 normalises it."""
    return re.sub(r"[-_.]+", "-", name).lower()


def named(requirement: str) -> str:
    """Return the name with which a requirement starts."""
    found = re.match(r"[\w.-]+", requirement)
    assert found, requirement
    return normal(found[0])


LOCKED = {named(line) for line in LOCK.splitlines() if re.match(r"\w", line)}


@pytest.mark.parametrize("group", ["runtime", "test", "dev", "build"])
def test_every_requirement_is_locked(group: str) -> None:
    wanted = {
        "runtime": PROJECT["project"]["dependencies"],
        "build": PROJECT["build-system"]["requires"],
        **PROJECT["project"]["optional-dependencies"],
    }[group]
    assert wanted
    missing = {named(requirement) for requirement in wanted} - LOCKED
    assert not missing, f"run `make lock`: requirements.lock lacks {', '.join(sorted(missing))}"


def test_what_only_a_cluster_needs_is_not_locked() -> None:
    assert named(PROJECT["project"]["optional-dependencies"]["cluster"][0]) not in LOCKED


def test_every_line_is_pinned_and_has_hashes() -> None:
    entries = re.split(r"\n(?=\w)", LOCK.strip())
    assert len(entries) > 50
    for entry in entries:
        assert re.match(r"[\w.-]+==\S+( ;[^\n]*)? \\\n", entry), entry
        assert "--hash=sha256:" in entry, entry


def test_no_address_stands_in_the_lock() -> None:
    assert "://" not in LOCK
    assert "index-url" not in LOCK
