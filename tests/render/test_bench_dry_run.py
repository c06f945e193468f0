"""Whole builds 'dry' on the page at the bench, from the first step to the last: every field typed,
every box ticked, Done touched; the page killed on the way, taken along to another device as a file,
and put back into the build, whose check then says what it said before.

One of them is served and has everything happen in one go: wrong readings, a reload, a page killed, no
network, a new revision, a photograph, a second device.
"""

import shutil
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest
from click.testing import CliRunner
from PIL import Image
from playwright.sync_api import Browser, Locator
from playwright.sync_api import Page as Tab

from builder.cli.main import cli
from builder.load.files import load
from builder.model.read.workspace import read_workspace
from builder.pages.bench.bands import Band, bands_of
from builder.pages.sheet_input import SheetInput
from builder.pipeline.check import check_workspace, judged_alone
from tests.render.bench_site import KEPT, served_folder, write_bench_page

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
REFUSED = ("box", "measure", "measuring", "Not yet")


@dataclass(frozen=True)
class Site:
    """The pages of two builds, written once for all tests here, and what was found in each build."""

    folder: Path
    sheets: Mapping[str, SheetInput]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory, root: Path) -> Site:
    folder, model = tmp_path_factory.mktemp("site"), read_workspace(load(root))
    sheets = {name: judged_alone(model.builds[name]) for name in ("pipit", "dipper")}
    for sheet in sheets.values():
        write_bench_page(folder, sheet, model.site)
    return Site(folder, sheets)


def _sound(band: Band) -> str:
    """What a sound aircraft reads."""
    words = {"joined": "beep", "alike": "1.1M 1.1M 1.2M", "near": "0,2 0,2 0,2", "low": "1"}
    if band.kind != "band" or band.low is None or band.high is None:
        return words.get(band.kind, "no beep")
    return f"{(band.low + band.high) / 2:.2f}".replace(".", ",")


def _readings(sheet: SheetInput) -> dict[str, str]:
    return {b.key: _sound(b) for b in bands_of(sheet)}


def _open(browser: Browser, place: Path, width: int) -> Tab:
    tab = browser.new_context(viewport={"width": width, "height": 844}).new_page()
    tab.goto(place.as_uri())
    return tab


def _screens(tab: Tab) -> int:
    return int(tab.locator("progress").get_attribute("max") or 0)


@pytest.mark.parametrize("width", [390, 820])
@pytest.mark.parametrize("name", ["pipit", "dipper"])
def test_built_from_the_first_step_to_the_last(
    site: Site, browser: Browser, tmp_path: Path, root: Path, name: str, width: int
) -> None:
    place, readings = site.folder / name / "bench/index.html", _readings(site.sheets[name])
    tab = _open(browser, place, width)
    count = _screens(tab)
    visited: list[str] = []
    for i in range(count):
        if i == count // 2:  # the page is killed, and opened again
            context = tab.context
            tab.close()
            tab = context.new_page()
            tab.goto(place.as_uri())
        where, said = tab.evaluate(HAND, readings)
        visited.append(where)
        assert not any(word in said for word in REFUSED), (where, said)
        assert tab.evaluate("document.documentElement.scrollWidth") <= width, where
    assert len(set(visited)) == count
    assert f"{count} of {count} in all" in tab.locator(".at-now").inner_text()
    file = _saved(tab, "#at-export", tmp_path / "notes.json")
    tab.context.close()
    other = _open(browser, place, width)
    other.locator("#at-import").set_input_files(file)
    other.get_by_text("Entries taken in: ").wait_for()
    assert f"{count} of {count} in all" in other.locator(".at-now").inner_text()
    other.context.close()
    _goes_back(site.sheets[name], root, tmp_path, file)


def _saved(tab: Tab, button: str, into: Path) -> Path:
    with tab.expect_download() as saved:
        tab.locator(button).click()
    saved.value.save_as(into)
    return into


def _goes_back(sheet: SheetInput, root: Path, tmp_path: Path, *files: Path) -> Path:
    """The files go into the build, and its check says what it said."""
    workspace, name = tmp_path / "workspace", sheet.build.name
    shutil.copytree(root / "builds", workspace / "builds")
    for file in files:
        command = ["note", name, str(file), "--yes", "--workspace", str(workspace)]
        done = CliRunner().invoke(cli, command)
        assert done.exit_code == 0, done.output
        assert "wrote" in done.output
    checked = check_workspace(workspace, (name,), alternatives=False)
    assert not checked.workspace.findings
    before = {f.code for f in sheet.verdict.faults}
    assert {f.code for f in checked.sheets[name].verdict.faults} == before
    return workspace


def _wrong(band: Band) -> str:
    """What no sound aircraft reads; '' where nothing would be judged wrong or doubtful."""
    words = {"joined": "OL", "open": "beep", "charges": "0,3", "alike": "1M 4M 9M"}
    if band.kind != "band" or band.high is None:
        return words.get(band.kind, "")
    return f"{3 * band.high + 1:.1f}"


