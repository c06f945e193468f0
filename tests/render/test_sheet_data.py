"""What sheet.json and sheet.js carry: names that stay when code moves, and for the script what it
reads.
"""

import json
import re
from pathlib import Path

import pytest

from tests.workspace_edits import ROOT

SCRIPT = (ROOT / "templates/static/compare.js").read_text("utf-8")
BUILDS = ("dipper", "pipit")


def carried(site: Path, build: str) -> dict[str, dict[str, object]]:
    found = json.loads((site / build / "sheet.json").read_text("utf-8"))
    assert isinstance(found, dict)
    return found


@pytest.mark.parametrize("build", BUILDS)
def test_formulas_go_by_a_name_without_a_place_in_the_code(
    published_demo: tuple[Path, object], build: str
) -> None:
    names = {
        str(made["function"])
        for made in carried(published_demo[0] / "site", build)["figures"].values()
        if isinstance(made, dict)
    }
    assert "air_density" in names
    assert [name for name in names if not re.fullmatch(r"[a-z_0-9]*", name)] == []


@pytest.mark.parametrize("build", BUILDS)
def test_the_script_gets_what_it_reads_and_no_more(
    published_demo: tuple[Path, object], build: str
) -> None:
    text = (published_demo[0] / "site" / build / "sheet.js").read_text("utf-8")
    call = re.fullmatch(r'benchleafSheet\("[\w-]+",(.*)\);\n', text, re.DOTALL)
    assert call
    given = json.loads(call[1])
    whole = carried(published_demo[0] / "site", build)
    same = json.dumps({key: whole[key] for key in given}, ensure_ascii=False)
    # In the script no unit parts from its number.
    assert json.loads(call[1].replace("\u00a0", " ")) == json.loads(same.replace("\u00a0", " "))
    read = set(
        re.findall(
            r"\b(?:a|b|sheet|first|second)\.(build|compare|figures|leaves|money|headline|title)\b",
            SCRIPT,
        )
    )
    assert read & set(whole) - {"figures", "money"} == set(given)
    assert len(text) * 5 < (published_demo[0] / "site" / build / "sheet.json").stat().st_size
