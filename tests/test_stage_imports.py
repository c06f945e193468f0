"""A stage knows only earlier stages and uses only its own privilege; the checker is shown to fail
where it must.
"""

from pathlib import Path

import pytest

from tests.stage_checker import STAGES, breaches

PACKAGE = Path(__file__).resolve().parent.parent / "builder"


def test_no_stage_of_benchleaf_breaks_a_boundary() -> None:
    found = breaches(PACKAGE)
    assert not found, "\n" + "\n".join(f"builder/{b.file}:{b.line}: {b.message}" for b in found)


def test_the_checker_reads_the_stages_that_are_there() -> None:
    """A checker that looked into the wrong folder would find nothing wrong."""
    there = {path.stem for path in PACKAGE.iterdir() if path.suffix == ".py" or path.is_dir()}
    assert {"diagnostics", "load", "model", "compute"} <= there & set(STAGES)


def messages(tmp_path: Path, files: dict[str, str]) -> list[str]:
    """Write a made-up package `builder` and return what the checker says, each with file and line."""
    root = tmp_path / "builder"
    for name, text in {
        "__init__.py": "",
        "__main__.py": "from builder.cli import main",
        **files,
    }.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return [f"{b.file}:{b.line}: {b.message}" for b in breaches(root)]


LATER = "compute imports builder.pages{}, but pages is a later stage"


@pytest.mark.parametrize(
    ("text", "line", "what"),
    [
        ("import builder.pages", 1, ""),
        ("import builder.pages.numbers as n", 1, ".numbers"),
        ("from builder import pages", 1, ""),
        ("from builder.pages.numbers import rounded", 1, ".numbers.rounded"),
        ("from .. import pages", 1, ""),
        ("from ..pages.numbers import rounded", 1, ".numbers.rounded"),
        (
            "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from builder.pages import x",
            3,
            ".x",
        ),
        ("try:\n    import builder.pages\nexcept ImportError:\n    pass", 2, ""),
        ("import importlib\nimportlib.import_module('builder.pages')", 2, ""),
        (
            (
                "from importlib import import_module\nname ="
                " 'x'\nimport_module(f'builder.pages.{name}')"
            ),
            3,
            ".",
        ),
        ("__import__('builder.pages')", 1, ""),
    ],
)
def test_an_import_of_a_later_stage_is_found(
    tmp_path: Path, text: str, line: int, what: str
) -> None:
    assert messages(tmp_path, {"compute/mass.py": text}) == [
        f"compute/mass.py:{line}: {LATER.format(what)}"
    ]


def test_a_relative_import_is_resolved_from_the_folder_of_a_package_too(tmp_path: Path) -> None:
    files = {
        "compute/__init__.py": "from ..pages import x",
        "compute/f/g.py": "from ...pages import y",
    }
    found = messages(tmp_path, files)
    assert found == [
        f"compute/__init__.py:1: {LATER.format('.x')}",
        f"compute/f/g.py:1: {LATER.format('.y')}",
    ]


def test_a_late_import_of_a_later_stage_is_found_twice_over(tmp_path: Path) -> None:
    found = messages(
        tmp_path, {"load/files.py": "def read():\n    from builder.model import part\n"}
    )
    assert found == [
        (
            "load/files.py:2: builder.model.part is imported inside a function, but it is not one"
            " of the slow ones"
        ),
        "load/files.py:2: load imports builder.model.part, but model is a later stage",
    ]


def test_a_slow_library_may_be_imported_late_where_it_is_used_at_all(tmp_path: Path) -> None:
    late = "def pdf():\n    import weasyprint\n"
    assert messages(tmp_path / "good", {"render/pdf.py": late}) == []
    assert messages(tmp_path / "bad", {"pages/pdf.py": late}) == [
        "pages/pdf.py:2: pages imports weasyprint, which is for render only",
    ]


def test_a_module_that_brings_a_slow_library_may_be_imported_late_and_another_not(
    tmp_path: Path,
) -> None:
    late = "def job():\n    from builder.render.{} import made\n"
    files = {
        "render/pdf.py": "import weasyprint",
        "render/html.py": "def f():\n    import weasyprint\n",
        "pipeline/a.py": late.format("pdf"),
        "pipeline/b.py": late.format("html"),
    }
    assert messages(tmp_path, files) == [
        (
            "pipeline/b.py:2: builder.render.html.made is imported inside a function, but it is not"
            " one of the slow ones"
        ),
    ]


