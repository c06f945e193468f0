"""The same question, one answer, wherever it is printed: the sheet, the front page, the comparison,
sheet.json, the JSON of `compare`, and `trace`; as printed, and within 1e-12 where it is a number.

Asked over generated builds: an aircraft, its variant with lighter motors (which is the same answer
as the alternative that is tried on the first), and an aircraft of another builder after the sheet.
"""

import json
import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from random import Random
from typing import Any

import pytest
from click.testing import CliRunner

from builder.cli.main import cli
from builder.compute.compare.alternatives import swapped
from builder.compute.weight.mass import mass_table
from builder.load.files import load
from builder.model.read.workspace import read_workspace
from builder.options import PublishOptions
from builder.pipeline.publish import publish_site
from tests.compute.test_one_estimate import _file, _shelf

BUILDS = ("a", "b", "c")
SITE = "title: T\nlimits: [{name: class, mass: 250 g}]\ncompare: [[a, b]]\n"
ASKED = ("dry", "all-up-p")


def _written(folder: Path, seed: int) -> Path:
    random, builds = Random(seed), folder / "builds"
    (builds / "shelf").mkdir(parents=True)
    (builds / "site.yaml").write_text(SITE, "utf-8")
    (builds / "shelf" / "parts.yaml").write_text(_shelf(random), "utf-8")
    lighter = "based_on: a\nparts: {m: {use: n}}\n"
    texts = {
        "a": _file(random),
        "b": f"title: B\n{lighter}",
        "c": f"title: C\nown_aircraft: yes\n{lighter}",
    }
    for name, text in texts.items():
        (builds / name).mkdir()
        (builds / name / "build.yaml").write_text(text, "utf-8")
    return folder


@pytest.fixture(scope="module", params=range(3))
def site(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A generated workspace, published."""
    folder = _written(tmp_path_factory.mktemp("site"), request.param)
    publish_site(PublishOptions(folder, pdf=False, workers=1))
    return folder


def _data(site: Path, build: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((site / "site" / build / "sheet.json").read_text("utf-8"))
    return found


def _printed(page: Path, anchor: str) -> Iterator[str]:
    """The numbers that link to a derivation on a page, as they are printed."""
    links = re.findall(rf"<a href={anchor}>(.*?)</a>", page.read_text("utf-8"))
    for text in links:
        plain = unescape(re.sub(r"<[^>]+>", "", text))
        number = re.match(r"[^\d-]*(-?\d+(?:\.\d+)?)\s*g", plain)
        if number is not None:
            yield number[1]


def _cli(site: Path, *words: str) -> str:
    said = CliRunner().invoke(cli, [*words, "--workspace", str(site)])
    assert said.exit_code == 0, said.output
    return said.output


def _grams(kilograms: float, like: str) -> str:
    """The value with as many decimals as another was printed with."""
    return f"{1000 * kilograms:.{len(like.partition('.')[2])}f}"


@pytest.mark.parametrize("build", BUILDS)
@pytest.mark.parametrize("asked", ASKED)
def test_a_weight_is_one_number_on_every_page_and_in_every_file(
    site: Path, build: str, asked: str
) -> None:
    value = _data(site, build)["figures"][f"{build}/mass/{asked}"]["value"]
    pages = site / "site"
    own = list(_printed(pages / build / "index.html", f"numbers/index.html#/mass/{asked}"))
    front = list(_printed(pages / "index.html", f"{build}/numbers/index.html#/mass/{asked}"))
    assert own, "its sheet shows it"
    assert front or asked == "dry", "the front page shows what flies"
    for shown in (*own, *front):
        assert abs(float(shown) - 1000 * value) <= 0.5 * 10 ** -len(shown.partition(".")[2]) + 1e-9
    traced = re.search(r"(\d+(?:\.\d+)?) g", _cli(site, "trace", build, f"mass/{asked}"))
    assert traced is not None
    assert traced[1] == _grams(value, traced[1])
    headline = _data(site, build)["headline"]
    for key in ("dry", "all-up/p"):
        if headline[key]["key"] == f"{build}/mass/{asked}":
            assert headline[key]["value"] == pytest.approx(value, abs=1e-12)


def test_a_comparison_says_what_both_sheets_say(site: Path) -> None:
    told = json.loads(_cli(site, "compare", "a", "b", "--json"))
    by_key = {f["key"]: f for f in told["figures"]}
    for side, build in (("first", "a"), ("second", "b")):
        value = _data(site, build)["figures"][f"{build}/mass/dry"]["value"]
        assert by_key["dry"][side]["value"] == pytest.approx(value, abs=1e-12)
    apart = by_key["dry"]["second"]["value"] - by_key["dry"]["first"]["value"]
    assert by_key["dry"]["difference"]["value"] == pytest.approx(apart, abs=1e-12)
    page = next((site / "site" / "compare").glob("a/b/index.html")).read_text("utf-8")
    plain = unescape(re.sub(r"<[^>]+>", "", page))
    assert f"{abs(1000 * apart):.1f} g" in plain


def test_a_variant_is_the_alternative_and_the_swap(site: Path) -> None:
    made = read_workspace(load(site)).builds
    swap = mass_table(swapped(made["a"], "m", "n").build)
    for asked, figure in (("dry", swap.dry), ("all-up-p", swap.all_up["p"])):
        value = _data(site, "b")["figures"][f"b/mass/{asked}"]["value"]
        assert figure.value == pytest.approx(value, abs=1e-12)
    page = unescape(re.sub(r"<[^>]+>", "", (site / "site/a/parts/index.html").read_text("utf-8")))
    change = swap.dry.value - mass_table(made["a"]).dry.value
    shown = rf"{abs(1000 * change):.1f}\s+g"
    assert re.search(shown, page), "the table of alternatives says it"


def test_another_aircraft_weighs_what_a_copy_does_and_has_no_readings(site: Path) -> None:
    """What a builder who copies has not weighed is what 'your copy' says on the other's sheet."""
    figures = _data(site, "c")["figures"]
    made = read_workspace(load(site)).builds
    copies, own = mass_table(made["b"]).copies, mass_table(made["c"])
    assert figures["c/mass/dry"]["value"] == pytest.approx(copies[""].mass.value, abs=1e-12)
    assert figures["c/mass/all-up-p"]["value"] == pytest.approx(copies["p"].mass.value, abs=1e-12)
    assert own.readings == ()
