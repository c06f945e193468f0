"""Fixtures that every test may use: the demo workspace, read once."""

import os
import pickle
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from playwright.sync_api import Browser, Error, sync_playwright

from builder.options import PublishOptions
from builder.pipeline.check import Checked, check_workspace
from builder.pipeline.publish import publish_site
from builder.pipeline.published import Published
from tests.machine import own_environment
from tests.made_once import folder_of_the_run, made_once
from tests.workspace_edits import without_a_camera_known

# Programs that run tests side by side tell their workers a width; what is said is compared unwrapped.
os.environ.pop("COLUMNS", None)

# A busy machine draws slowly; that is no fault of a test. How fast things are is measured by the benchmarks.
settings.register_profile("ours", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("ours")

ROOT = Path(__file__).resolve().parent.parent
BROWSERS = ("chromium-headless-shell", "chromium", "chromium-browser")  # the quickest first


@pytest.fixture(scope="session", autouse=True)
def _own_state(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Publishes of the tests seal what they keep with a key of the tests, not with that of whoever
    runs them; it is one key for all workers, so that one believes what another published.
    """
    state = folder_of_the_run(tmp_path_factory) / "state"
    state.mkdir(exist_ok=True)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_STATE_HOME", str(state))
        yield


# A test file that says one of these starts a browser, prints, or starts a process of its own.
_SLOW_WORDS = (
    "subprocess",
    "playwright",
    "canvas: ",
    "published_demo",
    "lacking_demo",
    "weasyprint",
    "bench_sheet_pdf",
    "printed_sheet",
    "publish_site",
    "process_pool",
)


def _is_slow(file: Path) -> bool:
    text = file.read_text("utf-8")
    return "pytest.mark.slow" in text or any(word in text for word in _SLOW_WORDS)


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """`make quick` does not so much as read a file that it leaves out."""
    is_test = collection_path.name.startswith("test_") and collection_path.suffix == ".py"
    quick = config.getoption("markexpr") == "not slow"
    return True if quick and is_test and _is_slow(collection_path) else None


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Marks as slow what `make quick` leaves out: whole files, by what they start. They come first,
    so that at the end many short files are left for whichever worker is free.
    """
    slow = {file: _is_slow(file) for file in {item.path for item in items}}
    items.sort(key=lambda item: not slow[item.path])
    for item in items:
        if slow[item.path]:
            item.add_marker("slow")


@pytest.fixture(scope="session")
def root() -> Path:
    """The project's folder, which is the demo workspace."""
    return ROOT


@pytest.fixture(scope="session")
def demo() -> Checked:
    """The demo workspace, read, computed and judged. Nothing in it may be changed."""
    return check_workspace(ROOT)


def _publish_demo(workspace: Path) -> None:
    shutil.copytree(ROOT / "builds", workspace / "builds")
    done = publish_site(PublishOptions(workspace, pdf=False, workers=1))
    workspace.with_suffix(".pickle").write_bytes(pickle.dumps(done))


@pytest.fixture(scope="session")
def published_demo(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Published]:
    """A copy of the demo workspace, published once without PDF for all workers. Nothing in it may be
    changed.
    """
    workspace = made_once(tmp_path_factory, "published-demo", _publish_demo)
    done: Published = pickle.loads(workspace.with_suffix(".pickle").read_bytes())
    return workspace, done


@pytest.fixture(scope="session")
def lacking_demo(
    published_demo: tuple[Path, Published], tmp_path_factory: pytest.TempPathFactory
) -> Path:
    """The published demo, a camera's weight and price taken out and published again, once for all
    workers. Nothing in it may be changed.
    """

    def make(folder: Path) -> None:
        shutil.copytree(published_demo[0], folder, dirs_exist_ok=True)
        without_a_camera_known(folder)
        assert publish_site(PublishOptions(folder, pdf=False, workers=1)).errors == ()

    return made_once(tmp_path_factory, "lacking-demo", make)


@pytest.fixture
def own_published_demo(published_demo: tuple[Path, Published], tmp_path: Path) -> Path:
    """The published demo workspace as a copy of the test's own, which it may change: what is published
    again takes over what is right.
    """
    return shutil.copytree(published_demo[0], tmp_path, dirs_exist_ok=True)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A real browser, one for all tests; without it they are left out and say why. The same Chromium
    without windows of its own opens a page in a third of the time.
    """
    place = next(filter(None, map(shutil.which, BROWSERS)), None)
    if place is None:
        pytest.skip("no Chromium on this machine: `apt-get install chromium` and run again")
    environment: dict[str, str | float | bool] = {**own_environment()}
    options = ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"]
    # letters as wide as the font says, as in a browser with windows, not as wide as whole pixels
    options.append("--font-render-hinting=none")
    with sync_playwright() as playwright:
        try:
            found = playwright.chromium.launch(executable_path=place, args=options, env=environment)
        except Error as error:
            pytest.skip(f"Chromium does not start: {error.message.splitlines()[0]}")
        yield found
        found.close()
