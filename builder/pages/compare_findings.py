"""What the rules and the limits say of one of two builds and not of the other."""

from builder.compute.limits import Margin
from builder.diagnostics.finding import Finding
from builder.pages.blocks import Block, Bullets, Inline, Paragraph, Span
from builder.pages.sheet_input import SheetInput

MOST = 12


def _margins(sheet: SheetInput) -> dict[tuple[str, str], Margin]:
    return {(m.limit.name, m.pack): m for m in sheet.results.margins}


def limit_words(first: SheetInput, second: SheetInput) -> tuple[str, ...]:
    """A clause for each limit that one of them keeps and the other does not, with packs of the same name."""
    a, b = _margins(first), _margins(second)
    out: list[str] = []
    for key in a:
        if key not in b or None in (a[key].within, b[key].within) or a[key].within == b[key].within:
            continue
        keeps, breaks = (first, second) if a[key].within else (second, first)
        pack = f" with {key[1]}" if key[1] else ""
        out.append(f"{keeps.build.name} keeps {key[0]}{pack}, {breaks.build.name} does not")
    return tuple(out[:3]) + ((f"{len(out) - 3} more limits differ likewise",) if len(out) > 3 else ())


def _only(one: SheetInput, other: SheetInput) -> tuple[Finding, ...]:
    """Findings of the first that the second has not. Messages that name the build itself count as the same."""
    there = {(f.code, f.message.replace(other.build.name, "")) for f in other.verdict.findings}
    found = (f for f in one.verdict.findings if (f.code, f.message.replace(one.build.name, "")) not in there)
    return tuple(dict.fromkeys(found))


def finding_words(first: SheetInput, second: SheetInput) -> tuple[str, ...]:
    """One clause on how many findings are found of one alone; none where the rules say the same of both."""
    counts = len(_only(first, second)), len(_only(second, first))
    if counts == (0, 0):
        return ()
    return (
        f"the rules say {counts[0]} things of {first.build.name} alone and {counts[1]} of {second.build.name} alone",
    )


def finding_blocks(first: SheetInput, second: SheetInput) -> tuple[Block, ...]:
    """Lists of what is found of one alone."""
    out: list[Block] = []
    for one, other in ((first, second), (second, first)):
        found = _only(one, other)
        if not found:
            continue
        items: list[tuple[Inline, ...]] = [
            (Span(f.message + " "), Span(f.code, f"rules/index.html#rule-{f.code.replace('/', '-')}", code=True))
            for f in found[:MOST]
        ]
        if len(found) > MOST:
            items.append((Span(f"and {len(found) - MOST} more, on its own sheet"),))
        out += [Paragraph((Span(f"Only of {one.build.name}", strong=True),)), Bullets(tuple(items))]
    return tuple(out) or (Paragraph((Span("The rules and limits say the same of both."),)),)
