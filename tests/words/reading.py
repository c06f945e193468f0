"""All that a person reads, as blocks of text: pages, reference, messages, help, the demo's sources."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from html.parser import HTMLParser

_IN_TEXT = ("b", "p", "li", "td", "th", "dt", "dd", "h1", "h2", "h3", "h4", "small", "label")
_AROUND = ("div", "section", "tr", "table", "ul", "ol", "dl", "nav", "header", "footer", "main")
_OTHER = (
    "caption",
    "figcaption",
    "figure",
    "summary",
    "details",
    "title",
    "text",
    "button",
    "option",
)
BLOCKS = frozenset((*_IN_TEXT, *_AROUND, *_OTHER))
SPOKEN = ("alt", "title", "aria-label", "placeholder")
UNREAD = ("script", "style", "code", "pre")
WITHOUT_END = ("br", "img", "input", "meta", "link", "hr")
ROW_OF_FACTS = ("table", "figure", "svg", "dl")


@dataclass(frozen=True)
class Block:
    """A piece of text: where it was read, the tag around it, its words."""

    source: str
    tag: str
    text: str


class _Reader(HTMLParser):
    """Gathers the text of each block; what is code or script is left out, with a mark in its place."""

    def __init__(self, source: str) -> None:
        super().__init__(convert_charrefs=True)
        self.source = source
        self.blocks: list[Block] = []
        self._text: list[str] = []
        self._open: list[str] = []
        self._unread = 0

    def _end_block(self) -> None:
        text = " ".join("".join(self._text).split())
        self._text.clear()
        if text:
            self.blocks.append(Block(self.source, self._open[-1] if self._open else "", text))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if name in SPOKEN and value:
                self.blocks.append(Block(self.source, name, value))
        if tag in UNREAD:
            self._unread += 1
            self._text.append("`…`")
        if tag in BLOCKS:
            self._end_block()
            self._open.append(tag)
        elif tag == "br":
            self._text.append(" ")

    def handle_endtag(self, tag: str) -> None:
        if tag in UNREAD:
            self._unread -= 1
        if tag not in BLOCKS:
            return
        self._end_block()
        while tag in self._open and self._open.pop() != tag:
            pass

    def handle_data(self, data: str) -> None:
        if not self._unread:
            self._text.append(data)


def blocks_of_page(html: str, source: str) -> list[Block]:
    """The blocks of a page, in its order."""
    reader = _Reader(source)
    reader.feed(html)
    reader._end_block()
    return reader.blocks


_SENTENCE_END = re.compile(r"(?<!e\.i\.r\.p\.)(?<=[.!?])\)?\s+(?=[A-Z0-9\"'(])")


def sentences(text: str) -> Iterator[str]:
    """The sentences of a text: they end with a stop before a capital, a number or a bracket."""
    yield from (part for part in _SENTENCE_END.split(text) if part)


def length(sentence: str) -> int:
    """Words of a sentence: what blanks part; a number and its unit are one, a sign alone is none."""
    joined = re.sub(
        r"(?<=\d)\s+(?=(?:g|mm|m|s|min|ms|V|A|W|Wh|mAh|AWG|%|°C|Ω|kΩ|mΩ|EUR|dB|mW|MHz)\b)",
        "_",
        sentence,
    )
    joined = re.sub(r"\s*±\s*", "±", joined)
    return sum(any(c.isalnum() for c in word) for word in joined.split())
