"""`benchleaf preview` as a person uses it: the command, a real browser, an editor that saves, and
Ctrl-C.
"""

import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from shutil import copytree, rmtree

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.workspace_edits import ROOT

BAR = "#benchleaf-preview"


# What a shell starts in the background hears no Ctrl-C, nor do its children; the tests may run
# there.
_HEARS_CTRL_C = (
    "import signal; signal.signal(signal.SIGINT, signal.default_int_handler); from builder.cli.main"
    " import main; main()"
)


class Running:
    """The command, its address and what it says."""

    def __init__(self, workspace: Path) -> None:
        self.workspace = workspace
        self.said = workspace / "said.txt"
        with self.said.open("w") as out:
            self.process = subprocess.Popen(
                [
                    sys.executable,
                    "-c",
                    _HEARS_CTRL_C,
                    "preview",
                    "--port",
                    "0",
                    "--workspace",
                    str(workspace),
                ],
                stdout=subprocess.PIPE,
                stderr=out,
                text=True,
                cwd=ROOT,
            )
        assert self.process.stdout is not None
        line = self.process.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:\d+/", line)
        assert found is not None, line + self.said.read_text()
        self.address = found[0]

    @property
    def source(self) -> Path:
        return self.workspace / "builds" / "dipper" / "build.yaml"


@pytest.fixture
def running(tmp_path: Path) -> Iterator[Running]:
    copytree(ROOT / "builds", tmp_path / "builds")
    command = Running(tmp_path)
    yield command
    if command.process.poll() is None:
        command.process.kill()
    command.process.wait(10)
    assert command.process.stdout is not None
    command.process.stdout.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 1280, "height": 800})
    found = context.new_page()
    found.set_default_timeout(60_000)
    yield found
    context.close()


def test_a_saved_edit_shows_a_mistake_shows_and_mending_it_shows(
    running: Running, page: Page
) -> None:
    expect.set_options(timeout=60_000)
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text))
    page.goto(f"{running.address}dipper/")
    bar, heading = page.locator(BAR), page.locator("h1")
    expect(bar.locator("summary")).to_have_text(re.compile("^Preview: "))
    expect(heading).to_have_text("Dipper 3")
    text = running.source.read_text("utf-8")

    running.source.write_text(text.replace("title: Dipper 3", "title: Dipper 4", 1), "utf-8")
    expect(heading).to_have_text("Dipper 4")

    running.source.write_text(text.replace("title: Dipper 3", "titel: Dipper 5", 1), "utf-8")
    expect(bar).to_have_class("bad")
    expect(bar.locator("pre")).to_contain_text(
        "dipper/build.yaml:6:1: mistake [data/missing-key] 'title' is missing."
    )
    expect(bar.locator("pre")).to_contain_text("Did you mean 'title'?")
    expect(heading).to_have_text("Dipper 4")  # the last page that could be made
    assert (
        "[data/missing-key] 'title' is missing." in running.said.read_text()
    )  # the terminal says the same

    running.source.write_text("title: [", "utf-8")  # no YAML at all
    expect(bar.locator("pre")).to_contain_text("data/syntax")

    running.source.write_text(text.replace("title: Dipper 3", "title: Dipper 6", 1), "utf-8")
    expect(heading).to_have_text("Dipper 6")
    expect(bar).not_to_have_class("bad")
    assert complaints == []  # nothing was refused by the page's policy


def test_a_saved_chapter_is_shown_at_the_place_that_was_edited(
    running: Running, page: Page
) -> None:
    expect.set_options(timeout=60_000)
    page.set_viewport_size({"width": 390, "height": 500})
    page.set_default_timeout(180_000)  # the builds are judged beside it
    page.goto(f"{running.address}dipper/guide/what-went-wrong/")
    page.wait_for_selector(BAR)
    chapter = running.workspace / "builds/dipper/guide/06-what-went-wrong.md"
    text = chapter.read_text("utf-8").rstrip()
    edited = page.locator(".benchleaf-edited")

    chapter.write_text(f"{text}\n\nA word at the end.\n", "utf-8")
    expect(edited).to_have_text("A word at the end.")
    expect(edited).to_be_in_viewport()
    assert page.evaluate("scrollY") > 1000

    title, _, rest = text.partition("\n")
    chapter.write_text(f"{title}\n\nA word at the beginning.\n{rest}\n", "utf-8")
    expect(edited).to_contain_text("A word at the beginning.")
    expect(edited).to_be_in_viewport()
    assert page.evaluate("scrollY") < 1000


def test_a_fault_makes_a_draft_and_a_build_that_goes_and_comes_is_followed(
    running: Running, page: Page
) -> None:
    expect.set_options(timeout=60_000)
    page.goto(f"{running.address}dipper/")
    text = running.source.read_text("utf-8")
    wrong = text.replace(
        "from: camera.5V, to: controller.5V2", "from: camera.5V, to: controller.GND2", 1
    )
    assert wrong != text
    running.source.write_text(wrong, "utf-8")
    expect(page.locator(".banner").first).to_contain_text("Draft")
    expect(page.locator(f"{BAR} pre")).to_contain_text("fault [wiring/")
    rmtree(running.workspace / "builds" / "dipper")
    expect(page.locator("h1")).to_have_text("Page not found")
    copytree(ROOT / "builds" / "dipper", running.workspace / "builds" / "dipper")
    expect(page.locator("h1")).to_have_text("Dipper 3")


def test_ctrl_c_ends_it_at_once_while_a_page_waits(running: Running, page: Page) -> None:
    page.goto(f"{running.address}pipit/")
    page.wait_for_selector(BAR)
    running.process.send_signal(signal.SIGINT)
    assert running.process.wait(60) == 0
    assert running.process.stdout is not None
    assert running.process.stdout.read().endswith("The preview has ended.\n")
    assert "Traceback" not in running.said.read_text()
    expect(page.locator(f"{BAR} summary")).to_have_text(
        "The preview has ended or cannot be reached.", timeout=60_000
    )


def test_a_port_in_use_is_one_sentence(running: Running) -> None:
    port = running.address.rstrip("/").rpartition(":")[2]
    command = [
        sys.executable,
        "-m",
        "builder",
        "preview",
        "--port",
        port,
        "--workspace",
        str(running.workspace),
    ]
    done = subprocess.run(
        command, check=False, capture_output=True, text=True, cwd=ROOT, timeout=60
    )
    assert done.returncode == 1
    assert (
        done.stderr
        == f"benchleaf: port {port} cannot be used: Address already in use. Take another with"
        " --port.\n"
    )


def test_a_folder_without_builds_is_said(tmp_path: Path) -> None:
    command = [
        sys.executable,
        "-m",
        "builder",
        "preview",
        "--port",
        "0",
        "--workspace",
        str(tmp_path),
    ]
    done = subprocess.run(
        command, check=False, capture_output=True, text=True, cwd=ROOT, timeout=60
    )
    assert done.returncode == 1
    assert "data/no-workspace" in done.stderr
