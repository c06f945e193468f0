"""A first build from a list of parts: which parts it has, and nothing that nobody said."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType

from builder.model.read.new_build import title_of
from builder.pipeline.sources.list_rows import RowPart

_SIGNS_OF_MONEY: Mapping[str, str] = MappingProxyType({"$": "USD", "€": "EUR", "£": "GBP"})
_CALLED: Mapping[str, str] = MappingProxyType(
    {
        "flight-controller": "controller",
        "combined-board": "board",
        "speed-controller": "esc",
        "video-transmitter": "video",
        "pack": "battery",
    }
)
_HEAD = """\
# {title}, begun from a list of parts. Written by `benchleaf add parts`; change it as you like.
# `benchleaf check {name} --unchecked` says which fact to give next. Wires come below `wires:`, as in
# wires:
#   - {{from: camera.5V, to: controller.5V, colour: red, gauge: 28 AWG, length: 60 mm}}

"""


def first_build(name: str, parts: Iterable[RowPart]) -> str:
    """The text of a build with these parts and packs."""
    title = title_of(name)
    fitted: dict[str, str] = {}
    packs: dict[str, str] = {}
    for part in parts:
        kind = str(part.tree["kind"])
        group = packs if kind == "pack" else fitted
        wanted = _CALLED.get(kind, kind)
        key = part.name.replace(".", "-") if wanted in group else wanted
        count = f", count: {part.count}" if part.count != 1 else ""
        group[key if key not in group else f"{key}-{len(group)}"] = f"{{use: {part.name}{count}}}"
    lines = [
        f"title: {title}",
        "status: planned",
        *_group("parts", fitted),
        *_group("packs", packs),
    ]
    return _HEAD.format(title=title, name=name) + "".join(f"{line}\n" for line in lines)


def _group(key: str, entries: Mapping[str, str]) -> Iterator[str]:
    """A group with an entry a line; nothing for one without entries."""
    yield from (f"{key}:",) if entries else ()
    yield from (f"  {name}: {use}" for name, use in entries.items())


def first_settings(parts: Iterable[RowPart]) -> str:
    """Settings for a workspace that has none: a title, and the currency that the list counts in."""
    prices = (part.tree.get("price", {}).get("each", "") for part in parts)
    codes = Counter(code for price in prices if (code := _code(str(price))))
    most = codes.most_common(1)
    line = f"currency: {most[0][0]}\n" if most else ""
    return f"title: Our build sheets\n{line}"


def _code(price: str) -> str:
    """The ISO 4217 code that a price is written with, or stands for with one of its usual signs."""
    sign = next((code for sign, code in _SIGNS_OF_MONEY.items() if sign in price), "")
    letters = re.search(r"[A-Za-z]{3}", price)
    return sign or (letters[0].upper() if letters is not None else "")