class _Person:
    """Somebody at the bench, with keys and fingers: what is seen is touched, nothing else."""

    def __init__(self, tab: Tab, bands: Mapping[str, Band]) -> None:
        self.tab, self.bands = tab, bands
        self.refused: list[str] = []

    @property
    def screen(self) -> Locator:
        return self.tab.locator(".stepwise .body [data-now]:not(:has([data-now]))").first

    def _fields(self) -> Iterator[tuple[Locator, Band]]:
        for field in self.screen.locator("[data-write]").all():
            band = self.bands.get(str(field.get_attribute("data-write")))
            if band is not None:
                yield field, band

    def _alert(self) -> str:
        return self.tab.locator("#at-told").text_content() or ""

    def _types_wrong(self, field: Locator, band: Band) -> None:
        """One wrong reading: Done stays on this screen and says why."""
        here = self.screen.get_attribute("id")
        field.fill(_wrong(band))
        self.tab.locator("button.go").click()
        assert self.screen.get_attribute("id") == here, band.name
        assert any(word in self._alert() for word in REFUSED), (band.name, self._alert())
        self.refused.append(band.name)

    def does_a_screen(self, *, errs: bool) -> str:
        """One screen, with its first field read wrong at first; its id."""
        fields = list(self._fields())
        for i, (field, band) in enumerate(fields):
            if errs and i == 0 and _wrong(band):
                self._types_wrong(field, band)
            field.fill(_sound(band))
        for box in self.screen.locator("input[type=checkbox]").all():
            if box.is_visible():
                box.check()
        here = str(self.screen.get_attribute("id"))
        self.tab.locator("button.go").click()
        said = self._alert()
        assert not any(word in said for word in REFUSED), (here, said)
        return here


def test_everything_happens_in_one_build(
    site: Site, browser: Browser, tmp_path: Path, root: Path
) -> None:
    sheet, folder = site.sheets["pipit"], tmp_path / "served"
    shutil.copytree(site.folder, folder)
    bands = {b.key: b for b in bands_of(sheet)}
    with served_folder(folder) as address:
        context = browser.new_context(viewport={"width": 390, "height": 844})
        place = f"{address}/pipit/bench/"
        tab = context.new_page()
        tab.goto(place)
        tab.get_by_text(KEPT).wait_for()
        person, count = _Person(tab, bands), _screens(tab)
        _photographed(tab, tmp_path)
        seen: list[str] = []
        for i in range(count // 2):
            seen.append(person.does_a_screen(errs=True))
            if i == count // 6:
                tab.reload()
            if i == count // 4:  # the page is killed; there is no network when it is opened again
                tab.close()
                context.set_offline(True)
                tab = context.new_page()
                tab.goto(place)
                person.tab = tab
        assert len(person.refused) > 3
        context.set_offline(False)
        changed = _revised(root, tmp_path, folder, seen)
        tab.goto(place)
        tab.get_by_text("done step has changed in this revision").wait_for()
        tab.get_by_role("button", name="List").click()
        tab.get_by_role("button", name="Changed: ").click()
        assert person.screen.get_attribute("id") == changed
        person.does_a_screen(errs=False)
        notes = _saved(tab, "#at-export", tmp_path / "notes.json")
        photos = _saved(tab, "#at-export-photos", tmp_path / "photos.json")
        context.close()
        other = browser.new_context(viewport={"width": 820, "height": 1180})
        tab = other.new_page()
        tab.goto(place)
        for file, said in ((notes, "Entries taken in: "), (photos, "Photographs taken in: 1")):
            tab.locator("#at-import").set_input_files(file)
            tab.get_by_text(said).wait_for()
        tab.reload()
        tab.get_by_role("button", name="List").click()
        tab.locator(".at-list li button:not(:text-matches('^✓'))").first.click()
        person = _Person(tab, bands)
        seen += [person.does_a_screen(errs=False) for _ in range(count - len(seen))]
        assert len(set(seen)) == count
        assert f"{count} of {count} in all" in tab.locator(".at-now").inner_text()
        notes = _saved(tab, "#at-export", tmp_path / "whole.json")
        photos = _saved(tab, "#at-export-photos", tmp_path / "photos.json")
        other.close()
    workspace = _goes_back(sheet, root, tmp_path, notes, photos)
    build = read_workspace(load(workspace)).builds["pipit"]
    assert [p.alt for p in build.source.photos if p.step == "weigh"] == ["The parts as they came"]


def _photographed(tab: Tab, tmp_path: Path) -> None:
    """A photograph of the first step, with words."""
    file = tmp_path / "IMG_7.jpg"
    Image.new("RGB", (1200, 900), (70, 70, 70)).save(file)
    tab.get_by_label("Photograph of this step").set_input_files(file)
    tab.get_by_label("What it shows").fill("The parts as they came")


def _revised(root: Path, tmp_path: Path, folder: Path, seen: list[str]) -> str:
    """The site with a step of the build in other words: the id of its screen, which was done."""
    workspace = tmp_path / "revised"
    shutil.copytree(root / "builds", workspace / "builds")
    file = workspace / "builds/pipit/build.yaml"
    text = file.read_text("utf-8")
    old = "Turn the board over. Solder four pads"
    assert old in text
    file.write_text(text.replace(old, "Turn the board over now. Solder four pads"), "utf-8")
    model = read_workspace(load(workspace))
    write_bench_page(folder, judged_alone(model.builds["pipit"]), model.site)
    assert "step-under-first" in seen
    return "step-under-first"
