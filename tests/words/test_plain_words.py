"""What a person reads is said in the words of the list, in sentences of a bearable length: pages of
the demo, the paper, reference, messages, help, what a build starts from.

Lengths are those of controlled technical English (ASD-STE100, from memory): an instruction has at
most 20 words, a description at most 25.
"""

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import click
import pytest
import yaml
from click.testing import CliRunner

from builder.cli.main import cli
from builder.pages.paper.bench_sheet import bench_sheet
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked
from builder.pipeline.published import Published
from builder.render.html.page import template_texts
from builder.render.paper.pdf import bench_sheet_html
from builder.rules.reference import codes, explanation
from tests.words.checking import hits
from tests.words.literals import literals
from tests.words.reading import Block, blocks_of_page, length, sentences
from tests.workspace_edits import ROOT

INSTRUCTION, DESCRIPTION = 20, 25
READ = ("p", "li", "td", "dd", "small", "figcaption", "caption", "summary", "div")
LEFT = yaml.safe_load(Path(__file__).with_name("long_sentences.yaml").read_text("utf-8"))
# An answer of a rule that stays inside the program, and the option that is answered with its new name.
# Sentences of the reference pages that are to be cut still; the number may only get smaller.
STILL_TO_CUT = 0
# The kind of a part as it is typed, and headings of other people's lists, as they are understood.
UNREAD = (
    *("in 'not judged'", "in 'nothing to judge'", "'pack': battery in '\\x08\\nExamples:"),
    *("in 'seen; date; price date", "in 'battery; batteries; pack; packs"),
)
OPTION = re.compile(r"--[a-z-]+")  # it is typed


def _pages(site: Path) -> Iterator[Block]:
    for file in sorted(site.rglob("*.html")):
        yield from blocks_of_page(file.read_text("utf-8"), str(file.relative_to(site)))


@cache
def _blocks(site: Path) -> tuple[Block, ...]:
    return tuple(dict.fromkeys(_pages(site)))


def _said(blocks: Iterator[Block]) -> list[str]:
    found = {b.text: b.source for b in blocks}
    return [
        f"{source}: {hit} in {text[:90]!r}" for text, source in found.items() for hit in hits(text)
    ]


def test_no_page_says_a_word_of_the_list(published_demo: tuple[Path, Published]) -> None:
    assert _said(iter(_blocks(published_demo[0] / "site"))) == []


def test_the_paper_says_none(demo: Checked) -> None:
    pages = site_pages(demo.workspace.site)
    for sheet in demo.sheets.values():
        html = bench_sheet_html(bench_sheet(sheet, pages, "digest"), pages, template_texts(None))
        assert _said(iter(blocks_of_page(html, sheet.build.name))) == []


def test_no_message_hint_or_label_in_the_code_says_one() -> None:
    """Every literal, so that what no demo build shows is read as well."""
    found = [f for f in _said(literals(ROOT / "builder")) if not any(w in f for w in UNREAD)]
    assert found == []


def test_no_explanation_says_one() -> None:
    texts = (Block(code, "explanation", explanation(code) or "") for code, _ in codes())
    assert _said(texts) == []


def test_help_says_none() -> None:
    names = cli.list_commands(click.Context(cli))
    for words in ([], *([n] for n in names)):
        done = CliRunner().invoke(cli, [*words, "--help"])
        assert _said(iter([Block(" ".join(words), "help", OPTION.sub("", done.output))])) == []


@pytest.mark.parametrize(
    "file", sorted((ROOT / "builder" / "starters").glob("*.yaml")), ids=lambda f: f.stem
)
def test_what_a_build_starts_from_says_none(file: Path) -> None:
    comments = re.findall(r"#\s?(.*)", file.read_text("utf-8"))
    assert _said(iter(Block(file.name, "comment", c) for c in comments)) == []


def _over(site: Path) -> Iterator[tuple[Block, str]]:
    for block in _blocks(site):
        instruction = block.tag == "li" and "/work/" in block.source
        most = INSTRUCTION if instruction else DESCRIPTION
        text = re.sub(r"^\d+ ", "", block.text)  # the number of a step
        if block.tag in READ:
            yield from ((block, s) for s in sentences(text) if length(s) > most)


def test_sentences_are_short(published_demo: tuple[Path, Published]) -> None:
    """What stays longer is on a list, each kind with its reason; a kind that is there no more is
    taken off the list.
    """
    allowed = [re.compile(entry["like"]) for entry in LEFT]
    found = {s: b.source for b, s in _over(published_demo[0] / "site")}
    left = {s: w for s, w in found.items() if not any(a.search(s) for a in allowed)}
    reference = {s for s, w in left.items() if w in ("rules/index.html", "fields/index.html")}
    assert {s: w for s, w in left.items() if s not in reference} == {}
    assert len(reference) <= STILL_TO_CUT, sorted(reference)
    assert [a.pattern for a in allowed if not any(a.search(s) for s in found)] == []
    assert all(entry["why"] for entry in LEFT)


def test_the_check_finds_what_it_is_for() -> None:
    """Words and sentences that were published once."""
    for text in (
        "Ring harness through, contact by contact, against the pinout.",
        "20.8 W flows away from BAT-, the hardest joint, while it is hot.",
        "to be paid at the till",
        "The pack lies at 3 mm",
        "86 rules judged, 0 not",
    ):
        assert hits(text), text
    assert hits("See pack/discharge-limit, and the first pack under 'packs'.") == []
    assert [length(s) for s in sentences("Take 3.5 mm off. It is 14 ± 2 g, no more!")] == [3, 5]
