"""Ctrl-C, whenever it comes once our code runs, ends a command in one sentence at most; no worker
prints a trace.

The instants are not of the clock: an import hook interrupts the whole process group as a named
module begins to load, in the parent or in a worker that starts. What Python does before it reads
our first line is not ours.
"""

import os
import subprocess
import sys
from pathlib import Path
from shutil import copytree

import pytest

from tests.workspace_edits import ROOT

SCRIPT = """
import importlib.abc, os, signal, sys
WHEN, WHERE = {when!r}, {where!r}
if __name__ == "__main__":  # a shell's job in the background is started deaf to it, and so are we
    signal.signal(signal.SIGINT, signal.default_int_handler)

class Interrupts(importlib.abc.MetaPathFinder):
    def find_spec(self, name, path, target=None):
        if name == WHEN and (__name__ == "__main__") == (WHERE == "parent"):
            sys.meta_path.remove(self)
            os.killpg(0, signal.SIGINT)
        return None

sys.meta_path.insert(0, Interrupts())
if WHEN == "SchemaError":  # as a library that makes an error of its own of whatever happens inside

    def wraps(*given, **named):
        try:
            os.killpg(0, signal.SIGINT)
        except BaseException as error:
            raise ValueError("SchemaError") from error

    import builder.pipeline
    builder.pipeline.check_workspace = wraps
if __name__ == "__main__":
    if WHERE == "worker":  # processes are started for two builds as well
        import builder.publish.workers.crew
        builder.publish.workers.crew._START = -1000.0
    from builder.cli import main
    main()
"""
COMMANDS = {
    "check": ("check",),
    "publish": ("publish", "--no-pdf", "--workers", "2", "--everything"),
    "preview": ("preview", "--port", "0"),
}
CASES = [
    ("check", "parent", "click"),
    ("check", "parent", "builder.cli.check"),
    ("check", "parent", "pydantic"),
    ("check", "parent", "SchemaError"),
    ("publish", "parent", "builder.cli.publish"),
    ("publish", "parent", "yaml"),
    ("publish", "parent", "builder.pipeline.publish"),
    ("publish", "worker", "builder.publish.workers.pool"),
    ("publish", "worker", "pydantic"),
    ("publish", "worker", "builder.pages.site.build_page"),
    ("preview", "parent", "http.server"),
]


@pytest.fixture(scope="module")
def workspace(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("interrupted")
    for name in ("shelf", "pipit", "curlew"):
        copytree(ROOT / "builds" / name, folder / "builds" / name)
    return folder


@pytest.mark.parametrize(("command", "where", "when"), CASES)
def test_an_interrupt_is_one_sentence_at_most(
    workspace: Path, command: str, where: str, when: str
) -> None:
    script = workspace / f"{command}.py"
    script.write_text(SCRIPT.format(when=when, where=where), "utf-8")
    words = [sys.executable, str(script), *COMMANDS[command], "--workspace", str(workspace)]
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        words,
        capture_output=True,
        text=True,
        check=False,
        timeout=180,
        env=environment,
        start_new_session=True,
    )
    assert done.returncode != 0, "it was not interrupted"
    assert done.stderr in ("", "benchleaf: interrupted. What was published before is as it was.\n")
