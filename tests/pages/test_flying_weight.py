"""One flying weight everywhere: what stands beside a limit or a time holds the payload, as it is
flown.

The expected weights are added here by hand from what the workspace says, not taken from the code
under test.
"""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from shutil import copytree, rmtree

import pytest
from click.testing import CliRunner
from lxml import html

from builder.cli.main import cli
from builder.options import PublishOptions
from builder.pages.site.card import card
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import check_workspace
from builder.pipeline.publish import publish_site
from builder.render.html.page import template_texts
from builder.render.paper.card_image import card_html
from tests.workspace_edits import ROOT

PAYLOAD, LARGE = 8.0, 91.8  # g: the recorder added here, and the large pack by the shelf
DRY = 154.5  # g, on the scale
WITH, WITHOUT = (
    DRY + LARGE + PAYLOAD,
    DRY + LARGE,
)  # 254.3 g and 246.3 g: a 250 g limit lies between
RECORDER = """
recorder-drop:
  kind: payload
  name: Drop recorder
  maker: Lockside Optics (invented)
  mass: {measured: 8.0 g}
  supply: {own_cell: yes}
"""
WEIGHED = {
    "dry and all packs": (
        "  - {what: dry, mass: 154.5 g}\n  - {what: small, mass: 236.7 g}\n  - {what: large, mass:"
        " 254.3 g}\n"
    ),
    "dry": "  - {what: dry, mass: 154.5 g}\n",
    "large": "  - {what: large, mass: 254.3 g}\n",
}


def _workspace(folder: Path, weighed: str) -> Path:
    """The Dipper with a recorder on it, beside the Pipit; both compared."""
    copytree(ROOT / "builds", folder / "builds")
    for other in ("curlew", "redshank", "dipper-light"):
        rmtree(folder / "builds" / other)
    site = folder / "builds" / "site.yaml"
    site.write_text(
        site.read_text("utf-8").partition("\ncompare:\n")[0] + "\ncompare:\n  - [dipper, pipit]\n",
        "utf-8",
    )
    shelf = folder / "builds" / "shelf" / "extras.yaml"
    shelf.write_text(shelf.read_text("utf-8") + RECORDER, "utf-8")
    build = folder / "builds" / "dipper" / "build.yaml"
    head, _, rest = build.read_text("utf-8").partition("\nweighed:\n")
    tail = rest.partition("\n\n")[2]
    head = head.replace(
        "\nparts:\n", "\nparts:\n  recorder: {use: recorder-drop, at: '0 mm, 0 mm, 40 mm'}\n", 1
    )
    build.write_text(f"{head}\nweighed:\n{weighed}\n{tail}", "utf-8")
    return folder


