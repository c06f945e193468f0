"""The lock covers what pyproject.toml asks for, and can be installed from any registry."""

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
LOCK = (ROOT / "requirements.lock").read_text("utf-8")
LOCK_OF_TESTS = (ROOT / "tests" / "requirements.lock").read_text("utf-8")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))


def normal(name: str) -> str:
    """Return a distribution's name as PEP 503 normalises it."""
    return re.sub(r"[-_.]+", "-", name).lower()


def named(requirement: str) -> str:
    """Return the name with which a requirement starts."""
    found = re.match(r"[\w.-]+", requirement)
    assert found, requirement
    return normal(found[0])


def locked(lock: str) -> dict[str, set[str]]:
    """Name to the versions that a lock pins."""
    pins: dict[str, set[str]] = {}
    for line in lock.splitlines():
        if re.match(r"\w", line):
            pins.setdefault(named(line), set()).add(line.split("==")[1].split()[0])
    return pins


LOCKED = locked(LOCK)


@pytest.mark.parametrize(
    ("group", "lock"),
    [
        ("runtime", LOCK),
        ("install", LOCK),
        ("build", LOCK),
        ("test", LOCK_OF_TESTS),
        ("dev", LOCK_OF_TESTS),
    ],
)
def test_every_requirement_is_locked(group: str, lock: str) -> None:
    wanted = {
        "runtime": PROJECT["project"]["dependencies"],
        "build": PROJECT["build-system"]["requires"],
        **PROJECT["project"]["optional-dependencies"],
    }[group]
    assert wanted
    missing = {named(requirement) for requirement in wanted} - set(locked(lock))
    assert not missing, f"run `make lock`: the lock lacks {', '.join(sorted(missing))}"


def test_what_publishing_does_not_need_is_not_installed_for_it() -> None:
    """A person's .venv holds no test tools: the first lock names nothing that only the second one's
    groups ask for.
    """
    optional = PROJECT["project"]["optional-dependencies"]
    for_tests = {named(requirement) for group in ("test", "dev") for requirement in optional[group]}
    assert for_tests
    assert not for_tests & set(LOCKED)


def test_both_locks_pin_the_same_versions() -> None:
    there = locked(LOCK_OF_TESTS)
    assert {
        name: versions for name, versions in LOCKED.items() if there.get(name, versions) != versions
    } == {}


def test_what_only_a_cluster_needs_is_not_locked() -> None:
    assert named(PROJECT["project"]["optional-dependencies"]["cluster"][0]) not in LOCKED


@pytest.mark.parametrize(("lock", "least"), [(LOCK, 30), (LOCK_OF_TESTS, 50)])
def test_every_line_is_pinned_and_has_hashes(lock: str, least: int) -> None:
    entries = re.split(r"\n(?=\w)", lock.strip())
    assert len(entries) > least
    for entry in entries:
        assert re.match(r"[\w.-]+==\S+( ;[^\n]*)? \\\n", entry), entry
        assert "--hash=sha256:" in entry, entry


@pytest.mark.parametrize("lock", [LOCK, LOCK_OF_TESTS])
def test_no_address_stands_in_a_lock(lock: str) -> None:
    assert "://" not in lock
    assert "index-url" not in lock
