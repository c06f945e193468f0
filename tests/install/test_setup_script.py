"""What `.ci/setup` does, tried out on a made-up machine, and the look-up of libraries on the real
one.
"""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.install.stand_in_machine import PYTHON, ROOT, Machine, new_machine

ADDING = "setup: adding what the tests need, from tests/requirements.lock (once)\n"


@pytest.fixture
def machine(tmp_path: Path) -> Machine:
    return new_machine(tmp_path)


def be_nobody_in_particular(machine: Machine) -> None:
    machine.programs(id="#!/bin/sh\necho 1000\n")


def test_the_first_run_makes_the_environment_from_the_lock(machine: Machine) -> None:
    done = machine.setup()
    assert (done.returncode, done.stdout) == (0, "")
    assert done.stderr == "setup: making .venv from requirements.lock (once; a minute or two)\n"
    assert machine.calls() == ["venv", "pip lock", "pip project", "look pdf"]


def test_the_second_run_does_nothing_and_says_nothing(machine: Machine) -> None:
    machine.setup()
    machine.calls()
    done = machine.setup()
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
    assert machine.calls() == ["look pdf"]


@pytest.mark.parametrize("name", ["requirements.lock", "pyproject.toml"])
def test_a_changed_file_brings_the_environment_up_to_date_once(machine: Machine, name: str) -> None:
    machine.setup()
    machine.calls()
    with (machine.project / name).open("a", encoding="utf-8") as file:
        file.write("# changed\n")
    assert machine.setup().stderr == "setup: bringing .venv up to date with requirements.lock\n"
    assert machine.calls() == ["pip lock", "pip project", "look pdf"]
    assert machine.setup().stderr == ""
    assert machine.calls() == ["look pdf"]


def test_a_file_that_was_only_touched_changes_nothing(machine: Machine) -> None:
    machine.setup()
    machine.calls()
    os.utime(machine.project / "requirements.lock", (1, 1))
    assert machine.setup().stderr == ""


def test_an_install_that_failed_is_made_again(machine: Machine) -> None:
    machine.set(pip_fails="")
    assert machine.setup().returncode != 0
    assert machine.calls() == ["venv", "pip lock"]
    (machine.folder / "pip-fails").unlink()
    assert machine.setup().returncode == 0
    assert machine.calls() == ["pip lock", "pip project", "look pdf"]


def test_a_project_that_was_moved_gets_a_new_environment(machine: Machine) -> None:
    machine.setup()
    machine.calls()
    moved = Machine(machine.folder)
    machine.project.rename(machine.folder / "elsewhere")
    shutil.copytree(machine.folder / "elsewhere", machine.folder / "deeper" / "project")
    done = subprocess.run(
        ["/bin/sh", str(machine.folder / "deeper" / "project" / ".ci" / "setup")],
        env={"PATH": str(machine.folder / "bin"), "MACHINE": str(machine.folder)},
        check=False,
    )
    assert done.returncode == 0
    assert moved.calls() == ["venv", "pip lock", "pip project", "look pdf"]


def test_root_installs_what_is_missing(machine: Machine) -> None:
    machine.set(missing_pdf="libpango-1.0-0\nlibharfbuzz-subset0\n")
    done = machine.setup()
    assert done.returncode == 0
    assert done.stderr.splitlines()[-1] == "setup: installing libpango-1.0-0 libharfbuzz-subset0"
    assert [call for call in machine.calls() if call.startswith("apt-get")] == [
        "apt-get -qq update",
        "apt-get -qq install -y --no-install-recommends libpango-1.0-0 libharfbuzz-subset0",
    ]


def test_somebody_else_installs_by_sudo_where_it_asks_for_no_password(machine: Machine) -> None:
    be_nobody_in_particular(machine)
    machine.set(missing_pdf="libpango-1.0-0\n", sudo_works="")
    assert machine.setup().returncode == 0
    calls = machine.calls()
    assert calls.count("sudo") == 2
    assert "apt-get -qq install -y --no-install-recommends libpango-1.0-0" in calls


def without_rights(machine: Machine) -> None:
    be_nobody_in_particular(machine)


def without_apt(machine: Machine) -> None:
    (machine.folder / "bin" / "apt-get").unlink()


def without_network(machine: Machine) -> None:
    machine.set(apt_fails="")


