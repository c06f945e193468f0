"""Which fact to give next: what is promised of an answer is what happens when it is written down."""

from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner

from builder import pipeline
from builder.cli.main import cli
from builder.pipeline.sources.unanswered import Unanswered, unanswered
from builder.pipeline.sources.workbench import EACH
from tests.publish.sources import Sources

pytestmark = pytest.mark.slow  # takes long


def _lacking(workspace: Path) -> dict[str, int]:
    """How many facts each rule lacks, asked of `check` and not of what ranks them."""
    verdict = pipeline.check_workspace(workspace).sheets["wren"].verdict
    return {a.rule.code: len(a.not_judged) for a in verdict.answers}


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Unanswered]:
    """A build of which little is known, with what would settle most."""
    workspace = tmp_path_factory.mktemp("bare")
    Sources().write(workspace)
    loaded, model = pipeline.read(workspace)
    return workspace, unanswered(loaded, model, "wren")


def test_what_is_promised_of_an_answer_comes_true(
    bare: tuple[Path, Unanswered], tmp_path: Path
) -> None:
    workspace, ranked = bare
    before = _lacking(workspace)
    single = [a for a in ranked.answers if len(a.asked) == 1 and EACH not in a.asked[0][2].path]
    assert len(single) > 3
    for i, answer in enumerate(single[:4]):
        ((file, path, question),) = answer.asked
        there = tmp_path / str(i)
        Sources().write(there)
        target = there / "builds" / file
        tree = yaml.safe_load(target.read_text("utf-8"))
        node = tree
        for step in (*path, *question.path[:-1]):
            node = node.setdefault(step, {}) if isinstance(node, dict) else node[step]
        node[question.path[-1]] = question.tried
        target.write_text(yaml.safe_dump(tree, sort_keys=False), "utf-8")
        after = _lacking(there)
        promised = {code for code in answer.settles.checks if before.get(code)}
        assert promised, answer.words
        assert all(after[code] < before[code] for code in promised), answer.words


def test_the_answer_that_settles_most_comes_first(bare: tuple[Path, Unanswered]) -> None:
    ranks = [answer.settles.rank for answer in bare[1].answers]
    assert ranks == sorted(ranks, reverse=True) and ranks[0] > ranks[-1]


def test_check_says_what_to_give(bare: tuple[Path, Unanswered]) -> None:
    done = CliRunner().invoke(cli, ["check", "wren", "--not-judged", "--workspace", str(bare[0])])
    given = [line for line in done.stdout.splitlines() if line.startswith("  give ")]
    best = bare[1].answers[0]
    assert given[0] == f"  give {best.words} ({best.place}): {best.settles.words}"


def test_what_no_single_answer_settles_is_named_first_what_most_checks_lack(
    bare: tuple[Path, Unanswered],
) -> None:
    """For each rule that no answer settles, what it says is missing; counted apart from the search."""
    workspace, ranked = bare
    verdict = pipeline.check_workspace(workspace).sheets["wren"].verdict
    settled = {code for answer in ranked.answers for code in answer.settles.checks}
    lacking = {a.rule.code: {n.missing for n in a.not_judged} for a in verdict.not_judged}
    expected = {(m, code) for code, all_ in lacking.items() if code not in settled for m in all_}
    assert {(fact.missing, code) for fact in ranked.named for code in fact.codes} == expected
    counts = [len(fact.codes) for fact in ranked.named]
    assert expected and counts == sorted(counts, reverse=True)


def test_no_answer_makes_another_thing_of_what_is_there() -> None:
    """A wire with its gauge is no lead that a maker fitted; the newcomer's frame lacks its motors."""
    loaded, model = pipeline.read(Path(__file__).with_name("newcomer"))
    ranked = unanswered(loaded, model, "plover")
    assert ranked.answers[0].words == "motors of frame-plover"
    assert not [a.words for a in ranked.answers if a.words.startswith("lead of wires")]
