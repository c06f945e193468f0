"""Chapters of a stranger: whatever is written there, the page has no element, address or picture that
we did not put there, or the chapter is refused at its line.
"""

import os
import time
from html.parser import HTMLParser
from pathlib import Path

import pytest

from builder.load.guide_files import read_guide_files
from builder.load.limits import DEFAULT_LIMITS
from builder.model.guide.read_guide import read_guide
from builder.pages.blocks import ChapterText
from builder.render.html.chapter_html import chapter_html
from builder.render.html.inline_html import HtmlContext

pytestmark = pytest.mark.slow  # takes long

HOSTILE = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "<svg/onload=alert(1)>",
    "[x](javascript:alert(1))",
    "[x](JaVaScRiPt:alert(1))",
    "[x](&#106;avascript:alert(1))",
    "[x](java\tscript:alert(1))",
    "[x](data:text/html;base64,PHNjcmlwdD4=)",
    "[x](vbscript:a)",
    "[x](file:///etc/passwd)",
    "[x](//evil.example)",
    "[x](\\\\evil.example)",
    "[x](https:evil.example)",
    "[x](../../../etc/passwd)",
    "[x](/etc/passwd)",
    "<javascript:alert(1)>",
    "[x][r]\n\n[r]: javascript:alert(1)",
    "![x](https://evil.example/a.png)",
    "![x](//evil.example/a.png)",
    "![x](../../shelf/a.svg)",
    "![x](/etc/passwd.png)",
    "![x](C:/a.png)",
    "![x](con.png)",
    "![x](data:image/svg+xml,a.svg)",
    "![x](a.html)",
    "![x](../../../a.svg)",
    '![x](a.svg "\\" onload=alert(1) x=\\"")',
    '![" onload=alert(1)](a.svg)',
    "{figure:<script>}",
    '{figure:a" onmouseover="b}',
    "{figure:../../x}",
    "{figure:}",
    "{figure:{figure:mass}}",
    "{{figure:x}}",
    '[x](step:"><script>)',
    '[x](<part:a b" onclick=x>)',
    "[x](files:../build.yaml)",
    '[x](other.md#"><script>)',
    "```\n</code></pre><script>\n```",
    "```html onload=x\n<b>\n```",
    "|a|\n|-|\n|<script>|",
    "|a|\n|:-:|\n|[x](javascript:a)|",
    "# second\n\n# third",
    "[^1]: <script>",
]
ALLOWED = {
    *(
        "h1",
        "p",
        "em",
        "strong",
        "a",
        "code",
        "pre",
        "ul",
        "ol",
        "li",
        "div",
        "table",
        "thead",
        "tbody",
    ),
    *("tr", "th", "td", "br", "hr", "blockquote", "figure", "figcaption", "img"),
}
ATTRIBUTES = {
    "href",
    "class",
    "scope",
    "tabindex",
    "role",
    "aria-label",
    "src",
    "alt",
    "loading",
    "start",
}


class _Elements(HTMLParser):
    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.addresses: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attrs}
        self.addresses += [v or "" for name, v in attrs if name in ("href", "src")]


@pytest.mark.parametrize("text", HOSTILE)
def test_a_hostile_line_is_refused_at_its_place_or_shown_as_words(text: str) -> None:
    file = "b/guide/a.md"
    chapters, wrong = read_guide("b", [(file, f"# T\n\nfirst\n\n{text}\n")])
    for finding in wrong:
        assert finding.where is not None and finding.where.file == file
        assert int(finding.where.path[0]) >= 4 and finding.hint
    for chapter in chapters:
        assert all(p.file in ("guide/a.svg",) for p in chapter.pictures)
    # Written without asking whether it was refused: what nobody knows leads nowhere.
    made = _Elements(chapter_html(ChapterText(text), HtmlContext("../"), lambda p, w: "<img>"))
    assert made.tags <= ALLOWED and made.attributes <= ATTRIBUTES
    assert all(a.startswith(("https://", "http://", "mailto:")) for a in made.addresses if a)