@pytest.mark.parametrize(
    ("file", "text", "message"),
    [
        ("model/part.py", "import yaml", "model imports yaml, which is for load only"),
        (
            "pages/blocks.py",
            "from jinja2 import Template",
            "pages imports jinja2, which is for render only",
        ),
        (
            "rules/rule.py",
            "import click",
            "rules imports click, which is for cli and diagnostics only",
        ),
        (
            "render/html.py",
            "p.write_text('x')",
            "render calls write_text to write, which is for publish only",
        ),
        (
            "render/html.py",
            "open(p, 'wb')",
            "render calls open to write, which is for publish only",
        ),
        (
            "render/html.py",
            "p.open(mode='a')",
            "render calls open to write, which is for publish only",
        ),
        (
            "render/html.py",
            "os.replace(a, b)",
            "render calls replace to write, which is for publish only",
        ),
        (
            "render/html.py",
            "path.replace(b)",
            "render calls replace to write, which is for publish only",
        ),
        ("pages/a.py", "global x", "pages says global, but no module holds state that changes"),
        (
            "model/part.py",
            "open(p)",
            "model calls open to read, which is for load and publish and render only",
        ),
        (
            "load/a.py",
            "os.open(p, os.O_RDONLY | os.O_CREAT)",
            "load calls open to write, which is for publish only",
        ),
        (
            "model/a.py",
            "os.open(p, os.O_RDONLY)",
            "model calls open to read, which is for load and publish and render only",
        ),
        (
            "pages/a.py",
            "p.read_text()",
            "pages calls read_text to read, which is for load and publish and render only",
        ),
        (
            "compute/a.py",
            "import datetime\ndatetime.date.today()",
            "compute asks for the time of day, but nothing may depend on today",
        ),
        (
            "compute/a.py",
            "from builder.diagnostics.finding import Finding",
            "compute imports Finding, but it returns results and never findings",
        ),
        ("compute.d/a.py", "", f"compute.d is no stage; the stages are {', '.join(STAGES)}"),
    ],
)
def test_a_privilege_used_by_another_stage_is_found(
    tmp_path: Path, file: str, text: str, message: str
) -> None:
    found = messages(tmp_path, {file: text})
    assert found == [f"{file}:{text.count(chr(10)) + 1}: {message}"]


def test_what_is_allowed_is_not_found(tmp_path: Path) -> None:
    assert (
        messages(
            tmp_path,
            {
                "load/files.py": (
                    "import yaml\nfrom builder.diagnostics.finding import"
                    " Finding\np.read_text()\nopen(p)"
                ),
                "load/one_file.py": "os.open(p, os.O_RDONLY | os.O_NONBLOCK)",
                "pages/sheet.py": (
                    "from ..model import part\n'a'.replace('a', 'b')\ndataclasses.replace(a, b=1)"
                ),
                "publish/swap.py": (
                    "import tempfile\np.write_bytes(b'')\nopen(p, 'w')\nfrom builder.render import"
                    " html"
                ),
                "cli/main.py": (
                    "import click\nfrom builder import pipeline\nfrom builder.rules.rule import"
                    " Rule"
                ),
                "cli/quiet.py": "os.open(os.devnull, os.O_WRONLY)",
            },
        )
        == []
    )


def test_every_stage_may_import_any_earlier_one_and_none_a_later_one(tmp_path: Path) -> None:
    """The order is checked pair by pair, so that a stage left out of the list would show."""
    files = {
        f"{stage}.py": "\n".join(f"import builder.{other}" for other in STAGES) for stage in STAGES
    }
    found = messages(tmp_path, files)
    later = [(stage, other) for i, stage in enumerate(STAGES) for other in STAGES[i + 1 :]]
    assert len(found) == len(later) == len(STAGES) * (len(STAGES) - 1) // 2
    for stage, other in later:
        line = STAGES.index(other) + 1
        assert (
            f"{stage}.py:{line}: {stage} imports builder.{other}, but {other} is a later stage"
            in found
        )
