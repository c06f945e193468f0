"""Whole builds 'dry' on the page at the bench, from the first step to the last: every field typed,
every box ticked, Done touched; the page killed on the way, taken along to another device as a file,
and put back into the build, whose check then says what it said before.
"""

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser
from playwright.sync_api import Page as Tab

from builder.cli.main import cli
from builder.pages.bench.at_bench_page import at_bench_page
from builder.pages.bench.bands import Band, bands_of
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked, check_workspace
from builder.render.assets import asset_files
from builder.render.html.page import Renderer, template_texts

pytestmark = pytest.mark.slow  # takes long

# What a hand does on one screen: types into each field, ticks each box, touches Done.
HAND = """readings => {
    const shown = [...document.querySelectorAll(".stepwise .body [data-now]")].filter(
        n => !n.querySelector("[data-now]"))[0];
    for (const field of shown.querySelectorAll("[data-write]")) {
        field.value = readings[field.dataset.write] || "";
        field.dispatchEvent(new Event("input", { bubbles: true }));
    }
    for (const box of shown.querySelectorAll("input[type=checkbox]")) {
        if (!box.checked) { box.click(); }
    }
    document.querySelector("button.go").click();
    return [shown.id, document.querySelector("[role=alert]").textContent];
}"""


def _sound(band: Band) -> str:
    """What a sound aircraft reads."""
    words = {"joined": "beep", "alike": "1.1M 1.1M 1.2M", "near": "0,2 0,2 0,2", "low": "1"}
    if band.kind != "band" or band.low is None or band.high is None:
        return words.get(band.kind, "no beep")
    return f"{(band.low + band.high) / 2:.2f}".replace(".", ",")


def _open(browser: Browser, place: Path, width: int) -> Tab:
    tab = browser.new_context(viewport={"width": width, "height": 844}).new_page()
    tab.goto(place.as_uri())
    return tab


@pytest.mark.parametrize(("name", "width"), [("pipit", 390), ("dipper", 820)])
def test_built_from_the_first_step_to_the_last(
    demo: Checked, browser: Browser, tmp_path: Path, root: Path, name: str, width: int
) -> None:
    sheet, files = demo.sheets[name], dict(asset_files(None))
    page = at_bench_page(sheet)
    files[page.address] = Renderer(template_texts(None)).page(page, site_pages(demo.workspace.site))
    for address, content in files.items():
        (tmp_path / address).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / address).write_bytes(content)
    place = tmp_path / page.address
    readings = {b.key: _sound(b) for b in bands_of(sheet)}
    tab = _open(browser, place, width)
    count = int(tab.locator("progress").get_attribute("max") or 0)
    visited: list[str] = []
    for i in range(count):
        if i == count // 2:  # the page is killed, and opened again
            context = tab.context
            tab.close()
            tab = context.new_page()
            tab.goto(place.as_uri())
        where, said = tab.evaluate(HAND, readings)
        visited.append(where)
        refused = ("box", "measure", "measuring", "Not yet")
        assert not any(word in said for word in refused), (where, said)
    assert len(set(visited)) == count
    assert f"{count} of {count} in all" in tab.locator(".at-now").inner_text()
    with tab.expect_download() as saved:
        tab.get_by_role("button", name="Export").click()
    file = tmp_path / "notes.json"
    saved.value.save_as(file)
    tab.context.close()
    other = _open(browser, place, width)
    other.locator("#at-import").set_input_files(file)
    other.get_by_text("entries taken in").wait_for()
    assert f"{count} of {count} in all" in other.locator(".at-now").inner_text()
    other.context.close()
    _goes_back(demo, root, tmp_path, name, file)


def _goes_back(demo: Checked, root: Path, tmp_path: Path, name: str, file: Path) -> None:
    """The file goes into the build, and its check says what it said."""
    workspace = tmp_path / "workspace"
    shutil.copytree(root / "builds", workspace / "builds")
    command = ["note", name, str(file), "--yes", "--workspace", str(workspace)]
    done = CliRunner().invoke(cli, command)
    assert done.exit_code == 0, done.output
    assert "wrote" in done.output
    checked = check_workspace(workspace, (name,), alternatives=False)
    assert not checked.workspace.findings
    before = {f.code for f in demo.sheets[name].verdict.faults}
    assert {f.code for f in checked.sheets[name].verdict.faults} == before
