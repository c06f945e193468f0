"""Markdown that a person wrote, as HTML: raw HTML off, links to http, https, mailto and relative
addresses only.
"""

import re
from functools import cache

from markdown_it import MarkdownIt
from markupsafe import Markup

from builder.render.html.escaped import unit_bound

_OTHER_HOST = re.compile(r"[/\\]{2}|\\")  # browsers read a backslash as a slash
_CODE = re.compile(r"(<code.*?</code>|<[^>]*>)", re.S)  # and tags: both stay as they are
_HEADING = "h4"  # below a question, which is of level 3
_SCHEME = re.compile(r"[a-z][a-z0-9+.-]*:", re.I)


def allowed_link(url: str) -> bool:
    """Whether a link may stand on a page."""
    cleaned = "".join(c for c in url if c.isprintable() and not c.isspace())
    if _OTHER_HOST.match(cleaned):
        return False
    scheme = _SCHEME.match(cleaned)
    return scheme is None or scheme[0].casefold() in ("http:", "https:", "mailto:")


@cache
def _parser() -> MarkdownIt:
    parser = MarkdownIt(
        "commonmark", {"html": False, "linkify": False, "typographer": False}
    ).enable("table")
    parser.validateLink = allowed_link  # type: ignore[method-assign]
    return parser.disable("image")


def joined_units(html: str) -> Markup:
    """HTML whose units stay with their numbers, but for code, which is copied as it stands."""
    pieces = _CODE.split(html)
    return Markup("".join([p if i % 2 else unit_bound(p) for i, p in enumerate(pieces)]))


@cache
def inline(text: str) -> Markup:
    """A line of Markdown without a paragraph around it."""
    return joined_units(_parser().renderInline(text))


@cache
def markdown_blocks(text: str) -> Markup:
    """Paragraphs, lists and tables of Markdown. Its headings stand below that of the section around it."""
    parser = _parser()
    env: dict[str, object] = {}
    tokens = parser.parse(text, env)
    for token in tokens:
        if token.type in ("heading_open", "heading_close"):
            token.tag = _HEADING
        if token.type in ("th_open", "td_open"):
            token.attrs.pop("style", None)  # no page has styles of its own
    return joined_units(parser.renderer.render(tokens, parser.options, env))
