"""What it takes to turn one build into the other: to keep, to buy, to unsolder and solder, and what
might stay.
"""

from collections.abc import Iterable

from builder.compute.compare.difference import Difference
from builder.compute.power_up.emptied import battery_empty
from builder.model.build import Build
from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    Fold,
    Inline,
    Paragraph,
    Span,
    Table,
)
from builder.pages.compare.turning_row import turning_table
from builder.pages.numbers import cell, number
from builder.pages.rows import table_columns, table_row
from builder.pages.rule_address import rule_address
from builder.rules.could_stay import Stay

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


def _lost(text: str) -> str:
    """A join that the part has no contact for, or a contact that nothing feeds."""
    return f"no contact for {text}" if text.startswith(("wire ", "plug ")) else text


def _why(stay: Stay) -> Cell:
    """What the rules found against it, else what they looked at."""
    if stay.lost:
        more = f" and {len(stay.lost) - 1} more" if len(stay.lost) > 1 else ""
        return cell(f"{_lost(stay.lost[0])}{more}")
    unknown = f"not known: {', '.join(stay.lacking)}" if stay.lacking else ""
    if stay.new:
        worst = stay.new[0]
        others = len(stay.new) - 1
        findings = "findings" if others > 1 else "finding"
        more = f" and {others} more {findings}" if others else ""
        code = Span(worst.code, rule_address(worst.code), code=True)
        note = "" if stay.answer == "no" else unknown
        return Cell((Span(f"{worst.message} "), code, Span(more)), note=note)
    words = (
        f"found right: {', '.join(stay.passed)}"
        if stay.passed
        else "no rule looks at how it fits there"
    )
    return cell(words, note=unknown)


def _answer(stay: Stay) -> Cell:
    if stay.answer == "no":
        return Cell((Span("no"),), tone="bad")
    if stay.answer == "not known":
        return cell("not known")
    return cell("yes, with a remark") if stay.new else Cell((Span("yes"),), tone="good")


def _stays_title(a: Build, stays: tuple[Stay, ...]) -> str:
    """The question with how many of them could, so that it need not be opened for that."""
    answers = [s.answer for s in stays]
    many = f"{answers.count('yes')} of {len(answers)}"
    open_ones = answers.count("not known")
    unknown = f", of {open_ones} it is not known" if open_ones else ""
    return f"Could parts of {a.name} stay as they are? {many} could{unknown}"


def _stays(a: Build, b: Build, stays: tuple[Stay, ...]) -> list[Block]:
    """Parts and packs of the first build that would do in the second, with the rules' reasons."""
    if not stays:
        return []
    heads = table_columns("Place", f"What {a.name} has there", f"Fits {b.name}", "By the rules")
    rows = tuple(table_row(s.key, s.label, _answer(s), _why(s)) for s in stays)
    note = "Each is tried alone, all else as in the build that is made. "
    note += (
        "Whether there is room for it in the frame is not checked: hold it against the place before"
        " you decide."
    )
    table = Table(f"Parts of {a.name} on {b.name}", heads, rows, stack=True, note=note)
    return [Fold(_stays_title(a, stays), (table,), paper=False)]


def turning_blocks(
    found: Difference, a: Build, b: Build, stays: tuple[Stay, ...]
) -> tuple[Block, ...]:
    """The way from the first build to the second, with what was worked out of the parts that might
    stay.
    """
    way = found.conversion
    words = (
        "Money is for whole bags, without spares, postage and what is left over; it is not the"
        " difference of the totals."
    )
    if found.work.time is not None:
        words += (
            " Hours are by usual times (from memory), the gates of the first power-up included."
        )
    blocks: list[Block] = [turning_table(found), Paragraph((Span(words),))]
    buy = []
    for p in way.buy:
        price = number(p.price, decimals=2)
        bag = f" (sold as {p.bought})" if p.bought != p.needed else ""
        costs = " ".join(w for w in (price.value, price.unit) if w)
        buy.append(f"{p.needed} x {p.label}{bag}, {costs}")
    blocks += folded("To buy", buy)
    if way.keep:
        lines = Bullets(tuple((Span(f"{n} x {name}"),) for name, n in way.keep))
        blocks.append(
            Fold(f"What carries over ({len(way.keep)})", (lines,), paper=False, alike=True)
        )
    blocks += folded("Left over", (f"{n} x {name}" for name, n in way.left_over))
    loose, made = found.work.loose, found.work.made
    blocks += folded("Wires to unsolder", loose)
    blocks += folded("Wires to solder", made)
    blocks += _stays(a, b, stays)
    blocks += folded("To unplug", (p.text for p in found.plugs if not p.second))
    blocks += folded("To plug", (p.text for p in found.plugs if not p.first))
    if loose or made:
        words = (
            "Unplug the battery and take it off; take the propellers off. "
            f"Wait until {battery_empty(a, ())} before the iron comes near. "
            "Then go through the gates of the first power-up again."
        )
        blocks.append(Paragraph((Span(words),)))
    return tuple(blocks)
