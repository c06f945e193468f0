"""Markdown that a person wrote, as HTML: raw HTML off, links to http, https, mailto and relative
addresses only.
"""

import re
from functools import cache

from markdown_it import MarkdownIt
from markupsafe import Markup

_OTHER_HOST = re.compile(r"[/\\]{2}|\\")  # browsers read a backslash as a slash
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


@cache
def inline(text: str) -> Markup:
    """A line of Markdown without a paragraph around it."""
    return Markup(_parser().renderInline(text))


@cache
def markdown_blocks(text: str) -> Markup:
    """Paragraphs, lists and tables of Markdown."""
    return Markup(_parser().render(text))