@pytest.mark.parametrize("hindrance", [without_rights, without_apt, without_network])
def test_where_nothing_can_be_installed_one_sentence_says_so_and_the_run_goes_on(
    machine: Machine, hindrance: Callable[[Machine], None]
) -> None:
    hindrance(machine)
    machine.set(missing_pdf="libpango-1.0-0\n")
    done = machine.setup()
    assert done.returncode == 0
    assert (
        done.stderr.splitlines()[-1]
        == "setup: no PDF will be made, only HTML: the system lacks libpango-1.0-0, which could not"
        " be installed from here; install what is missing, then run make setup."
    )


def test_a_try_in_vain_is_not_made_again_until_it_is_asked_for(machine: Machine) -> None:
    machine.set(missing_pdf="libpango-1.0-0\n", apt_fails="")
    machine.setup()
    machine.calls()
    done = machine.setup()
    assert done.stderr.count("\n") == 1
    assert "only HTML" in done.stderr
    assert machine.calls() == ["look pdf"]
    machine.setup("--again")
    assert any("install" in call for call in machine.calls())


def test_the_tests_want_a_browser_and_the_barcode_library_too(machine: Machine) -> None:
    machine.set(missing_barcode="libzbar0\n")
    machine.setup()
    assert not any("apt-get" in call for call in machine.calls())
    (machine.folder / "bin" / "chromium").unlink()
    machine.setup("--for-tests")
    assert _installs(machine) == ["libzbar0", "chromium-headless-shell"]
    assert machine.setup("--for-tests").stderr == ""


def test_where_no_package_has_the_browser_without_windows_the_whole_one_comes_once(
    machine: Machine,
) -> None:
    machine.set(no_windowless="")
    (machine.folder / "bin" / "chromium").unlink()
    machine.setup("--for-tests")
    assert _installs(machine) == ["chromium-headless-shell", "chromium"]
    machine.setup("--for-tests")
    assert "chromium-headless-shell" not in _installs(machine)
    machine.setup("--for-tests", "--again")
    assert "chromium-headless-shell" in _installs(machine)


def _installs(machine: Machine) -> list[str]:
    return [call.split("recommends ")[1] for call in machine.calls() if "install" in call]


def test_libraries_that_the_browsers_driver_lacks_are_installed_with_it(machine: Machine) -> None:
    machine.set(missing_browser="libatomic1\n")
    machine.setup("--for-tests")
    assert [call.split("recommends ")[1] for call in machine.calls() if "install" in call] == [
        "libatomic1"
    ]
    assert machine.setup("--for-tests").stderr == ""


def test_a_browser_under_its_other_name_is_enough(machine: Machine) -> None:
    machine.setup()
    (machine.folder / "bin" / "chromium").rename(machine.folder / "bin" / "chromium-browser")
    machine.calls()
    assert machine.setup("--for-tests").stderr == ADDING


def test_the_packages_of_the_tests_are_added_when_tests_are_run_and_once(machine: Machine) -> None:
    machine.setup()
    assert "pip tests" not in machine.calls()
    assert machine.setup("--for-tests").stderr == ADDING
    assert machine.calls()[0] == "pip tests"
    assert machine.setup("--for-tests").stderr == ""
    assert "pip tests" not in machine.calls()
    with (machine.project / "tests" / "requirements.lock").open("a", encoding="utf-8") as file:
        file.write("# changed\n")
    assert machine.setup("--for-tests").stderr == ADDING


HTML_SKIPPED = "setup: the test by the Nu HTML checker is skipped:"
TYPES_SKIPPED = "setup: the test of the types of the pages' scripts is skipped:"


def test_the_tests_want_the_checkers_too(machine: Machine) -> None:
    assert machine.setup("--for-tests").stderr.endswith(ADDING)
    assert machine.calls()[-2:] == ["fetch html", "fetch types"]
    machine.set(fetch_fails="")
    done = machine.setup("--for-tests")
    why = "npm pack failed"
    assert done.stderr.splitlines() == [f"{HTML_SKIPPED} {why}", f"{TYPES_SKIPPED} {why}"]
    assert done.returncode == 0


