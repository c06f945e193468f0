"""After random edits an incremental publish equals a clean one. The benchmark job runs hundreds more of these."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from tests.publish.exactness import Step, check_sequence, steps

_FEW = settings(max_examples=15, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("sequences")


@_FEW
@given(steps())
def test_random_edits(folder: Path, sequence: list[Step]) -> None:
    check_sequence(folder, sequence)
