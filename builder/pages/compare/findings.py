"""What the rules and the limits say of one of two builds and not of the other."""

from collections.abc import Sequence

from builder.diagnostics.finding import Finding
from builder.pages.blocks import Block, Bullets, Inline, Paragraph, Span
from builder.pages.finding_words import sentence_pieces
from builder.pages.rule_address import rule_address
from builder.pages.sheet_input import SheetInput

MOST = 12


def _kept(sheet: SheetInput) -> dict[str, dict[str, bool | None]]:
    """By limit and pack whether it is kept, None where that is not known."""
    out: dict[str, dict[str, bool | None]] = {}
    for m in sheet.results.margins:
        out.setdefault(m.limit.name, {})[m.pack] = m.within
    return out


def _known(packs: dict[str, bool | None]) -> dict[str, bool]:
    """Those packs with which it is known whether a limit is kept."""
    return {pack: within for pack, within in packs.items() if within is not None}


def _unknown_clause(limit: str, sides: Sequence[tuple[str, dict[str, bool | None]]]) -> str:
    """Of which build it is not known whether it keeps a limit; empty where all is known."""
    lacking = [name for name, packs in sides if len(_known(packs)) < len(packs)]
    if not lacking:
        return ""
    return (
        f"whether {' and '.join(lacking)} {'keep' if len(lacking) > 1 else 'keeps'} {limit} is not"
        " known"
    )


def _with(packs: dict[str, bool]) -> str:
    """The packs with which a limit is kept, in words."""
    keeps = [k for k, within in packs.items() if within]
    if len(packs) == 1:
        return "" if keeps else "not"
    if len(keeps) == len(packs):
        return "with every battery"
    return f"with {' and '.join(keeps)} only" if keeps else "with none"


def _clause(limit: str, sides: Sequence[tuple[str, dict[str, bool]]]) -> str:
    """Who keeps a limit and who does not, the one that keeps more first."""
    (more, most), (less, least) = sorted(sides, key=lambda s: -sum(s[1].values()) / len(s[1]))
    how, other = _with(most), _with(least)
    if other == "not":
        return f"{more} keeps {limit}{f' {how}' if how else ''}, {less} does not"
    return f"{more} keeps {limit}{f' {how}' if how else ''}, {less} {other}".rstrip()


def limit_sentences(first: SheetInput, second: SheetInput) -> tuple[str, ...]:
    """A clause for each limit that one of them keeps with other packs than the other, or of which
    that is not known.
    """
    a, b = _kept(first), _kept(second)
    out: list[str] = []
    for limit in a:
        if limit not in b:
            continue
        unknown = _unknown_clause(
            limit, ((first.build.name, a[limit]), (second.build.name, b[limit]))
        )
        if unknown:
            out.append(unknown)
            continue
        one, two = _known(a[limit]), _known(b[limit])
        shares = [sum(x.values()) / len(x) for x in (one, two)]
        if shares[0] == shares[1] and all(one[k] == two[k] for k in set(one) & set(two)):
            continue
        out.append(_clause(limit, ((first.build.name, one), (second.build.name, two))))
    return tuple(out)


def _only(one: SheetInput, other: SheetInput) -> tuple[Finding, ...]:
    """Findings of the first that the second has not. Messages that name the build itself count as
    the same.
    """
    there = {(f.code, f.message.replace(other.build.name, "")) for f in other.verdict.findings}
    found = (
        f
        for f in one.verdict.findings
        if (f.code, f.message.replace(one.build.name, "")) not in there
    )
    return tuple(dict.fromkeys(found))


def finding_words(first: SheetInput, second: SheetInput) -> tuple[str, ...]:
    """One clause on how many findings are found of one alone; none where the rules say the same of
    both.
    """
    counts = len(_only(first, second)), len(_only(second, first))
    if counts == (0, 0):
        return ()
    told = [
        f"{_things(n)} of {x.build.name} alone"
        for n, x in zip(counts, (first, second), strict=True)
    ]
    return (f"the checks find {' and '.join(told)}",)


def _things(count: int) -> str:
    if not count:
        return "nothing"
    return "1 thing" if count == 1 else f"{count} things"


def finding_blocks(first: SheetInput, second: SheetInput) -> tuple[Block, ...]:
    """Lists of what is found of one alone."""
    out: list[Block] = []
    for one, other in ((first, second), (second, first)):
        found = _only(one, other)
        if not found:
            continue
        items: list[tuple[Inline, ...]] = []
        for f in found[:MOST]:
            code = Span(f.code, rule_address(f.code), code=True)
            items.append((*sentence_pieces(f.message, one, one.build.name), Span(" "), code))
        if len(found) > MOST:
            items.append((Span(f"and {len(found) - MOST} more, on its own sheet"),))
        out += [Paragraph((Span(f"Only of {one.build.name}", strong=True),)), Bullets(tuple(items))]
    return tuple(out) or (Paragraph((Span("The rules and limits say the same of both."),)),)
