"""Fixtures that every test may use: the demo workspace, read once."""

from pathlib import Path

import pytest

from builder.pipeline.check import Checked, check

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="session")
def root() -> Path:
    """The project's folder, which is the demo workspace."""
    return ROOT


@pytest.fixture(scope="session")
def demo() -> Checked:
    """The demo workspace, read, computed and judged. Nothing in it may be changed."""
    return check(ROOT)
