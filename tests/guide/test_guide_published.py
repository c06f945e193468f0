"""A guide that is published: only what changed is made, its words are in the source and in the feed,
what is given along lies there as it was, and a mistake keeps the build as it was.
"""

import hashlib
import io
import re
import zipfile
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from builder.diagnostics.show import as_text
from builder.diagnostics.told_once import told_once
from builder.options import PublishOptions
from builder.pipeline.publish import publish_site
from builder.pipeline.published import Published
from builder.render.data.given import given_from
from tests.workspace_edits import pipit_alone

pytestmark = pytest.mark.slow  # takes long

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def workspace(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The smallest demo build with two chapters, a file and a change, published."""
    home = tmp_path_factory.mktemp("guide")
    build = pipit_alone(home)
    (build / "guide/last.md").write_text("# Last\n\nOne word.\n")
    (build / "shape.stl").write_bytes(b"solid wedge\nendsolid wedge\n")
    text = (build / "build.yaml").read_text("utf-8")
    text += "files:\n  - {name: wedge.stl, what: A wedge to print, file: shape.stl}\n"
    text += "superseded_by: heir\nretired_because: 'It was too loud.'\n"
    text = text.replace("status: flying", "status: retired")
    (build / "build.yaml").write_text(text)
    heir = home / "builds/heir"
    heir.mkdir()
    (heir / "build.yaml").write_text("title: Heir\nbased_on: pipit\n")
    publish(home)
    return home


def publish(home: Path) -> Published:
    """Publishes without PDF, in this process."""
    return publish_site(PublishOptions(home, pdf=False, workers=1))


def _bytes(home: Path) -> dict[str, bytes]:
    site = home / "site"
    files = (p for p in site.rglob("*") if p.is_file() and not p.name.startswith("."))
    return {p.relative_to(site).as_posix(): p.read_bytes() for p in files}


def test_a_word_of_a_chapter_makes_that_chapter_anew_and_nothing_else(workspace: Path) -> None:
    before = _bytes(workspace)
    chapter = workspace / "builds/pipit/guide/last.md"
    text = chapter.read_text("utf-8")
    chapter.write_text(text.replace("One word", "Another word"))
    done = publish(workspace)
    after = _bytes(workspace)
    changed = {path for path in after if after[path] != before.get(path)}
    assert set(after) == set(before) and not done.errors
    shown = {f"{build}/guide/last/index.html" for build in ("pipit", "heir")}  # a variant's too
    assert changed == shown | {"pipit/source.zip", "heir/source.zip"}
    assert done.written <= 5  # the four, and what is kept of them
    chapter.write_text(text)
    publish(workspace)
    assert _bytes(workspace) == before


def test_a_title_changes_what_leads_to_it(workspace: Path) -> None:
    before = _bytes(workspace)
    chapter = workspace / "builds/pipit/guide/last.md"
    text = chapter.read_text("utf-8")
    chapter.write_text(text.replace("# Last", "# The very last"))
    publish(workspace)
    after = _bytes(workspace)
    assert b"The very last" in after["pipit/index.html"]
    assert b"The very last" in after["pipit/guide/first-evening/index.html"]
    assert {p for p in after if after[p] != before[p] and p.startswith("parts/")} == set()
    chapter.write_text(text)
    publish(workspace)


def test_a_mistake_keeps_what_was_published_and_is_said_at_its_line(workspace: Path) -> None:
    before = _bytes(workspace)
    chapter = workspace / "builds/pipit/guide/last.md"
    text = chapter.read_text("utf-8")
    for wrong, says in (
        ("It weighs {figure:mass/drey}.", "pipit/guide/last.md:5:11: mistake [data/guide-name]"),
        ("[x](javascript:a)", "pipit/guide/last.md:5:5: mistake [data/guide]"),
        ("pairing code: 1234", "pipit/guide/last.md:5:1: mistake [data/guide-private]"),
        ("![gone](gone.svg)", "pipit/guide/last.md:5:9: mistake [data/picture]"),
    ):
        chapter.write_text(f"{text}\n{wrong}\n")
        done = publish(workspace)
        said = "\n".join(as_text(f, done.loaded) for f in told_once(done.findings))
        assert said.count(says) == 1  # and not again for the variant that shows it too
        assert says in said and "^" in said, said
        assert "pipit" in done.kept
        after = _bytes(workspace)
        assert {p for p in before if p.startswith("pipit/") and after.get(p) != before[p]} == set()
    chapter.write_text(text)
    publish(workspace)
    assert _bytes(workspace) == before


def test_the_source_holds_chapters_pictures_and_files_and_is_taken(workspace: Path) -> None:
    content = (workspace / "site/pipit/source.zip").read_bytes()
    names = set(zipfile.ZipFile(io.BytesIO(content)).namelist())
    for file in ("guide/first-evening.md", "guide/last.md", "guide/battery-pads.svg", "shape.stl"):
        assert f"builds/pipit/{file}" in names
    given = given_from(str(workspace / "site/pipit/source.zip"), lambda _: True)
    assert given.origin["guide"] == "The first evening; Last"


def test_a_source_with_chapters_publishes_the_same_guide(workspace: Path, tmp_path: Path) -> None:
    archive = zipfile.ZipFile(workspace / "site/pipit/source.zip")
    archive.extractall(tmp_path)
    publish(tmp_path)
    page = "pipit/guide/first-evening/index.html"
    assert (tmp_path / "site" / page).is_file()
    numbers = [
        re.findall(r"<a href=[^>]*numbers[^>]*>[^<]*", (home / "site" / page).read_text("utf-8"))
        for home in (workspace, tmp_path)
    ]
    assert numbers[0] == numbers[1] and len(numbers[0]) >= 3


def test_a_variant_shows_its_bases_chapters_with_its_own_numbers(workspace: Path) -> None:
    page = "guide/first-evening/index.html"
    of_base, of_heir = (
        (workspace / "site" / name / page).read_text("utf-8") for name in ("pipit", "heir")
    )
    assert "Written for" in of_heir and "Written for" not in of_base
    assert "of which this build is a variant" in of_heir
    assert 'href="../../numbers/' in of_heir or "href=../../numbers/" in of_heir
    assert (workspace / "site/heir/guide/battery-pads.svg").is_file()
    names = set(zipfile.ZipFile(workspace / "site/heir/source.zip").namelist())
    for file in ("guide/first-evening.md", "guide/battery-pads.svg", "shape.stl"):
        assert f"builds/pipit/{file}" in names and f"builds/heir/{file}" not in names


def test_a_variant_with_a_chapter_of_its_own_shows_no_other(workspace: Path) -> None:
    before = _bytes(workspace)
    folder = workspace / "builds/heir/guide"
    folder.mkdir()
    (folder / "own.md").write_text("# Own\n\nIt weighs {figure:mass/dry}.\n")
    publish(workspace)
    pages = {p for p in _bytes(workspace) if p.startswith("heir/guide/")}
    assert pages == {"heir/guide/index.html", "heir/guide/own/index.html"}
    assert b"Written for" not in (workspace / "site/heir/guide/own/index.html").read_bytes()
    names = zipfile.ZipFile(workspace / "site/heir/source.zip").namelist()
    assert [n for n in names if "guide/" in n] == ["builds/heir/guide/own.md"]
    (folder / "own.md").unlink()
    folder.rmdir()
    publish(workspace)
    assert _bytes(workspace) == before


def test_a_variants_source_publishes_the_same_guide(workspace: Path, tmp_path: Path) -> None:
    zipfile.ZipFile(workspace / "site/heir/source.zip").extractall(tmp_path)
    publish(tmp_path)
    page = "heir/guide/first-evening/index.html"
    numbers = [
        re.findall(r"<a href=[^>]*numbers[^>]*>[^<]*", (home / "site" / page).read_text("utf-8"))
        for home in (workspace, tmp_path)
    ]
    assert numbers[0] == numbers[1] and len(numbers[0]) >= 3


def test_a_file_lies_there_as_it_was_with_its_size_and_digest(workspace: Path) -> None:
    content = (workspace / "site/pipit/files/wedge.stl").read_bytes()
    assert content == (workspace / "builds/pipit/shape.stl").read_bytes()
    page = (workspace / "site/pipit/parts/index.html").read_text("utf-8")
    assert hashlib.sha256(content).hexdigest() in page and f"{len(content)}\u00a0B" in page


def test_a_retired_build_says_why_and_leads_on_from_every_page(workspace: Path) -> None:
    site = workspace / "site"
    for page in sorted((site / "pipit").rglob("index.html")):
        text = page.read_text("utf-8")
        assert "It was too loud." in text and "heir/index.html" in text, page
    for table in ("index.html", "compare/index.html"):
        assert "its place took" in (site / table).read_text("utf-8"), table
    both = next(p for p in (site / "compare").rglob("index.html") if "pipit" in p.parts)
    assert "It was too loud." in both.read_text("utf-8")


def test_any_two_builds_say_what_took_the_place_of_one(workspace: Path, browser: Browser) -> None:
    page = browser.new_page()
    address = (workspace / "site/compare/any/index.html").as_uri()
    page.goto(f"{address}#heir+pipit")
    page.wait_for_selector('[data-pair="heir+pipit"]')
    said = page.locator("main .banner").all_text_contents()
    assert [words.partition(": ")[2] for words in said] == ["Retired. Its place took heir."]
    page.goto("about:blank")
    page.goto(f"{address}#heir+heir")
    page.wait_for_selector('[data-pair="heir+heir"]')
    assert page.locator("main .banner").count() == 0
    page.close()


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("files: [{name: a.html, what: x, file: shape.stl}]", "data/bad-name"),
        ("files: [{name: a.svg, what: x, file: shape.stl}]", "data/bad-name"),
        ("files: [{name: con.txt, what: x, file: shape.stl}]", "data/bad-name"),
        ("files: [{name: ../a.txt, what: x, file: shape.stl}]", "data/bad-name"),
        ("files: [{name: a.txt, what: x, file: ../shelf/motors.yaml}]", "data/bad-name"),
        ("files: [{name: a.txt, what: x, file: /etc/hostname}]", "data/bad-name"),
        ("files: [{name: a.txt, what: x, file: gone.txt}]", "data/unreadable"),
        ("files: [{name: a.txt, what: x, file: link.txt}]", "data/unreadable"),
        ("files: [{name: a.txt, what: x, file: secret.txt}]", "data/guide-private"),
        (
            "files: [{name: a.txt, what: x, file: a.txt}, {name: A.txt, what: x, file: a.txt}]",
            "data/twice",
        ),
        ("recording: javascript:alert(1)", "data/not-an-address"),
        ("superseded_by: nobody", "data/no-such-build"),
        ("superseded_by: pipit", "data/circle-of-bases"),
    ],
)
def test_what_goes_along_passes_the_gates(tmp_path: Path, line: str, code: str) -> None:
    from builder.pipeline.check import check_workspace

    build = tmp_path / "builds/pipit"
    build.mkdir(parents=True)
    (tmp_path / "outside.txt").write_text("x")
    (build / "link.txt").symlink_to(tmp_path / "outside.txt")
    (build / "secret.txt").write_text("link phrase: otters\n")
    (build / "a.txt").write_text("a\n")
    (build / "shape.stl").write_text("a\n")
    (build / "build.yaml").write_text(f"title: P\n{line}\n")
    found = [f for f in check_workspace(tmp_path).findings if f.severity == "mistake"]
    assert [f.code for f in found] == [code]
    assert found[0].where is not None and found[0].hint
