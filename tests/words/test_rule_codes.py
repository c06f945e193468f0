"""A rule is known to a reader by its words. Its code, `family/name`, is typed by whoever writes a
build, so it stands on a page only where it is set as a code: never within what is read.
"""

from pathlib import Path

from builder.pipeline.published import Published
from tests.words.reading import blocks_of_page

RULES = Path(__file__).parents[2] / "builder" / "rules"


def _codes() -> frozenset[str]:
    """Codes as the files of the rules are called, whatever the program makes of them."""
    files = [f for f in RULES.glob("*/*.py") if not f.name.startswith("_") and f.stem != "search"]
    return frozenset(f"{f.parent.name}/{f.stem.replace('_', '-')}" for f in files)


def _read_as_words(page: str, codes: frozenset[str]) -> list[str]:
    """Codes that stand among the words of a page; the reader leaves out what is set as a code."""
    words = " ".join(block.text for block in blocks_of_page(page, ""))
    told = (word.strip(".,:;()[]{}'\"") for word in words.split())
    return [word for word in told if word in codes]


def test_no_page_says_the_code_of_a_rule_as_a_word(
    published_demo: tuple[Path, Published],
) -> None:
    codes, seen = _codes(), 0
    assert len(codes) > 100 and "pack/discharge-limit" in codes
    said: dict[str, list[str]] = {}
    for file in sorted((published_demo[0] / "site").rglob("*.html")):
        page = file.read_text("utf-8")
        seen += sum(page.count(code) for code in codes)
        if found := _read_as_words(page, codes):
            said[str(file.relative_to(published_demo[0]))] = found
    assert seen > 500  # as codes they are there
    assert said == {}


def test_a_code_among_words_is_seen() -> None:
    codes = frozenset({"pack/discharge-limit"})
    page = "<p>See pack/discharge-limit.<p>As <code>pack/discharge-limit</code> says."
    assert _read_as_words(page, codes) == ["pack/discharge-limit"]
