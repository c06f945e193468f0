"""A made-up machine on which to try `.ci/setup`: every program that the script calls is a small
stand-in.

The stand-ins write down how they were called. Which libraries are missing, whether the person is
root and whether packages can be installed are set by files in the machine's folder, so nothing of
the real machine is looked at.
"""

import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PLAIN_TOOLS = (
    "cat",
    "chmod",
    "cp",
    "dirname",
    "env",
    "flock",
    "grep",
    "head",
    "mkdir",
    "rm",
    "sh",
    "sha256sum",
    "true",
)

# Stands for python3: says its version fits, and makes a .venv whose python stands for all that runs
# in there.
PYTHON = """#!/bin/sh
case "$*" in
    *version_info\\ \\<*) [ -e "$MACHINE/python-is-old" ] && exit 1; exit 0 ;;
    *ensurepip*) [ -e "$MACHINE/no-ensurepip" ] && exit 1; exit 0 ;;
    *%d.%d*) echo 3.11 ;;
    "-m venv "*) echo "venv" >> "$MACHINE/calls"; rm -rf .venv; mkdir -p .venv/bin
        cp "$MACHINE/venv-python" .venv/bin/python ;;
    *) echo "unexpected: $*" >&2; exit 9 ;;
esac
"""
VENV_PYTHON = """#!/bin/sh
case "$*" in
    "-c ") ;;
    *find_libraries.py*) echo "look $2" >> "$MACHINE/calls"; cat "$MACHINE/missing-$2" 2>/dev/null || true ;;
    *fetch_checkers.py*) echo "fetch $2" >> "$MACHINE/calls"
        [ ! -e "$MACHINE/fetch-fails" ] || { echo "npm pack failed"; exit 1; } ;;
    *tests/requirements.lock*) echo "pip tests" >> "$MACHINE/calls"; [ ! -e "$MACHINE/pip-fails" ] ;;
    *--require-hashes*) echo "pip lock" >> "$MACHINE/calls"; [ ! -e "$MACHINE/pip-fails" ] ;;
    *uninstall*setuptools*) ;;
    *--no-build-isolation*) echo "pip project" >> "$MACHINE/calls" ;;
    *) echo "unexpected: $*" >&2; exit 9 ;;
esac
"""
APT = """#!/bin/sh
echo "apt-get $*" >> "$MACHINE/calls"
case "$*" in *update*) exit 0 ;; esac
[ -e "$MACHINE/apt-fails" ] && exit 100
case "$*" in *chromium-headless-shell*)
    [ -e "$MACHINE/no-windowless" ] && exit 100
    cp "$MACHINE/bin/npm" "$MACHINE/bin/chromium-headless-shell"; exit 0 ;;
esac
rm -f "$MACHINE/missing-pdf" "$MACHINE/missing-barcode" "$MACHINE/missing-browser"
"""
SUDO = """#!/bin/sh
[ "$1" = -n ] && shift
[ -e "$MACHINE/sudo-works" ] || exit 1
[ "$*" = true ] || echo "sudo" >> "$MACHINE/calls"
exec "$@"
"""
CHROMIUM = "#!/bin/sh\n"  # java, node and npm are as mute


@dataclass(frozen=True)
class Machine:
    """A folder with a project in it, and one with all the programs that can be called."""

    folder: Path

    @property
    def project(self) -> Path:
        return self.folder / "project"

    def programs(self, **texts: str) -> None:
        """Add stand-ins; an underscore in a name stands for a hyphen."""
        for name, text in texts.items():
            path = self.folder / "bin" / name.replace("_", "-")
            path.write_text(text, "utf-8")
            path.chmod(0o755)

    def set(self, **files: str) -> None:
        """Set facts about the machine."""
        for name, text in files.items():
            (self.folder / name.replace("_", "-")).write_text(text, "utf-8")

    def setup(self, *options: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            ["/bin/sh", str(self.project / ".ci" / "setup"), *options],
            env={"PATH": str(self.folder / "bin"), "MACHINE": str(self.folder), "LC_ALL": "C"},
            check=False,
            capture_output=True,
            encoding="utf-8",
        )

    def calls(self) -> list[str]:
        """Return what was called since the last question."""
        path = self.folder / "calls"
        lines = path.read_text("utf-8").splitlines() if path.exists() else []
        path.unlink(missing_ok=True)
        return lines


def new_machine(tmp_path: Path) -> Machine:
    """Make a machine, as root, where nothing is missing and nothing has been set up."""
    made = Machine(tmp_path)
    (tmp_path / "bin").mkdir()
    (made.project / ".ci").mkdir(parents=True)
    shutil.copy(ROOT / ".ci" / "setup", made.project / ".ci" / "setup")
    (made.project / "requirements.lock").write_text("a==1\n", "utf-8")
    (made.project / "tests").mkdir()
    (made.project / "tests" / "requirements.lock").write_text("b==1\n", "utf-8")
    (made.project / "pyproject.toml").write_text("[project]\n", "utf-8")
    for tool in PLAIN_TOOLS:
        found = shutil.which(tool)
        if found:  # flock is not everywhere
            (tmp_path / "bin" / tool).symlink_to(found)
    made.programs(
        python3=PYTHON,
        apt_get=APT,
        sudo=SUDO,
        chromium=CHROMIUM,
        java=CHROMIUM,
        node=CHROMIUM,
        npm=CHROMIUM,
        id="#!/bin/sh\necho 0\n",
    )
    made.set(venv_python=VENV_PYTHON)
    (tmp_path / "venv-python").chmod(0o755)
    return made
