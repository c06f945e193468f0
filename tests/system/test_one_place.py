"""What only some systems have is asked for in one package; all else reads the same everywhere."""

import ast
from collections.abc import Set
from pathlib import Path

PACKAGE = Path(__file__).resolve().parents[2] / "builder"
# Attributes of `os` that Windows has not, or that mean something else there.
NOT_EVERYWHERE = {
    "fork", "geteuid", "getuid", "getpgid", "killpg", "kill", "link", "mkfifo", "nice",
    "sched_getaffinity", "setsid", "symlink", "sysconf", "readlink", "chown", "uname",
}  # fmt: skip


def _tree(file: Path, names: Set[str]) -> ast.Module:
    """What a file says; nothing of one in which none of these names stands anywhere."""
    text = file.read_text("utf-8")
    return ast.parse(text if any(name in text for name in names) else "")


def _asked_for(file: Path) -> list[str]:
    found = []
    for node in ast.walk(_tree(file, NOT_EVERYWHERE | {"O_"})):
        if not isinstance(node, ast.Attribute) or not isinstance(node.value, ast.Name):
            continue
        if node.value.id == "os" and (node.attr in NOT_EVERYWHERE or node.attr.startswith("O_")):
            found.append(f"{file.relative_to(PACKAGE)}:{node.lineno}: os.{node.attr}")
    return found


def test_only_the_system_package_asks_for_what_some_systems_lack() -> None:
    found = []
    for file in sorted(PACKAGE.rglob("*.py")):
        if file.relative_to(PACKAGE).parts[0] != "system":
            found += _asked_for(file)
    assert not found, "\n".join(found)


def test_the_check_sees_what_it_looks_for() -> None:
    found = [line for file in (PACKAGE / "system").rglob("*.py") for line in _asked_for(file)]
    assert any("os.O_EXCL" in line for line in found)
    assert any("os.geteuid" in line for line in found)


def test_only_publish_asks_it_to_write() -> None:
    """The privilege goes with the call: load may open to read, and nothing else."""
    writes = {"open_new", "open_to_lock", "second_name", "second_name_or_copy", "exchange"}
    writes |= {"flush_all", "flush_file", "flush_folder", "take_lock"}
    found = []
    for file in sorted(PACKAGE.rglob("*.py")):
        room = file.relative_to(PACKAGE).parts[0]
        for node in ast.walk(_tree(file, writes)):
            named = {a.name for a in node.names} if isinstance(node, ast.ImportFrom) else set()
            if room not in ("publish", "system") and named & writes:
                found.append(f"{file.relative_to(PACKAGE)}: {sorted(named & writes)}")
    assert not found, "\n".join(found)
