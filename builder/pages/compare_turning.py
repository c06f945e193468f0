"""What it takes to turn one build into the other: to keep, to buy, to unsolder and solder, and what might stay."""

from collections.abc import Iterable

from builder.compute.difference import Difference
from builder.model.build import Build
from builder.pages.blocks import Block, Bullets, Fold, Inline, Paragraph, Span
from builder.pages.numbers import money, number
from builder.pages.sheet_input import SheetInput
from builder.rules.could_stay import Stay, could_stay

MOST = 20
SHORT = 6  # lines that stand open; a page is to print on two sheets


def listed(heading: str, items: Iterable[str]) -> list[Block]:
    """A heading and a list of at most MOST lines; nothing for no lines."""
    lines = tuple(items)
    if not lines:
        return []
    shown: list[tuple[Inline, ...]] = [(Span(i),) for i in lines[:MOST]]
    if len(lines) > MOST:
        shown.append((Span(f"and {len(lines) - MOST} more"),))
    return [Paragraph((Span(heading, strong=True),)), Bullets(tuple(shown))]


def folded(heading: str, items: Iterable[str]) -> list[Block]:
    """As `listed`, but a long list stays closed until it is asked for, on paper too, and is whole."""
    lines = tuple(items)
    if len(lines) <= SHORT:
        return listed(heading, lines)
    bullets = Bullets(tuple((Span(i),) for i in lines))
    return [Fold(f"{heading} ({len(lines)})", (bullets,), paper=False)]


def _touched(build: Build, keys: set[str], changed: set[tuple[str, str]]) -> tuple[str, ...]:
    """Wires that end at a part that is changed, and wires that the other build lacks or has otherwise."""
    out = []
    for run in build.wires:
        low, high = sorted((str(run.start), str(run.end)))
        if {run.start.part, run.end.part} & keys or (low, high) in changed:
            out.append(f"{low} to {high}")
    return tuple(out)


def _stay(stay: Stay, b: str) -> str:
    start = f"{stay.key}: {stay.label} in {b}"
    if stay.lost:
        return f"{start} leaves {len(stay.lost)} joins without a contact, such as {stay.lost[0]}"
    if stay.new:
        more = f" (and {len(stay.new) - 1} more)" if len(stay.new) > 1 else ""
        return f"{start}: {stay.new[0].message}{more}"
    return f"{start}: the rules find nothing new"


def turning_blocks(found: Difference, first: SheetInput, second: SheetInput) -> tuple[Block, ...]:
    """The way from the first build to the second."""
    way, a, b = found.conversion, first.build, second.build
    keep = sum(n for _, n in way.keep)
    least = "at least " if way.cost.lacks else ""
    words = f"{keep} pieces carry over. What has to be bought costs {least}{money(way.money)}, "
    words += "whole bags, without spares, postage and what is left over; it is not the difference of the totals."
    blocks: list[Block] = [Paragraph((Span(words),))]
    buy = []
    for p in way.buy:
        price = number(p.price, decimals=2)
        bag = f" (sold as {p.bought})" if p.bought != p.needed else ""
        buy.append(f"{p.needed} x {p.label}{bag}, {' '.join(w for w in (price.value, price.unit) if w)}")
    blocks += folded("To buy", buy)
    blocks += folded("Left over", (f"{n} x {name}" for name, n in way.left_over))
    gone = {p.keys[0] for p in found.parts if p.how in ("swapped", "dropped")}
    new = {p.keys[1] for p in found.parts if p.how in ("swapped", "added")}
    changed = {c.ends for c in found.wiring if c.differs}
    loose, made = _touched(a, gone, changed), _touched(b, new, changed)
    blocks += folded("Wires to unsolder", loose)
    blocks += folded("Wires to solder", made)
    blocks += folded("To unplug", (p.text for p in found.plugs if not p.second))
    blocks += folded("To plug", (p.text for p in found.plugs if not p.first))
    if loose or made:
        words = "Take the pack off before the iron comes near; then go through the gates of the first power-up again."
        blocks.append(Paragraph((Span(words),)))
    stays = could_stay(a, b, second.verdict)
    if stays:
        blocks += listed(f"Could parts of {a.name} stay instead?", (_stay(s, b.name) for s in stays))
        words = "Whether it fits in the frame is not said here: hold it against the place before you decide."
        blocks.append(Paragraph((Span(words),), quiet=True))
    return tuple(blocks)
