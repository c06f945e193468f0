"""The words of a text in Markdown, for where no mark can be shown: a feed, a description, a title."""

from functools import cache

from markdown_it.token import Token

from builder.model.guide.markdown_parser import chapter_parser


def _words(tokens: list[Token]) -> str:
    out: list[str] = []
    for token in tokens:
        if token.children:
            out.append(_words(token.children))
        elif token.type in ("text", "code_inline", "fence", "code_block"):
            out.append(token.content)
        elif token.type in ("softbreak", "hardbreak") or (token.type.endswith("_close") and token.block):
            out.append(" ")
    return "".join(out)


@cache
def plain_words(text: str) -> str:
    """The text without marks, on one line."""
    return " ".join(_words(chapter_parser().parse(text)).split())
