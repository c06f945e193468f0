"""A workspace read from text in memory, with a bound of time: what hangs is a failure."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from time import process_time

from builder.diagnostics.finding import Finding
from builder.diagnostics.show import as_json, as_text
from builder.load.characters import unfit
from builder.load.files import Loaded
from builder.load.limits import DEFAULT_LIMITS
from builder.load.yaml_nodes import Document, read_yaml
from builder.model.read.workspace import Workspace, read_workspace
from builder.publish.workers.bounded import TooLong, bounded

# seconds of the processor: what hangs takes for ever, a busy machine a few times as long as a quiet
# one
A_FILE = 20
_HANGS = 6  # times as long on the clock


@contextmanager
def _within(seconds: int) -> Iterator[None]:
    start = process_time()
    with bounded(_HANGS * seconds):
        yield
    if process_time() - start > seconds:
        raise TooLong(seconds)


def read(files: Mapping[str, str]) -> tuple[Loaded, Workspace]:
    """The workspace of these files. TooLong where one hangs."""
    documents: dict[str, Document] = {}
    findings: list[Finding] = []
    with _within(A_FILE * len(files)):
        for file, text in files.items():
            documents[file], found = read_yaml(file, text, "", DEFAULT_LIMITS)
            findings += found
        names = tuple(f.split("/")[0] for f in files if f.endswith("/build.yaml"))
        loaded = Loaded(Path("/nowhere"), documents, tuple(findings), names, DEFAULT_LIMITS)
        return loaded, read_workspace(loaded)


def said(files: Mapping[str, str]) -> Workspace:
    """The same, and every finding shown: its words steer no terminal, each has a hint."""
    loaded, model = read(files)
    with _within(A_FILE):
        for finding in model.findings:
            assert finding.hint and finding.message
            for line in as_text(finding, loaded).split("\n"):
                assert unfit(line) is None, line
        assert as_json(model.findings, loaded).isascii()
    return model
