"""A time in the air is one answer wherever it is printed: every number of every page that opens the
derivation of a timer or of a time says what sheet.json holds, and so does `trace`.
"""

import json
import re
from collections import defaultdict
from html import unescape
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli.main import cli
from builder.pipeline.published import Published

# A number that opens the derivation of a time: the build where it is another page's, battery, what.
LINK = re.compile(
    r'<a href="?(?:\.\./)*(?:([a-z-]+)/)?numbers/index\.html#/(flight/[\w-]+/reserve/(?:timer|time))"?>(.*?)</a>'
)
SECONDS = {"min": 60.0, "s": 1.0}


def _printed(site: Path) -> dict[str, list[tuple[str, str, str]]]:
    """By key: the page, the number and the unit of each place."""
    found: dict[str, list[tuple[str, str, str]]] = defaultdict(list)
    for page in site.rglob("*.html"):
        for build, figure, shown in LINK.findall(page.read_text("utf-8")):
            plain = unescape(re.sub(r"<[^>]+>", "", shown)).replace("\xa0", " ")
            number = re.match(r"(\d+(?:\.\d+)?)\s*(min|s)\b", plain)
            name = build or page.relative_to(site).parts[0]
            if number is not None and (site / name / "sheet.json").is_file():
                place = page.relative_to(site).as_posix()
                found[f"{name}/{figure}"].append((place, number[1], number[2]))
    return found


def test_a_time_is_one_number_on_every_page_and_in_trace(
    published_demo: tuple[Path, Published],
) -> None:
    site = published_demo[0] / "site"
    printed = _printed(site)
    timers = [key for key in printed if key.endswith("timer")]
    assert len({key.split("/")[0] for key in timers}) == 6, "each build shows its timer"
    for key, places in printed.items():
        build, _, figure = key.partition("/")
        figures = json.loads((site / build / "sheet.json").read_text("utf-8"))["figures"]
        value = figures[key]["value"]
        for page, number, unit in places:
            digit = 10 ** -len(number.partition(".")[2])
            short = value / SECONDS[unit] - float(number)
            # Who sets a timer by it reads one that is never longer.
            cut = key.endswith("timer")
            low, high = (0.0, digit) if cut else (-digit / 2, digit / 2)
            assert low - 1e-9 <= short <= high + 1e-9, (key, page)
        alike = {(len(number), unit): number for _, number, unit in places}
        assert all(alike[len(number), unit] == number for _, number, unit in places), key
    key = min(timers)
    build, _, figure = key.partition("/")
    said = CliRunner().invoke(cli, ["trace", build, figure, "--workspace", str(published_demo[0])])
    assert said.exit_code == 0, said.output
    traced = re.search(r"(\d+(?:\.\d+)?) (min|s)\b", said.output)
    assert traced is not None
    value = json.loads((site / build / "sheet.json").read_text("utf-8"))["figures"][key]["value"]
    assert float(traced[1]) == pytest.approx(value / SECONDS[traced[2]], rel=0.02)


def test_the_front_page_and_any_two_sort_by_the_same_time(
    published_demo: tuple[Path, Published],
) -> None:
    site = published_demo[0] / "site"
    front = (site / "index.html").read_text("utf-8")
    cells = re.findall(
        r'data-l="Longest timer" data-sort=([\d.]+)><a href="?([a-z-]+)/numbers/index\.html#/([\w/-]+)',
        front,
    )
    assert len(cells) == 6
    for sorts, build, figure in cells:
        figures = json.loads((site / build / "sheet.json").read_text("utf-8"))["figures"]
        assert float(sorts) == pytest.approx(figures[f"{build}/{figure}"]["value"], rel=1e-12)
        own = [f["value"] for k, f in figures.items() if k.endswith("/reserve/timer")]
        assert float(sorts) == pytest.approx(max(own), rel=1e-12)
