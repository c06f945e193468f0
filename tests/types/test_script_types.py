"""The types of the pages' scripts, by TypeScript (npm package typescript), which reads them in comments:
strictly for the page at the bench, whose data is held to the same types.
"""

import json
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from builder.pages.bench.at_bench_page import bench_data
from builder.pages.bench.screens import screens_of
from builder.pages.bench.script_words import WORDS
from builder.pages.bench.trouble import trouble_of
from builder.pipeline.check import Checked

ROOT = Path(__file__).resolve().parents[2]
CHECKER = ROOT / ".venv" / "checker" / "types" / "tsc.js"
TEMPLATES = ROOT / "templates"
SCRIPTS = TEMPLATES / "static"
OWN = Path(__file__).resolve().parent
AT_BENCH = sorted(SCRIPTS.glob("bench*.js"))
WORKER = SCRIPTS / "away-worker.js"
OTHERS = sorted({*SCRIPTS.glob("*.js")} - {*AT_BENCH, WORKER})


PAGE, IN_A_WORKER = ["es2022", "dom", "dom.iterable"], ["es2022", "webworker"]


def _complaints(*files: Path, options: tuple[str, ...] = (), worker: bool = False) -> list[str]:
    """What the checker says of files that share one page, or of a service worker. Of its own
    library it is not asked.
    """
    library = ",".join(IN_A_WORKER if worker else PAGE)
    fixed = ["--allowJs", "--checkJs", "--noEmit", "--skipDefaultLibCheck"]
    fixed += ["--target", "es2022", "--lib", library]
    return _said(*fixed, *options, *map(str, files))


def _said(*options: str) -> list[str]:
    node = shutil.which("node")
    if node is None:
        pytest.skip("no Node.js on this machine, on which TypeScript runs")
    if not CHECKER.is_file():
        pytest.skip(
            "TypeScript is not in .venv/checker: `make test` fetches it where npm is at hand"
        )
    argv = [node, str(CHECKER), *options]
    done = subprocess.run(argv, capture_output=True, encoding="utf-8", check=False)
    assert (done.returncode == 0) == (not done.stdout), done.stderr
    return done.stdout.splitlines()


@pytest.fixture(scope="module")
def at_bench(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, ...]:
    """The types of the page at the bench: the ids of its template, and the sentences that it has."""
    template = (TEMPLATES / "bench.html").read_text("utf-8")
    found = re.findall(r'<(\w+)\b[^>]*\bid="([\w-]+)"', template)
    ids = [f'"{own}": HTMLElementTagNameMap["{tag}"];' for tag, own in found]
    assert len(ids) > 20
    lines = ["interface AtIds {", *ids, "}", "interface ScriptWords {"]
    lines += [*(f"{word}: string;" for word in WORDS), "}"]
    made = tmp_path_factory.mktemp("types") / "made.d.ts"
    made.write_text("\n".join(lines), "utf-8")
    return OWN / "at_bench.d.ts", made


def test_the_page_at_the_bench_is_typed_strictly(at_bench: tuple[Path, ...]) -> None:
    assert len(AT_BENCH) == 7
    assert _complaints(*AT_BENCH, *at_bench, options=("--strict",)) == []


def test_the_worker_is_typed_strictly() -> None:
    assert _complaints(WORKER, options=("--strict",), worker=True) == []


def _complaints_of_projects(folder: Path, projects: dict[str, list[Path]]) -> list[str]:
    """What one process says of projects by name, each with the files of one page."""
    options = {
        **dict.fromkeys(("allowJs", "checkJs", "noEmit", "skipDefaultLibCheck"), True),
        "target": "es2022",
        "lib": PAGE,
    }
    for name, files in projects.items():
        project = {"compilerOptions": options, "files": list(map(str, files))}
        (folder / f"{name}.json").write_text(json.dumps(project), "utf-8")
    return _said("--build", *(str(folder / f"{name}.json") for name in projects))


@pytest.fixture(scope="module")
def of_others(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    """What is said of all scripts of other pages."""
    projects = {script.name: [script, OWN / "any_page.d.ts"] for script in OTHERS}
    return _complaints_of_projects(tmp_path_factory.mktemp("projects"), projects)


@pytest.mark.parametrize("script", OTHERS, ids=lambda s: s.name)
def test_scripts_of_other_pages_use_what_is_there(script: Path, of_others: list[str]) -> None:
    others = [o.name for o in OTHERS if o != script]
    assert [line for line in of_others if not any(f"/{o}(" in line for o in others)] == []


def test_a_wrong_line_of_one_page_of_many_is_told_as_its_own(tmp_path: Path) -> None:
    scripts = {"right": "'x'.trim();", "wrong": "'x'.nothing();", "last": "[1].at(0);"}
    for name, text in scripts.items():
        (tmp_path / f"{name}.js").write_text(text, "utf-8")
    projects = {name: [tmp_path / f"{name}.js"] for name in scripts}
    (told,) = _complaints_of_projects(tmp_path, projects)
    assert "/wrong.js(" in told and "'nothing' does not exist" in told


@pytest.mark.parametrize("name", ["dipper", "pipit"])
def test_what_the_publish_gives_is_of_these_types(
    name: str, at_bench: tuple[Path, ...], demo: Checked, tmp_path: Path
) -> None:
    """A key that the types do not know is a complaint as well."""
    sheet = demo.sheets[name]
    data = bench_data(sheet, screens_of(sheet), trouble_of(sheet))
    given = tmp_path / "given.ts"
    given.write_text(f"const given: BenchData = {json.dumps(data)};", "utf-8")
    assert _complaints(given, *at_bench, options=("--strict",)) == []


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        ('bench.byId("at-bar").disabled = true;', "'disabled' does not exist"),
        ("bench.W.nobodysWord.trim();", "'nobodysWord' does not exist"),
        ('bench.kept("x").set("colours", "a", "b");', "not assignable to parameter"),
        ("/** @type {Band} */\nconst one = { name: 3 };", "not assignable to type 'string'"),
        ("bench.data.fields.any.low.toFixed();", "possibly 'undefined'"),
    ],
)
def test_a_wrong_line_is_told(
    wrong: str, told: str, at_bench: tuple[Path, ...], tmp_path: Path
) -> None:
    script = tmp_path / "wrong.js"
    script.write_text(wrong, "utf-8")
    assert told in " ".join(_complaints(script, *at_bench, options=("--strict",)))
