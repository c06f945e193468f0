"""What a person wrote never becomes markup, and pages fetch nothing from anybody else."""

import re
from collections.abc import Callable
from typing import get_args
from xml.etree import ElementTree

import html5lib
import pytest

from builder.pages import blocks
from builder.pages.blocks import Bullets, Markdown, Page, Paragraph, Section, Span
from builder.pages.site.site_pages import SitePages
from builder.render.html import block_html, inline_html
from builder.render.html.markdown import allowed_link
from builder.render.html.page import Renderer

XHTML = "{http://www.w3.org/1999/xhtml}"
KINDS = get_args(Page.__annotations__["kind"])


def parsed(page: bytes) -> ElementTree.Element:
    """The page through the parser of the WHATWG HTML standard; strict, so that any parse error is
    raised.
    """
    parser = html5lib.HTMLParser(tree=html5lib.getTreeBuilder("etree"), strict=True)
    tree: ElementTree.Element = parser.parse(page.decode())
    return tree


def test_every_kind_of_block_and_piece_is_drawn() -> None:
    drawn = {k.__name__ for k in block_html._BLOCK} | {k.__name__ for k in inline_html.INLINE}
    wanted = {k.__name__ for k in (*get_args(blocks.Block), *get_args(blocks.Inline))}
    assert wanted <= drawn


def test_the_made_up_page_holds_every_kind_of_block(page_of: Callable[..., Page]) -> None:
    text = repr(page_of())
    for kind in (*get_args(blocks.Block), *get_args(blocks.Inline)):
        assert f"{kind.__name__}(" in text, kind


@pytest.mark.parametrize("kind", KINDS)
def test_pages_of_every_kind_parse_strictly(
    kind: str, renderer: Renderer, site: SitePages, page_of: Callable[..., Page], payload: str
) -> None:
    for words in ("", payload):
        parsed(renderer.page(page_of(words, kind), site))


def test_payloads_stay_text(
    renderer: Renderer, site: SitePages, page_of: Callable[..., Page], payload: str
) -> None:
    plain = parsed(renderer.page(page_of("x"), site))
    tree = parsed(renderer.page(page_of(payload), site))
    for tag in ("script", "img", "a", "input", "iframe", "link", "meta"):
        assert len(list(tree.iter(XHTML + tag))) == len(list(plain.iter(XHTML + tag))), tag
    for element in tree.iter():
        assert not [a for a in element.attrib if a.startswith("on") or a == "style"], element.tag
    assert payload in "".join(tree.itertext())


def test_ids_are_unique(renderer: Renderer, site: SitePages, page_of: Callable[..., Page]) -> None:
    ids = [e.get("id") for e in parsed(renderer.page(page_of(), site)).iter() if e.get("id")]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_is_fetched_from_others(
    kind: str, renderer: Renderer, site: SitePages, page_of: Callable[..., Page]
) -> None:
    tree = parsed(renderer.page(page_of("", kind), site))
    for element in tree.iter():
        address = element.get("src") or (
            element.get("href") if element.tag == XHTML + "link" else None
        )
        if address is not None and element.get("rel") not in ("canonical", "alternate"):
            assert not re.match(r"[a-z]+:|//", address), address


def test_the_policy_of_the_page_allows_only_its_own_files(
    renderer: Renderer, site: SitePages, page_of: Callable[..., Page]
) -> None:
    tree = parsed(renderer.page(page_of(), site))
    policy = next(e.get("content") for e in tree.iter(XHTML + "meta") if e.get("http-equiv"))
    assert policy is not None
    rules = dict(part.strip().split(" ", 1) for part in policy.split(";"))
    assert rules["default-src"] == "'none'"
    assert rules.pop("font-src") == "'self' data:", (
        "cut fonts stand in the style sheet itself; a font runs nothing"
    )
    assert {v for k, v in rules.items() if k.endswith("-src")} == {"'none'", "'self'"}
    assert not list(tree.iter(XHTML + "style"))
    inline = [e for e in tree.iter(XHTML + "script") if e.text]
    assert all(e.get("type") == "application/ld+json" for e in inline)


BAD_LINKS = (
    "javascript:alert(1)",
    "JaVaScRiPt:alert(1)",
    "java\tscript:alert(1)",
    " javascript:alert(1)",
    "data:text/html,<script>alert(1)</script>",
    "vbscript:x",
    "file:///etc/passwd",
    "//evil.example/x",
    "/\\evil.example/x",
    "\\\\evil.example/x",
)
GOOD_LINKS = (
    "https://shop.example/a?b=1&c=2",
    "http://shop.example/",
    "mailto:bench@quill.example",
    "#weight",
)


def _links(renderer: Renderer, site: SitePages, target: str) -> list[str | None]:
    written = f"[a]({target}) [b](<{target}>) <{target}>"
    section = Section("s", "S", (Paragraph((Span("c", target),)), Bullets(((Markdown(written),),))))
    tree = parsed(renderer.page(Page("a/index.html", "rules", "T", "", (section,)), site))
    main = next(tree.iter(XHTML + "main"))
    return [e.get("href") for e in main.iter(XHTML + "a") if e.get("class") != "here"]


@pytest.mark.parametrize("target", BAD_LINKS)
def test_links_that_run_or_leave_are_not_made(
    target: str, renderer: Renderer, site: SitePages
) -> None:
    for href in _links(renderer, site, target):
        assert href is not None
        cleaned = re.sub(r"[\x00-\x20]", "", href).casefold()
        assert not re.match(r"(javascript|data|vbscript|file):|[/\\]{2}", cleaned), href


def test_control_characters_hide_no_scheme() -> None:
    assert not allowed_link("\x01javascript:alert(1)")
    assert not allowed_link("java\u200bscript:alert(1)")


@pytest.mark.parametrize("target", GOOD_LINKS)
def test_links_of_the_allowed_kinds_are_made(
    target: str, renderer: Renderer, site: SitePages
) -> None:
    assert _links(renderer, site, target).count(target) >= 2


def test_relative_links_follow_the_depth_of_the_page(renderer: Renderer, site: SitePages) -> None:
    section = Section("s", "S", (Paragraph((Span("c", "rules/index.html"),)),))
    for address, root in (
        ("index.html", ""),
        ("a/index.html", "../"),
        ("compare/a/b/index.html", "../../../"),
    ):
        text = renderer.page(Page(address, "rules", "T", "", (section,)), site).decode()
        assert f"href={root}rules/index.html>c</a>" in text
        assert f'href="{root}assets/sheet.css"' in text


def test_raw_html_in_prose_is_shown_not_obeyed(renderer: Renderer, site: SitePages) -> None:
    section = Section("s", "S", (blocks.Prose("<b>bold</b> ![x](https://evil.example/x.png)"),))
    tree = parsed(renderer.page(Page("a/index.html", "rules", "T", "", (section,)), site))
    assert "<b>bold</b>" in "".join(tree.itertext())
    assert not list(tree.iter(XHTML + "img"))
