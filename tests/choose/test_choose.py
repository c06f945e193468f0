"""`choose` against trying all, and every proposal written out and checked from a clean start."""

import shutil
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner, Result

from builder import pipeline
from builder.cli.main import cli
from builder.compute.choose.selected_build import written_out
from builder.compute.choose.wish import BuildWish
from builder.load.variant_yaml import variant_yaml
from builder.pipeline.check import Checked
from builder.rules.choose import asked, search
from builder.rules.choose.answer import best_of_each_number, unbeaten
from builder.rules.choose.search import Choices, choose_swaps
from builder.rules.rule import Case, Outcome, Rule
from tests.choose.all_tried import all_points, beats, generated_shelf

pytestmark = pytest.mark.slow  # takes long

BUILD = "pipit"


def _choices(demo: Checked, name: str) -> Choices:
    sheet = demo.sheets[name]
    return choose_swaps(sheet.build, dict(demo.workspace.shelf), sheet.results, sheet.verdict)


@pytest.fixture(scope="module")
def dipper(demo: Checked) -> Choices:
    """The choices of the worked example from the demo's whole shelf."""
    return _choices(demo, "dipper")


@pytest.mark.parametrize("seed", [8, 21])
def test_nothing_is_beaten_and_nothing_is_missed_on_generated_shelves(
    demo: Checked, seed: int
) -> None:
    sheet = demo.sheets[BUILD]
    shelf = generated_shelf(sheet.build, seed, 3)
    found = choose_swaps(sheet.build, shelf, sheet.results, sheet.verdict)
    every = all_points(sheet.build, shelf)
    assert found.whole and len(every) > 4
    for one in found.right:
        mine = every[one.selection]
        assert (mine[1], mine[2], mine[3]) == pytest.approx(one.figures.of_known, rel=1e-12)
    right = [every[c.selection] for c in found.right]
    unsure = [set(c.selection.swaps) for c in found.unsure]
    missed = [
        s
        for s, p in every.items()
        if not any(few <= set(s.swaps) for few in unsure)
        and not any(q == p or beats(q, p) for q in right)
    ]
    assert missed == []


def test_every_proposal_written_out_is_clean_and_has_the_same_numbers(
    root: Path, tmp_path: Path, dipper: Choices
) -> None:
    """Read from YAML by the whole pipeline, computed and judged by every rule."""
    shutil.copytree(root / "builds", tmp_path / "builds")
    picked = [c for c in unbeaten(dipper) if c.selection.swaps][:6]
    assert len(picked) >= 4
    for i, one in enumerate(picked):
        folder = tmp_path / "builds" / f"chosen-{i}"
        folder.mkdir()
        text = variant_yaml(written_out(dipper.build, one.selection, f"ChosenSwaps {i}"))
        (folder / "build.yaml").write_text(text, "utf-8")
    _, model = pipeline.read(tmp_path)
    assert not model.findings
    for i, one in enumerate(picked):
        sheet = pipeline.judged_alone(model.builds[f"chosen-{i}"])
        assert sheet.verdict.faults == ()
        results, pack = sheet.results, one.selection.pack
        battery = next(x for x in results.budget.packs if x.key == f"pack-{pack}")
        assert battery.used is not None
        price = (results.budget.this_build.minor + battery.used.minor) / 100
        time = results.flight.packs[pack].endurance_styled
        mass, cost, less_time = one.figures.of_known or (0.0, 0.0, 0.0)
        assert mass == pytest.approx(results.mass.all_up[pack].value, rel=1e-12)
        assert one.figures.mass.spread == pytest.approx(results.mass.all_up[pack].spread, rel=1e-9)
        assert cost == pytest.approx(price, rel=1e-12)
        assert -less_time == pytest.approx(getattr(time, "value", 0.0), rel=1e-12)


def test_as_it_is_a_choice_has_the_figures_of_the_sheet(demo: Checked, dipper: Choices) -> None:
    sheet = demo.sheets["dipper"]
    for one in dipper.now:
        flown = sheet.results.flight.packs[one.selection.pack]
        mass, _, less_time = one.figures.of_known or (0.0, 0.0, 0.0)
        assert mass == pytest.approx(sheet.results.mass.all_up[one.selection.pack].value, abs=1e-4)
        assert -less_time == pytest.approx(getattr(flown.endurance_styled, "value", 0.0), rel=0.02)


def test_the_best_of_a_wish_is_the_best_of_all_right_ones(dipper: Choices) -> None:
    wish = BuildWish("longest", mass=0.25)
    best = best_of_each_number(dipper, wish)
    numbers = [len(c.selection.swaps) for c in best]
    assert numbers == sorted(set(numbers))
    known = [c.figures.of_known for c in dipper.right if c.figures.of_known is not None]
    longest = min(p[2] for p in known if p[0] < 0.25)
    assert best[-1].figures.of_known is not None
    assert best[-1].figures.of_known[2] == longest


def test_no_rule_is_asked_twice_of_one_choice(
    demo: Checked, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each rule counts how often it is asked of each case; a search is run with rules that count."""
    often: Counter[tuple[str, int]] = Counter()
    alive: list[Case] = []

    def counting(rule: Rule) -> Rule:
        def check(case: Case) -> Iterator[Outcome]:
            alive.append(case)
            often[rule.code, id(case)] += 1
            yield from rule.check(case)

        return replace(rule, check=check)

    counted = tuple(counting(r) for r in asked.rules_asked())
    for module in (asked, search):
        monkeypatch.setattr(module, "rules_asked", lambda: counted)
    sheet = demo.sheets["dipper"]
    choose_swaps(sheet.build, sheet.build.shelf, sheet.results, sheet.verdict)
    assert len({case for _, case in often}) >= 10
    assert {code: n for code, n in often.items() if n > 1} == {}


def test_a_part_without_a_price_is_never_under_a_price(demo: Checked) -> None:
    sheet = demo.sheets[BUILD]
    shelf = generated_shelf(sheet.build, 3, 2)
    bare = {
        name: type(entry)(name, entry.part.model_copy(update={"price": None}), entry.where)
        for name, entry in shelf.items()
        if name.startswith("other-")
    }
    found = choose_swaps(sheet.build, {**shelf, **bare}, sheet.results, sheet.verdict)
    assert all(not c.selection.swaps for c in best_of_each_number(found, BuildWish(price=1e6)))
    assert all(any("price of" in w for w in c.lacking) for c in found.unsure)
    assert found.unsure


def _run(root: Path, *words: str) -> Result:
    return CliRunner().invoke(cli, ["choose", *words, "--workspace", str(root)])


def test_the_command_answers_and_writes_out(root: Path) -> None:
    done = _run(root, BUILD, "--under", "100 g", "--longest")
    assert done.exit_code == 0 and "UNDER 100.0 G, LONGEST IN THE AIR" in done.output
    written = _run(root, BUILD, "--longest", "--written-out")
    assert yaml.safe_load(written.output)["based_on"] == BUILD
    none = _run(root, BUILD, "--under", "1 g")
    assert none.exit_code == 1 and "No choice of up to three swaps does that" in none.output
    assert "The lightest without a fault, " in none.output and "cheapest" not in none.output


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--under", "3"), "neither a weight nor a price"),
        (("--under", "3 g", "--under", "4 g"), "Say one limit of weight"),
        (("--under", "200 USD"), "are in EUR"),
        (("--at-least", "8"), "has no unit"),
    ],
)
def test_a_wrong_wish_is_one_sentence(root: Path, words: tuple[str, ...], said: str) -> None:
    done = _run(root, BUILD, *words)
    assert done.exit_code == 2 and said in done.output and "Traceback" not in done.output
