"""Reads every import and call of a package with ast and says where a stage knows or does what it
may not.

It runs nothing of what it reads, so it sees late imports, those under TYPE_CHECKING and those of
broken files too.
"""

import ast
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

STAGES = (
    "frozen",
    "system",
    "options",
    "rounding",
    "diagnostics",
    "load",
    "model",
    "compute",
    "rules",
    "pages",
    "render",
    "publish",
    "pipeline",
    "cli",
)

# Library -> the only stages that may import it.
PRIVILEGES = {
    "click": {"diagnostics", "cli"},
    "concurrent": {"publish"},
    "ctypes": {"render", "system"},
    "distributed": {"publish"},
    "fcntl": {"system"},
    "msvcrt": {"system"},
    "resource": {"system"},
    "signal": {"cli", "system"},
    "fontpkg": {"render"},
    "jinja2": {"render"},
    "markdown_it": {"model", "render"},
    "markupsafe": {"render"},
    "multiprocessing": {"publish"},
    "pydantic": {"model"},
    "pydantic_core": {"model"},
    "pypdfium2": {"render"},
    "rich": {"diagnostics", "cli"},
    "segno": {"render"},
    "shutil": {"publish", "system"},
    "tempfile": {"publish"},
    "watchfiles": {"cli"},
    "weasyprint": {"render"},
    "yaml": {"load"},
}

# Slow to import and needed on some paths only: these may be imported inside a function, and so may
# a module of ours that imports one of them at its top.
SLOW = {
    "PIL",
    "distributed",
    "fontTools",
    "markdown_it",
    "pypdfium2",
    "rich",
    "segno",
    "watchfiles",
    "weasyprint",
}

READERS = {"load", "render", "publish", "system"}  # builds, templates and fonts, the manifest
WRITERS = {"publish", "system"}
READING = {"read_text", "read_bytes", "iterdir", "glob", "rglob", "scandir", "listdir"}
WRITING = {
    "write_text",
    "write_bytes",
    "mkdir",
    "makedirs",
    "unlink",
    "rmdir",
    "rmtree",
    "touch",
    "rename",
    "symlink_to",
    "hardlink_to",
    "fsync",
}
# Nothing that is published depends on today.
CLOCKS = {
    ("date", "today"),
    ("datetime", "today"),
    ("datetime", "now"),
    ("datetime", "utcnow"),
    ("time", "time"),
}


@dataclass(frozen=True, order=True)
class Breach:
    """One line of the package that breaks a boundary; the file is relative to the package."""

    file: str
    line: int
    message: str


@dataclass
class Module:
    """One file of the package, with what is needed to resolve its imports."""

    package: str
    path: Path
    parts: tuple[str, ...]  # folders, then the file without its ending
    tree: ast.Module
    stage: str = field(init=False)

    def __post_init__(self) -> None:
        """Name the stage: the first folder or file below the package."""
        self.stage = self.parts[0]

    def imported(self, node: ast.AST) -> Iterator[str]:
        """Yield the dotted names that an import statement or an import call brings, relative ones
        resolved.
        """
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = self.absolute(node.module or "", node.level)
            # `from builder import cli` names a stage only in its last part.
            yield from (f"{base}.{alias.name}" for alias in node.names)
        elif (
            isinstance(node, ast.Call)
            and called(node)[1] in {"import_module", "__import__"}
            and node.args
        ):
            name = leading_text(node.args[0])
            level = len(name) - len(name.lstrip("."))
            yield self.absolute(name[level:], level)

    def absolute(self, name: str, level: int) -> str:
        """Turn a name with leading dots into one from the top; level is the number of dots."""
        if not level:
            return name
        whole = (self.package, *self.parts)
        above = whole[: len(whole) - level]
        return ".".join((*above, name)) if name else ".".join(above)


