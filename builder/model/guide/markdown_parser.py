"""The one way in which chapters are parsed: CommonMark with tables, no raw HTML, and `{figure:KEY}`.

Every address is let through here: what reads a chapter judges each at its place, and what writes it
writes none that it does not know.
"""

import re
from functools import cache

from markdown_it import MarkdownIt
from markdown_it.rules_inline import StateInline

FIGURE = "figure"  # a token of ours: its content is the key
_FIGURE = re.compile(r"\{figure:([^{}\n]*)\}")


def _figure(state: StateInline, silent: bool) -> bool:
    """`{figure:KEY}` before any other rule could take a letter of the key for a mark."""
    if state.src[state.pos] != "{":
        return False
    found = _FIGURE.match(state.src, state.pos, state.posMax)
    if found is None:
        return False
    if not silent:
        token = state.push(FIGURE, "", 0)
        token.content = found[1].strip()
    state.pos = found.end()
    return True


def _any_address(url: str) -> bool:
    return True


@cache
def chapter_parser() -> MarkdownIt:
    """The parser. Nesting is bounded by the library; what it would drop is refused when it is read."""
    options = {"html": False, "linkify": False, "typographer": False}
    parser = MarkdownIt("commonmark", options).enable("table")
    parser.inline.ruler.before("escape", FIGURE, _figure)
    parser.validateLink = _any_address  # type: ignore[method-assign]
    return parser
