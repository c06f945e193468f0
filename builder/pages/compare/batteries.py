"""Figures of two builds by what their batteries are for, and what is not compared so. The page for any
two makes the same tables in the browser.
"""

from builder.compute.compare.difference import Difference
from builder.compute.compare.purposes import BatteryUse, UsePair, purposes_of, unused
from builder.compute.results import Results
from builder.model.build import Build
from builder.pages.blocks import Block, Bullets, Paragraph, Span, Table
from builder.pages.compare.rows import figure_heads, figure_row
from builder.pages.rows import table_row

SAME, ANOTHER = "the same", "another"
UNSAID = "Not compared by this"
_NONE = {
    "lightest": "has no battery of known weight, so nothing is compared as lightest",
    "longest": "has no battery of known time in the air, so nothing is compared as longest",
    "as flown": "has no logged flight, so nothing is compared as flown",
}
_LACKS = {"lightest": "its weight is not known", "longest": "its time in the air is not known"}


def battery_words(build: Build, pack: str) -> str:
    """A battery by its name in the build and by what it is."""
    return f"{pack}: {build.packs[pack].part.name}"


def _caption(use: UsePair, found: Difference) -> str:
    names = " and ".join(use.purposes)
    (one, other), (first, second) = use.packs, (found.first, found.second)
    return f"{names[0].upper()}{names[1:]}: {first} on {one}, {second} on {other}"


def use_tables(found: Difference, a: Build, b: Build) -> tuple[Table, ...]:
    """A table for each purpose that both have a battery for."""
    heads = figure_heads(a.name, b.name)
    out = []
    for use in found.uses:
        one, other = use.packs
        same = a.packs[one].shelf == b.packs[other].shelf
        words = battery_words(a, one), battery_words(b, other), SAME if same else ANOTHER
        first = table_row("Battery", *words, anchor=f"battery-{use.key}")
        pairs = (p for p in found.flight if p.key.endswith(f"/{use.key}"))
        rows = (first, *(figure_row(p, a.name, b.name) for p in pairs))
        caption = _caption(use, found)
        out.append(Table(caption, heads, rows, f"on-{use.key}", stack=True))
    return tuple(out)


def _note(build: Build, use: BatteryUse) -> list[str]:
    said = [
        f"Battery {pack} of {build.name}: {_LACKS[use.purpose]}, so it is not looked at as"
        f" {use.purpose}."
        for pack in use.not_known
    ]
    return said if use.pack else [*said, f"{build.name} {_NONE[use.purpose]}."]


def use_notes(build: Build, results: Results) -> tuple[str, ...]:
    """What a comparison by purposes leaves out of one build."""
    uses = purposes_of(build, results)
    said = [words for use in uses for words in _note(build, use)]
    left = (f"Battery {pack} of {build.name} serves none of these." for pack in unused(build, uses))
    return (*said, *left)


def unsaid_blocks(notes: tuple[str, ...]) -> tuple[Block, ...]:
    """A list of what is left out; nothing where nothing is."""
    if not notes:
        return ()
    lines = Bullets(tuple((Span(words),) for words in notes))
    return Paragraph((Span(UNSAID, strong=True),)), lines
