"""`benchleaf trace`: topics with their counts, the figures of one, a figure opened, and what is
said of a wrong key.
"""

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli.main import cli
from builder.compute.figures.figure import Figure
from builder.pages.derivations.topics import TOPICS, by_topic
from builder.pipeline.check import Checked

pytestmark = pytest.mark.slow  # takes long


def _trace(root: Path, *words: str) -> Result:
    return CliRunner().invoke(cli, ["trace", *words, "--workspace", str(root)])


def _computed(demo: Checked, build: str) -> list[Figure]:
    return [f for f in demo.sheets[build].figures if f.formula is not None]


def test_without_a_figure_the_topics_and_how_many_each_has(root: Path, demo: Checked) -> None:
    done = _trace(root, "dipper")
    assert done.exit_code == 0
    *lines, last = done.output.splitlines()
    counts = {x.split()[0]: int(x.split()[1]) for x in lines}
    figures = _computed(demo, "dipper")
    assert sum(counts.values()) == len(figures)
    assert counts["mass"] == sum(f.key.startswith("dipper/mass/") for f in figures)
    assert (
        last
        == f"{len(figures)} computed figures. `benchleaf trace dipper TOPIC` lists those of one"
        " topic."
    )
    assert len(lines) < 40


@pytest.mark.parametrize("words", ["mass", "mass/", "dipper/mass"])
def test_a_topic_lists_its_figures_and_each_can_be_opened(
    root: Path, demo: Checked, words: str
) -> None:
    done = _trace(root, "dipper", words)
    assert done.exit_code == 0
    keys = [line.split()[0] for line in done.output.splitlines()]
    assert keys == [
        f.key.removeprefix("dipper/") for f in by_topic("dipper", _computed(demo, "dipper"))["mass"]
    ]
    opened = _trace(root, "dipper", keys[-1])
    assert opened.output.startswith(f"dipper/{keys[-1]}\n")


def test_a_figure_of_its_topics_name_is_listed_by_its_whole_key_and_opens_by_it(
    root: Path, demo: Checked
) -> None:
    assert "pipit/style" in {f.key for f in _computed(demo, "pipit")}
    listed = [line.split()[0] for line in _trace(root, "pipit", "style").output.splitlines()]
    assert "pipit/style" in listed
    assert _trace(root, "pipit", "pipit/style").output.startswith("pipit/style\n")


def test_all_topics_together_list_every_figure_once(root: Path, demo: Checked) -> None:
    topics = by_topic("pipit", _computed(demo, "pipit"))
    listed = [line for t in topics for line in _trace(root, "pipit", t).output.splitlines()]
    assert len(listed) == len(_computed(demo, "pipit"))


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ("mas", "Did you mean 'mass'?"),
        ("mass/drz", "Did you mean 'mass/dry'?"),
        ("dipper/mass/drz", "Did you mean 'mass/dry'?"),
        ("dry", "Did you mean 'weighed/dry', 'mass/dry'?"),
        ("qqqqqq", "Its topics: mass, limit, "),
    ],
)
def test_a_wrong_key_is_told_the_nearest(root: Path, wrong: str, said: str) -> None:
    done = _trace(root, "dipper", wrong)
    assert done.exit_code == 2
    assert done.stderr.startswith(f"benchleaf: dipper has no figure {wrong!r}. ")
    assert said in done.stderr
    assert done.stdout == ""


def test_every_topic_of_the_demo_has_words_of_its_own(demo: Checked) -> None:
    found = {t for name in demo.sheets for t in by_topic(name, _computed(demo, name))}
    assert found - {"other"} <= set(TOPICS)