@pytest.fixture(scope="module", params=list(WEIGHED.values()), ids=list(WEIGHED))
def workspace(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Published without paper, with what was weighed named by the parameter."""
    folder = _workspace(tmp_path_factory.mktemp("flown"), request.param)
    publish_site(PublishOptions(folder, pdf=False, workers=1))
    return folder


def _text(path: Path) -> html.HtmlElement:
    return html.parse(str(path)).getroot()


def _words(node: html.HtmlElement) -> str:
    return re.sub(r"\s+", " ", " ".join(node.itertext()))


def _grams(words: str) -> list[float]:
    return [float(x) for x in re.findall(r"(\d+\.\d) g\b", words.replace("\u00a0", " "))]


def _fact(page: html.HtmlElement, name: str) -> str:
    found = [_words(d.getparent()) for d in page.iter("dt") if name in _words(d)]
    assert found, f"no fact {name!r}"
    return found[0]


def test_front_page_and_table_of_all_builds(workspace: Path) -> None:
    front = _words(_text(workspace / "site" / "index.html").get_element_by_id("build-dipper"))
    assert "battery small and payload recorder" in front
    row = _words(
        _text(workspace / "site" / "compare" / "index.html").get_element_by_id("build-dipper-large")
    )
    assert "battery large and payload recorder" in row
    assert WITH in [pytest.approx(g, abs=0.06) for g in _grams(row)]


def test_at_a_glance_and_the_limits(workspace: Path) -> None:
    page = _text(workspace / "site" / "dipper" / "index.html")
    weight = _fact(page, "Flying weight, battery large and payload recorder")
    assert _grams(weight)[0] == pytest.approx(WITH, abs=0.06)
    limit = _fact(page, "To the limit: 250 g class")
    assert "over with battery large and payload recorder" in limit
    assert _grams(limit)[0] == pytest.approx(WITH - 250, abs=0.06)
    parts = _text(workspace / "site" / "dipper" / "parts" / "index.html")
    rows = [
        _words(r)
        for r in parts.get_element_by_id("limits").iter("tr")
        if "battery large" in _words(r)
    ]
    assert rows and all("over" in r and _grams(r)[0] == pytest.approx(WITH, abs=0.06) for r in rows)


def test_card_holds_the_flying_weight(workspace: Path) -> None:
    found = check_workspace(workspace)
    drawn = card_html(
        card(found.sheets["dipper"], site_pages(found.workspace.site)), template_texts(None)
    )
    words = _words(html.fromstring(drawn))
    assert "Flying weight, battery large and payload recorder" in words
    assert any(g == pytest.approx(WITH, abs=0.06) for g in _grams(words))
    assert f"{WITHOUT:.1f}" not in words


def test_data_for_others(workspace: Path) -> None:
    sheet = json.loads((workspace / "site" / "dipper" / "sheet.json").read_text("utf-8"))
    assert 1000 * sheet["headline"]["all-up/large"]["value"] == pytest.approx(WITH, abs=0.06)
    figure = next(f for f in sheet["compare"]["figures"] if f["key"] == "all-up/large")
    assert 1000 * figure["value"] == pytest.approx(WITH, abs=0.06)
    assert "battery large and payload recorder" in figure["label"]
    for key, made in sheet["figures"].items():
        if made["unit"] == "kg" and 1000 * made["value"] == pytest.approx(WITHOUT, abs=0.06):
            assert re.search("without payload|less payload", made["label"]), key


def test_scatter_stands_at_the_flying_weight(workspace: Path) -> None:
    page = _text(workspace / "site" / "compare" / "index.html")
    said = re.findall(r"Dipper 3, battery large and payload recorder: (\d+\.\d) g", _words(page))
    assert said and all(float(g) == pytest.approx(WITH, abs=0.06) for g in said)


def test_pair_says_what_the_weight_holds(workspace: Path) -> None:
    words = _words(_text(workspace / "site" / "compare" / "dipper" / "pipit" / "index.html"))
    assert "250 g class" in words
    assert f"{WITHOUT:.1f} g" not in words


def _texts(site: Path) -> Iterator[tuple[Path, str]]:
    """Every published text, a line for each row, fact, paragraph or step."""
    for path in sorted(site.rglob("*")):
        if path.suffix in (".txt", ".csv", ".xml"):
            yield from ((path, line) for line in path.read_text("utf-8").splitlines())
        elif path.parent.name == "numbers":  # a derivation's heading says of what it is
            for node in _text(path).xpath("//section[not(.//section)]"):
                yield path, _words(node)
        elif path.suffix == ".html":
            for node in _text(path).iter(
                "tr", "p", "div", "li", "dd", "title", "desc", "text", "figcaption", "section"
            ):
                lowest = not node.xpath(
                    ".//tr|.//p|.//li|.//div|.//section|.//text|.//desc|.//figcaption"
                )
                if lowest:
                    yield path, _words(node)


def test_nothing_published_shows_the_lower_weight_without_saying_so(workspace: Path) -> None:
    lower = re.compile(rf"\b{WITHOUT:.1f}0?\b(?! s)")  # seconds are no grams
    bad = [
        (str(path.relative_to(workspace)), line)
        for path, line in _texts(workspace / "site")
        if lower.search(line) and not re.search("(without|less) payload", line, re.IGNORECASE)
    ]
    assert not bad, bad[:5]


def test_the_terminal_says_the_same(workspace: Path) -> None:
    at = ["--workspace", str(workspace)]
    told = CliRunner().invoke(cli, ["trace", "dipper", "dipper/mass/all-up-large", *at]).output
    assert "battery large and payload recorder" in told
    assert f"\n{WITH:g}" in told
    pair = CliRunner().invoke(cli, ["compare", "dipper", "pipit", *at])
    assert pair.exit_code == 0
    assert f"{WITHOUT:.1f}" not in pair.output