@pytest.mark.parametrize(
    "text",
    [
        "> " * 5000 + "a",
        "- " * 5000 + "a",
        "\n".join(f"{'  ' * n}- a" for n in range(200)),
        "[" * 60_000,
        "![](" * 15_000,
        "*a _b " * 10_000,
        "`a``" * 15_000,
        "|a" * 3000 + "|\n" + "|-" * 3000 + "|\n",
        "|a|\n|-|\n" + "|b|\n" * 12_000,
        "a\n" * 30_000 + "===",
        "\n".join(f"[{n}]: https://a.example" for n in range(2500)),
        "<" * 60_000,
        "{figure:" * 8000,
        "{figure:a}" * 6000,
        "\\" * 60_000,
        "&amp;" * 12_000,
    ],
    ids=lambda text: text[:12].replace("\n", " "),
)
def test_a_chapter_of_the_largest_size_takes_seconds_at_most(text: str) -> None:
    assert len(text) <= DEFAULT_LIMITS.chapter_kilobytes * 1024
    began = time.process_time()
    chapters, wrong = read_guide("b", [("b/guide/a.md", f"# T\n\n{text}\n")])
    assert chapters or wrong
    assert time.process_time() - began < 20


def test_what_the_parser_would_drop_is_refused() -> None:
    """CommonMark readers stop at a depth: words below it would be lost in silence."""
    for mark in (">", "-"):
        text = f"# T\n\n{f'{mark} ' * 30}lost\n"
        chapters, wrong = read_guide("b", [("b/guide/a.md", text)])
        assert chapters == () and "nested too deep" in wrong[0].message


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("Wiring.md", "data/bad-name"),
        ("con.md", "data/bad-name"),
        ("01-nul.md", "data/bad-name"),
        ("a b.md", "data/bad-name"),
        ("-.md", "data/bad-name"),
        ("\u00e9.md", "data/bad-name"),
        ("a..md", "data/bad-name"),
        ("x" * 70 + ".md", "data/bad-name"),
        ("a\u202eb.md", "data/bad-name"),
    ],
)
def test_names_of_chapters_pass_the_one_gate(tmp_path: Path, name: str, code: str) -> None:
    folder = tmp_path / "b" / "guide"
    folder.mkdir(parents=True)
    (folder / name).write_text("# T\n")
    files, unread = read_guide_files(tmp_path, "b", DEFAULT_LIMITS)
    _, wrong = read_guide("b", [(f.file, f.text) for f in files])
    assert [f.code for f in (*unread, *wrong)] == [code]


def test_two_chapters_of_one_address_are_refused() -> None:
    _, wrong = read_guide("b", [("b/guide/01-a.md", "# T\n"), ("b/guide/02-a.md", "# T\n")])
    assert [f.code for f in wrong] == ["data/twice"]


def test_nothing_outside_of_the_folder_is_read(tmp_path: Path) -> None:
    outside = tmp_path / "secret.md"
    outside.write_text("# Secret\n")
    guide = tmp_path / "builds" / "b" / "guide"
    guide.mkdir(parents=True)
    (guide / "a.md").symlink_to(outside)
    (guide / "circle.md").symlink_to("circle.md")
    os.mkfifo(guide / "pipe.md")
    (guide / "folder.md").mkdir()
    (guide / "large.md").write_bytes(b"a" * (DEFAULT_LIMITS.chapter_kilobytes * 1024 + 1))
    (guide / "latin.md").write_bytes(b"# \xe9\n")
    (guide / "bell.md").write_bytes(b"# a\x07\n")
    files, unread = read_guide_files(tmp_path / "builds", "b", DEFAULT_LIMITS)
    assert files == ()
    assert sorted(f.code for f in unread) == [
        "data/not-text",
        "data/too-large",
        *["data/unreadable"] * 5,
    ]


def test_a_guide_that_is_a_link_to_elsewhere_is_not_read(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "a.md").write_text("# Secret\n")
    (tmp_path / "builds" / "b").mkdir(parents=True)
    (tmp_path / "builds" / "b" / "guide").symlink_to(elsewhere)
    files, unread = read_guide_files(tmp_path / "builds", "b", DEFAULT_LIMITS)
    assert files == () and [f.code for f in unread] == ["data/unreadable"]