def leading_text(node: ast.expr) -> str:
    """Return the fixed text with which an expression starts, as far as it can be read off."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    if isinstance(node, ast.JoinedStr) and node.values:
        return leading_text(node.values[0])
    return ""


def called(node: ast.Call) -> tuple[str, str]:
    """Return owner and name of what is called: `a.b.c()` gives ('b', 'c'), `f()` gives ('', 'f')."""
    if isinstance(node.func, ast.Name):
        return "", node.func.id
    if isinstance(node.func, ast.Attribute):
        owner = node.func.value
        return getattr(owner, "id", getattr(owner, "attr", "")), node.func.attr
    return "", ""


def only_reads(node: ast.Call) -> bool:
    """Tell whether the flags of an os.open say reading and nothing of writing."""
    flags = {
        word.attr
        for argument in node.args[1:]
        for word in ast.walk(argument)
        if isinstance(word, ast.Attribute)
    }
    return "O_RDONLY" in flags and flags.isdisjoint(
        {"O_WRONLY", "O_RDWR", "O_CREAT", "O_TRUNC", "O_APPEND"}
    )


def moves_or_removes(node: ast.Call) -> bool:
    """Tell whether a call is os.replace, os.remove or Path.replace, and not the method of a text or
    a list.
    """
    owner, name = called(node)
    if owner == "os":
        if any(isinstance(word, ast.Attribute) and word.attr == "devnull" for word in node.args):
            return False
        return name in {"replace", "remove", "link", "symlink", "write"} or (
            name == "open" and not only_reads(node)
        )
    return name == "replace" and bool(owner) and len(node.args) == 1 and not node.keywords


def opens_for_writing(node: ast.Call) -> bool | None:
    """Tell whether a call opens a file for writing; None if it opens none."""
    owner, name = called(node)
    if owner == "os" and only_reads(node):
        return False
    if name != "open" or owner in {"os", "webbrowser"}:
        return None
    modes = [word.value for word in node.keywords if word.arg == "mode"]
    # open(path, mode), io.open(path, mode), but path.open(mode)
    place = 1 if owner in {"", "io"} else 0
    modes += node.args[place : place + 1]
    return bool(modes) and not set(leading_text(modes[0])).isdisjoint("wax+")


def modules(root: Path) -> Iterator[Module]:
    """Read every file of the package that lies in `root`, except its own `__init__` and `__main__`."""
    for path in sorted(root.rglob("*.py")):
        parts = path.relative_to(root).with_suffix("").parts
        if parts not in {("__init__",), ("__main__",)}:
            yield Module(root.name, path, parts, ast.parse(path.read_text("utf-8"), str(path)))


def slow_modules(read: list[Module]) -> set[str]:
    """Name the package's own modules that import a slow library at their top, so that they are slow
    too.
    """
    return {
        ".".join((module.package, *module.parts))
        for module in read
        for node in module.tree.body
        for name in module.imported(node)
        if name.partition(".")[0] in SLOW
    }


def is_slow(name: str, own: set[str]) -> bool:
    """Tell whether what is imported is a slow library, or a module of ours (or a name in it) that
    brings one.
    """
    return name.partition(".")[0] in SLOW or name in own or name.rpartition(".")[0] in own


def import_breaches(module: Module, node: ast.AST, late: bool, slow: set[str]) -> Iterator[str]:
    """Say what is wrong with the imports of one statement; `late` is: inside a function."""
    for name in module.imported(node):
        top, _, rest = name.partition(".")
        stage = rest.partition(".")[0]
        if (
            top == module.package
            and stage in STAGES
            and STAGES.index(stage) > STAGES.index(module.stage)
        ):
            yield f"{module.stage} imports {name}, but {stage} is a later stage"
        if module.stage not in PRIVILEGES.get(top, STAGES):
            yield (
                f"{module.stage} imports {top}, which is for"
                f" {' and '.join(sorted(PRIVILEGES[top]))} only"
            )
        if module.stage == "compute" and name.split(".")[-1] == "Finding":
            yield "compute imports Finding, but it returns results and never findings"
        by_command = (
            module.stage == "cli" and stage == "pipeline"
        )  # a command with nothing to do needs none of it
        if late and not by_command and not is_slow(name, slow) and not isinstance(node, ast.Call):
            yield f"{name} is imported inside a function, but it is not one of the slow ones"


def call_breaches(module: Module, node: ast.Call) -> Iterator[str]:
    """Say what is wrong with one call: the disk and the clock."""
    name = called(node)[1]
    writes = opens_for_writing(node)
    if (name in WRITING or writes or moves_or_removes(node)) and module.stage not in WRITERS:
        yield f"{module.stage} calls {name} to write, which is for publish only"
    if (name in READING or writes is False) and module.stage not in READERS:
        yield (
            f"{module.stage} calls {name} to read, which is for {' and '.join(sorted(READERS - {'system'}))}"
            " only"
        )
    if called(node) in CLOCKS and module.stage != "cli":
        yield f"{module.stage} asks for the time of day, but nothing may depend on today"


def breaches(root: Path) -> list[Breach]:
    """Return every breach in the package that lies in the folder `root`, in the order of files and
    lines.
    """
    found = []
    read = list(modules(root))
    slow = slow_modules(read)
    for module in read:
        file = module.path.relative_to(root).as_posix()
        if module.stage not in STAGES:
            found.append(
                Breach(file, 1, f"{module.stage} is no stage; the stages are {', '.join(STAGES)}")
            )
            continue
        inside = {
            id(node)
            for function in ast.walk(module.tree)
            if isinstance(function, ast.FunctionDef | ast.AsyncFunctionDef)
            for node in ast.walk(function)
        }
        for node in ast.walk(module.tree):
            messages = list(import_breaches(module, node, id(node) in inside, slow))
            if isinstance(node, ast.Global):
                messages.append(
                    f"{module.stage} says global, but no module holds state that changes"
                )
            if isinstance(node, ast.Call):
                messages += call_breaches(module, node)
            found += [Breach(file, getattr(node, "lineno", 1), message) for message in messages]
    return sorted(found)
