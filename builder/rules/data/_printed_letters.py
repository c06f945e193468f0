"""Which letters the fonts of bench sheets have, read from the fonts themselves.

The fonts are named again where they are used, in builder/render/assets.py and paper_fonts.py; a test
holds the two together.
"""

import unicodedata
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from builder.diagnostics.where import KeyPath

_SANS = "fontpkg_ibm_plex_sans_condensed"
_STYLES = (  # a text may be set in each of them
    (_SANS, "IBMPlexSansCondensed-Regular.ttf"),
    (_SANS, "IBMPlexSansCondensed-Italic.ttf"),
    (_SANS, "IBMPlexSansCondensed-SemiBold.ttf"),
)
_GREEK = ("fontpkg_ibm_plex_sans", "IBMPlexSans[wdth,wght].ttf")
_GREEK_LETTERS = range(0x0370, 0x0400)
_UNSEEN = ("Cc", "Cf", "Zs", "Zl", "Zp")  # categories that leave no mark, so no box either


def _font(package: str, file: str) -> frozenset[int]:
    from fontTools.ttLib import TTFont  # a tenth of a second, for rare letters only

    spec = find_spec(package)
    if spec is None or spec.origin is None:
        return frozenset()
    path = Path(spec.origin).parent / "files" / file
    with TTFont(path, lazy=True) as font:
        return frozenset(font.getBestCmap())


@cache
def printed_letters() -> frozenset[int]:
    """The code points that are printed as letters in every style; empty where no font is installed."""
    styles = [_font(*style) for style in _STYLES]
    greek = _font(*_GREEK).intersection(_GREEK_LETTERS)
    common = frozenset.intersection(*styles)
    return common | greek if common else common


def is_common(text: str) -> bool:
    """Plain letters of the west, which every font of ours has: most texts are read no further."""
    return text.isascii() or all(c < "\x80" or "\xa1" <= c <= "\xff" for c in text)


def unprinted_in(text: str) -> str:
    """The letters of a text that would print as boxes, each once; none where the fonts are unknown."""
    known = printed_letters()
    letters = dict.fromkeys(unicodedata.normalize("NFC", text))
    rare = [c for c in letters if unicodedata.category(c) not in _UNSEEN]
    return "".join([c for c in rare if known and ord(c) not in known])


def texts_of(tree: Any, path: KeyPath = ()) -> Iterator[tuple[KeyPath, bool, str]]:
    """Each text of a tree with its place: its path, whether it is a key, and the text."""
    if isinstance(tree, str):
        yield path, False, tree
    elif isinstance(tree, Mapping):
        for key, value in tree.items():
            yield (*path, key), True, str(key)
            yield from texts_of(value, (*path, key))
    elif isinstance(tree, list | tuple):
        for i, value in enumerate(tree):
            yield from texts_of(value, (*path, i))