@pytest.mark.parametrize(
    ("lacking", "left_out", "fetched"),
    [
        ("java", [f"{HTML_SKIPPED} it needs java"], ["fetch types"]),
        ("node", [f"{TYPES_SKIPPED} it needs node"], ["fetch html"]),
        ("npm", [f"{HTML_SKIPPED} it needs java", f"{TYPES_SKIPPED} it needs node"], []),
    ],
)
def test_without_a_checkers_program_one_sentence_says_what_is_left_out(
    machine: Machine, lacking: str, left_out: list[str], fetched: list[str]
) -> None:
    (machine.folder / "bin" / lacking).unlink()
    done = machine.setup("--for-tests")
    assert done.returncode == 0
    assert [line for line in done.stderr.splitlines() if "skipped" in line] == [
        f"{line} and npm, which are not both here" for line in left_out
    ]
    assert [call for call in machine.calls() if call.startswith("fetch")] == fetched


def test_a_python_without_ensurepip_is_told_which_package_is_missing(machine: Machine) -> None:
    machine.set(no_ensurepip="")
    done = machine.setup()
    assert done.returncode == 1
    assert (
        done.stderr
        == "setup: this Python 3.11 cannot make a virtual environment (it has no ensurepip); "
        "install the package python3.11-venv and run this again.\n"
    )


def test_an_old_python_is_refused(machine: Machine) -> None:
    machine.set(python_is_old="")
    done = machine.setup()
    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    assert "needs Python 3.11 or later" in done.stderr


def test_a_newer_python_under_its_own_name_is_taken_where_python3_is_old(machine: Machine) -> None:
    machine.programs(python3="#!/bin/sh\nexit 1\n")
    machine.programs(**{"python3.12": PYTHON})
    assert machine.setup().returncode == 0
    assert machine.calls()[0] == "venv"


def test_an_unknown_option_is_wrong_use(machine: Machine) -> None:
    done = machine.setup("--for-test")
    assert done.returncode == 2
    assert "--for-test" in done.stderr


def test_a_library_that_no_system_has_is_reported_and_one_that_is_there_is_not() -> None:
    """The real look-up, with one made-up name; the C library is there wherever Python runs."""
    code = (
        "import sys; sys.path.insert(0, sys.argv[1]); import find_libraries as f; "
        "f.LIBRARIES = {'x': {'made-up': ('libbenchleaf-made-up.so.0', 'benchleaf-made-up'), "
        "'c': ('libbenchleaf-made-up.so.0', 'c')}}; f.main(['x'])"
    )
    done = subprocess.run(
        [sys.executable, "-B", "-c", code, str(ROOT / ".ci")],
        check=True,
        capture_output=True,
        encoding="utf-8",
    )
    assert done.stdout == "made-up\n"


def test_a_system_without_a_font_gets_one_for_the_browser(tmp_path: Path) -> None:
    code = (
        "import sys; from pathlib import Path; sys.path.insert(0, sys.argv[1]); import"
        " find_libraries as f; f.LIBRARIES = {'browser': {}}; f.FONT_FOLDERS ="
        " (Path(sys.argv[2]),); f.main(['browser'])"
    )
    argv = [sys.executable, "-B", "-c", code, str(ROOT / ".ci"), str(tmp_path)]
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    assert (
        subprocess.run(argv, check=True, capture_output=True, env=environment).stdout
        == b"fonts-dejavu-core\n"
    )
    (tmp_path / "any.ttf").touch()
    assert subprocess.run(argv, check=True, capture_output=True, env=environment).stdout == b""


def _scratch(folder: Path, df: str, awk: str = "") -> str:
    """What .ci/scratch says with this `df` in front of the machine's own programs."""
    folder.mkdir(exist_ok=True)
    for name, text in {"df": df, "awk": awk}.items():
        if text:
            (folder / name).write_text(text, "utf-8")
            (folder / name).chmod(0o755)
    path = {**os.environ, "PATH": f"{folder}:{os.environ['PATH']}", "TMPDIR": "/somewhere"}
    done = subprocess.run(
        ["sh", str(ROOT / ".ci/scratch")], env=path, capture_output=True, text=True, check=True
    )
    return done.stdout.strip()


@pytest.mark.parametrize(
    "df",
    [
        "#!/bin/sh\necho 'Filesystem 1024-blocks Used Available'\necho 'tmpfs 65536 0 65536 0% /dev/shm'\n",
        "#!/bin/sh\nexit 1\n",
    ],
    ids=["small", "none"],
)
def test_tests_write_to_memory_only_where_there_is_plenty(tmp_path: Path, df: str) -> None:
    assert _scratch(tmp_path / "programs", df) == "/somewhere"
