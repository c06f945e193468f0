"""Coverage-guided fuzzing of reading and judging with atheris: `python tests/fuzz/fuzz_workspace.py
SEEDS -max_total_time=600`.

Not part of the tests (atheris is no dependency). It runs under atheris in an environment of its own
that has the libraries of pyproject.toml, from the project's folder with PYTHONPATH set to it. An
input is a build, the shelf and the settings, parted by lines of %%%. Any exception is a finding:
reading and judging say mistakes, they raise nothing. `python tests/fuzz/fuzz_workspace.py --seeds
SEEDS` writes the demo builds into the folder SEEDS, to start from.
"""

import random
import re
import sys
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["builder"]):
    from builder.diagnostics.finding import Finding
    from builder.diagnostics.show import as_json, as_text
    from builder.load.characters import unfit
    from builder.load.files import Loaded
    from builder.load.limits import DEFAULT_LIMITS
    from builder.load.yaml_nodes import Document, read_yaml
    from builder.model.read.workspace import read_workspace
    from builder.pages.paper.bench_sheet import bench_sheet
    from builder.pages.site.build_page import sheet_pages
    from builder.pages.site.site_pages import site_pages
    from builder.pages.summaries.summarise import summarise
    from builder.pipeline.check import judged
    from builder.render.data.csv_and_text import parts_csv
    from builder.render.html.page import Renderer, template_texts

from tests.fuzz.nasty import spoilt

PARTED = "\n%%%\n"
FILES = ("fuzz/build.yaml", "shelf/parts.yaml", "site.yaml")
RENDERER = Renderer(template_texts(None))


def read_and_judge(data: bytes) -> None:
    """Read, judge and draw what the bytes hold."""
    texts = data.decode("utf-8", "ignore").split(PARTED)
    documents: dict[str, Document] = {}
    findings: list[Finding] = []
    for file, text in zip(FILES, texts, strict=False):
        documents[file], found = read_yaml(file, text, "", DEFAULT_LIMITS)
        findings += found
    loaded = Loaded(Path("/nowhere"), documents, tuple(findings), ("fuzz",), DEFAULT_LIMITS)
    model = read_workspace(loaded)
    for finding in model.findings:
        text = as_text(finding, loaded)
        assert all(unfit(line) is None for line in text.split("\n")), text
    as_json(model.findings, loaded)
    for build in model.builds.values():
        sheet = judged(build, draft=True)
        site = site_pages(model.site)
        for page in sheet_pages(sheet):
            RENDERER.page(page, site)
        bench_sheet(sheet, site, "")
        parts_csv(sheet)
        summarise(sheet)


def mutate(data: bytes, most: int, seed: int) -> bytes:
    """Mostly spoilt as text, by line and value; now and then as bytes."""
    if seed % 8 == 0:
        changed: bytes = atheris.Mutate(data, most)
        return changed
    rng = random.Random(seed)
    texts = data.decode("utf-8", "ignore").split(PARTED)
    at = rng.randrange(len(texts))
    texts[at] = spoilt(texts[at], seed)
    return PARTED.join(texts).encode("utf-8", "ignore")[:most]


def write_seeds(folder: Path) -> None:
    """Each demo build with the shelf's entries that it names."""
    builds = Path(__file__).resolve().parents[2] / "builds"
    entries: dict[str, str] = {}
    for file in sorted((builds / "shelf").glob("*.yaml")):
        for block in re.split(r"^(?=[a-z0-9-]+:)", file.read_text("utf-8"), flags=re.MULTILINE):
            entries[block.partition(":")[0]] = block.rstrip()
    folder.mkdir(parents=True, exist_ok=True)
    for file in sorted(builds.glob("*/build.yaml")):
        build = file.read_text("utf-8")
        shelf = "\n".join(text for name, text in entries.items() if name in build)
        text = PARTED.join((build, shelf, (builds / "site.yaml").read_text("utf-8")))
        (folder / file.parent.name).write_text(text, "utf-8")


if __name__ == "__main__":
    if sys.argv[1] == "--seeds":
        write_seeds(Path(sys.argv[2]))
    else:
        atheris.Setup(sys.argv, read_and_judge, custom_mutator=mutate)
        atheris.Fuzz()
