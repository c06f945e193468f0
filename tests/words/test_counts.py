"""A count of one has its noun in the singular, in all that is published and in what scripts say."""

import html
import re
from pathlib import Path

import pytest

from builder.pages.bench.script_words import WORDS
from builder.pipeline.published import Published

pytestmark = pytest.mark.slow  # reads all pages

COUNTED = (
    "answers|boards|boxes|builds|cells|changes|chapters|charges|checks|contacts|cups|entries|faults"
    "|fields|files|flights|joints|kinds|lines|marks|minutes|mistakes|motors|orders|parts"
    "|photographs|pictures|pieces|places|propellers|readings|remarks|screws|shops|sockets|spares"
    "|steps|swaps|things|times|ways|weighings|wires"
)
ONE_OF_MANY = re.compile(rf"(?<![\w.,:/+–−-])1\s(?:[a-z]+\s)?(?:{COUNTED})\b(?! of)")
NO_TEXT = re.compile(r"<(script|style|svg).*?</\1>|<[^>]*>", re.DOTALL)


def test_the_pattern_finds_what_it_is_for() -> None:
    assert ONE_OF_MANY.search("from 1 flights that say")
    assert ONE_OF_MANY.search("with 1 more wires")
    assert not ONE_OF_MANY.search("from 1 flight that says; 11 wires; 2.1 parts")


def test_no_page_says_one_of_many(published_demo: tuple[Path, Published]) -> None:
    found = []
    for page in (published_demo[0] / "site").rglob("*.html"):
        said = html.unescape(NO_TEXT.sub(" ", page.read_text("utf-8")))
        found += [(page.name, page.parent.name, m.group()) for m in ONE_OF_MANY.finditer(said)]
    assert found == []


def test_no_script_puts_a_count_before_a_plural_alone() -> None:
    """What follows a count begins with a blank: of such words there is one for 1 as well."""
    behind = {k: w for k, w in WORDS.items() if re.match(rf" (?:[a-z]+ )?(?:{COUNTED}|are)\b", w)}
    assert all(k.startswith("some") for k in behind)
    assert all(f"one{k.removeprefix('some')}" in WORDS for k in behind)
