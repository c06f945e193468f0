"""One folder for each kind of mistake: why.txt says what is wrong, expected.txt is the whole
message, to the letter.
"""

from pathlib import Path

import pytest

from builder.diagnostics.finding import Severity
from builder.diagnostics.show import as_json, as_text
from builder.load.files import load
from builder.model.read.workspace import read_workspace

FOLDER = Path(__file__).resolve().parent / "broken"
CASES = sorted(p.name for p in FOLDER.iterdir() if p.is_dir())


@pytest.mark.parametrize("name", CASES)
def test_the_message_is_the_one_expected(name: str) -> None:
    loaded = load(FOLDER / name)
    found = read_workspace(loaded).findings
    text = "\n".join(as_text(f, loaded) for f in found) + "\n"
    assert text == (FOLDER / name / "expected.txt").read_text("utf-8")
    assert found and all(f.severity == Severity.MISTAKE and f.hint for f in found)
    assert '"line"' in as_json(found, loaded)


def test_there_are_enough_kinds() -> None:
    assert len(CASES) >= 60


def test_a_mistake_in_one_build_leaves_the_others_readable(tmp_path: Path) -> None:
    broken = FOLDER / "part-not-on-shelf" / "builds"
    for file in broken.rglob("*.yaml"):
        target = tmp_path / "builds" / file.relative_to(broken)
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(file.read_bytes())
    good = (broken / "test" / "build.yaml").read_text().replace("frame-b", "frame-a")
    (tmp_path / "builds" / "good").mkdir()
    (tmp_path / "builds" / "good" / "build.yaml").write_text(good)
    workspace = read_workspace(load(tmp_path))
    assert list(workspace.builds) == ["good"]
    assert {f.build for f in workspace.findings} == {"test"}
