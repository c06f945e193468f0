"""One owner an output: what each job writes is said before it is made, and two that clash are said,
not mixed.
"""

from pathlib import Path

import pytest
from click.testing import CliRunner
from PIL import Image

from builder.cli.main import cli
from builder.options import PublishOptions
from builder.pipeline import owners
from builder.pipeline.owners import Clash, Owners, addresses_of
from builder.pipeline.publish import publish_site
from builder.pipeline.published import Published
from builder.publish.swap import PublishError
from tests.publish.exactness import read_manifest
from tests.publish.sources import Sources


def _publish(workspace: Path) -> Published:
    return publish_site(PublishOptions(workspace, pdf=False, workers=1))


def test_every_job_of_the_demo_writes_what_was_said_of_it(
    published_demo: tuple[Path, Published],
) -> None:
    jobs = read_manifest(published_demo[0] / "site").jobs
    kinds = {name.partition(":")[0] for name in jobs}
    of_guides = {"given", "guide", "source"}
    others = {"assets", "build", "choose", "compare", "part", "pictures", "reference", "tables"}
    assert kinds == of_guides | others
    for name, record in jobs.items():
        if name.partition(":")[0] == "guide":  # its chapters only their files say
            assert set(addresses_of(name)) <= set(record.outputs), name
        elif name.partition(":")[0] not in ("assets", "pictures", "given"):
            assert set(record.outputs) == set(addresses_of(name)), name
    mine = Owners()
    assert all(mine.claim(name, record.outputs) is None for name, record in jobs.items())


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("a/index.html", "a/index.html"),
        ("a/Index.html", "a/index.HTML"),
        ("a/stra\u00dfe.svg", "a/STRASSE.svg"),
        ("a/\u00fc.svg", "a/u\u0308.svg"),
        ("a/b", "a/b/c"),
        ("a/b/c", "a/b"),
        ("A/b/c", "a/B"),
    ],
)
def test_what_some_disks_take_for_one_has_one_owner(first: str, second: str) -> None:
    mine = Owners()
    assert mine.claim("one", [first]) is None
    assert mine.claim("two", ["z/index.html", second]) == Clash(second, "one")
    assert mine.claim("three", ["z/index.html"]) is None, "one that is refused takes nothing"
    assert Owners().claim("one", [first, second]) == Clash(second, "one"), (
        "nor is it two files of one job"
    )


def test_a_clash_is_said_with_both_names_and_all_others_are_published(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The gate for names lets no clash come up; where one did, this is the net below it."""
    monkeypatch.setattr("builder.model.values.plain_values.picture_mistake", lambda path: None)
    sources = Sources()
    sources.builds["wren"]["hero"] = {"file": "card.png", "alt": "Words"}
    sources.write(tmp_path)
    Image.new("RGB", (8, 8), (200, 30, 30)).save(tmp_path / "builds" / "wren" / "card.png")
    done = CliRunner().invoke(
        cli, ["publish", "--no-pdf", "--workers", "1", "--workspace", str(tmp_path)]
    )
    assert done.exit_code == 1
    assert (
        "[data/address-taken] The picture card.png of wren and the bench sheet of wren would have one"
        " address" in done.output
    )
    assert (tmp_path / "site" / "robin" / "index.html").is_file()
    assert not (tmp_path / "site" / "wren").exists(), "a sheet without its picture"


@pytest.mark.parametrize(
    ("names", "words"),
    [
        (("Own.css", "own.css"), "but for capitals"),
        (("a:b.css",), "not every disk"),
        (("own. /a.css",), "not every disk"),
    ],
)
def test_people_s_own_files_have_one_address_each(
    tmp_path: Path, names: tuple[str, ...], words: str
) -> None:
    Sources().write(tmp_path)
    _publish(tmp_path)
    for name in names:
        file = tmp_path / "templates" / "static" / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text("p { margin: 0 }")
    with pytest.raises(PublishError, match=words):
        _publish(tmp_path)
    assert (tmp_path / "site" / "assets" / "sheet.css").is_file()


def test_a_manifest_that_gives_our_pages_to_a_build_takes_none_of_them(tmp_path: Path) -> None:
    """One that came with a stranger's site: the record of a build that cannot be read now claims
    the front page.
    """
    sources = Sources()
    sources.write(tmp_path)
    _publish(tmp_path)
    manifest = tmp_path / "site" / ".benchleaf.json"
    text = manifest.read_text("utf-8")
    front = text[text.index('"index.html":[') :].partition("]")[0] + "]"
    manifest.write_text(
        text.replace('"wren/description.txt":', f'{front},"wren/description.txt":', 1), "utf-8"
    )
    sources.broken.add("builds/wren/build.yaml")
    sources.builds["robin"]["title"] = "Robin, again"
    sources.write(tmp_path)
    done = _publish(tmp_path)
    assert "robin" in done.published and "Robin, again" in (
        tmp_path / "site" / "index.html"
    ).read_text("utf-8")


def test_an_address_that_no_disk_should_hold_is_not_kept_and_blocks_nothing(tmp_path: Path) -> None:
    """Published by an earlier version from a name that is refused now."""
    sources = Sources()
    sources.write(tmp_path)
    _publish(tmp_path)
    site = tmp_path / "site"
    (site / "wren" / "description.txt").rename(site / "wren" / "a?b.txt")
    manifest = site / ".benchleaf.json"
    manifest.write_text(
        manifest.read_text("utf-8").replace("wren/description.txt", "wren/a?b.txt"), "utf-8"
    )
    sources.broken.add("builds/wren/build.yaml")
    sources.builds["robin"]["title"] = "Robin, again"
    sources.write(tmp_path)
    for _ in range(2):
        done = _publish(tmp_path)
        assert done.published == ("robin",) and done.left_out == ("wren",)
    assert not (site / "wren" / "a?b.txt").exists()


def test_each_kind_of_job_has_words() -> None:
    for job in (
        "build:a",
        "pdf:a",
        "pictures:a:nose.jpg",
        "compare:a:b",
        "part:p",
        "tables",
        "reference",
        "assets",
    ):
        assert owners.words_of(job) != job
