"""After random edits an incremental publish equals a clean one. The benchmark job runs hundreds
more of these.
"""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from builder.pipeline.publish import publish_site
from tests.publish import edits
from tests.publish.edits import EDITS, Edit
from tests.publish.exactness import Step, check_sequence, steps
from tests.publish.sources import Sources

# No shrinking: an example takes a second, and a sequence of edits can be read as it is.
_FEW = settings(
    max_examples=6,
    deadline=None,
    derandomize=True,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=list(HealthCheck),
)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("sequences")


@_FEW
@given(steps(most=3))
def test_random_edits(folder: Path, sequence: list[Step]) -> None:
    check_sequence(folder, sequence)


def _step(*done: tuple[Edit, int, int]) -> Step:
    return Step(tuple((EDITS.index(edit), a, b) for edit, a, b in done))


@pytest.mark.parametrize(
    "sequence",
    [
        pytest.param([_step((edits.turn_parts, 1, 2))], id="parts in another order"),
        pytest.param(
            [_step((edits.move_part, 2, 1))], id="a part moved to another file, which pages cite"
        ),
        pytest.param(
            [_step((edits.base_on, 0, 1)), _step((edits.repeat_of_base, 0, 2))],
            id="a variant repeats its base",
        ),
        pytest.param(
            [_step((edits.own_template, 0, 1)), _step((edits.own_template, 0, 2))],
            id="own template, changed",
        ),
        pytest.param(
            [
                _step((edits.break_build, 0, 0), (edits.set_site, 0, 1)),
                _step((edits.retitle, 0, 3)),
            ],
            id="a kept build under a new title of the site",
        ),
        pytest.param(
            [_step((edits.picture, 0, 2)), _step((edits.picture, 0, 3))], id="a picture drawn anew"
        ),
    ],
)
def test_edits_that_are_easily_missed(folder: Path, sequence: list[Step]) -> None:
    check_sequence(folder, sequence)


def test_a_comment_changes_nothing_and_a_part_only_what_uses_it(tmp_path: Path) -> None:
    sources = Sources()
    sources.builds["wren"]["parts"]["motor"] = {"use": "motor-tit", "count": 4}
    sources.write(tmp_path)
    options = sources.options(tmp_path)
    publish_site(options)
    for path in sources.files():
        sources.comments[path] = 1
    sources.write(tmp_path)
    assert publish_site(options).written == 0
    before = {p: p.stat().st_ino for p in sorted((tmp_path / "site").rglob("*")) if p.is_file()}
    sources.shelf["air.yaml"]["motor-wren"]["price"]["each"] = "8.00 EUR"
    sources.write(tmp_path)
    publish_site(options)
    written = {
        p.relative_to(tmp_path / "site").parts[0]
        for p, inode in before.items()
        if p.stat().st_ino != inode
    }
    assert "robin" in written and "parts" in written
    assert "wren" not in written, "it uses the other motor"


def test_words_that_only_a_sheet_shows_make_no_comparison_anew(tmp_path: Path) -> None:
    sources = Sources()
    build = sources.builds["wren"]
    sources.write(tmp_path)
    publish_site(sources.options(tmp_path))
    build["summary"] = "Looks at reeds."
    build["questions"] = [{"ask": "Does it swim?", "answer": "No."}]
    sources.write(tmp_path)
    ended: list[str] = []
    publish_site(sources.options(tmp_path), lambda jobs, end: ended.append(end))
    assert "build:wren" in ended
    assert not [job for job in ended if job.startswith("compare:")]
    build["title"] = "Reed wren"
    sources.write(tmp_path)
    publish_site(sources.options(tmp_path), lambda jobs, end: ended.append(end))
    assert [job for job in ended if job.startswith("compare:")]
