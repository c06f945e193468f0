"""WaysBack from the work and from the parts to the chapters that speak of them, and to the moments of a
recording.
"""

from collections.abc import Mapping
from dataclasses import replace

from builder.pages.blocks import Block, Inline, Row, Section, Span, Step, Steps, Table
from builder.pages.guide.guide_targets import guide_names, part_rows
from builder.pages.guide.recording_section import moment_address
from builder.pages.sheet_input import SheetInput

WaysBack = dict[str, tuple[Span, ...]]  # by the anchor of a step or of a part's row


def _anchor(address: str) -> str:
    return address.partition("#")[2]


def _add(ways: WaysBack, anchor: str, way: Span) -> None:
    if anchor and way not in ways.get(anchor, ()):
        ways[anchor] = (*ways.get(anchor, ()), way)


def ways_to_chapters(sheet: SheetInput) -> tuple[WaysBack, WaysBack]:
    """WaysBack from steps and from rows of parts, by anchor."""
    names, rows = guide_names(sheet), part_rows(sheet)
    steps: WaysBack = {}
    parts: WaysBack = {}
    for chapter in sheet.guide:
        for reference in chapter.references:
            below = f"#{reference.anchor}" if reference.anchor else ""
            way = Span(chapter.title, f"{chapter.page}{below}")
            if reference.kind == "step":
                _add(steps, _anchor(names.meant(reference) or ""), way)
            elif reference.kind == "part":
                _add(parts, rows.get(reference.name, ""), way)
    return steps, parts


def ways_to_moments(sheet: SheetInput) -> WaysBack:
    """WaysBack from steps to where a recording shows them."""
    ways: WaysBack = {}
    moments = [m for m in sheet.build.source.chapters if m.steps]
    if not moments:
        return ways
    steps = guide_names(sheet).by_kind["step"]
    for moment in moments:
        address = moment_address(sheet.build, moment)
        for step in moment.steps if address else ():
            _add(ways, _anchor(steps.get(step, "")), Span(moment.at, address))
    return ways


def _listed(ways: tuple[Span, ...]) -> tuple[Inline, ...]:
    out: list[Inline] = []
    for way in ways:
        out += [Span(", ")] if out else []
        out.append(way)
    return tuple(out)


def _step(step: Step, chapters: WaysBack, moments: WaysBack) -> Step:
    facts = list(step.facts)
    if step.anchor in chapters:
        facts.append(("Guide", _listed(chapters[step.anchor])))
    if step.anchor in moments:
        facts.append(("Recording", _listed(moments[step.anchor])))
    parts = tuple(_step(part, chapters, moments) for part in step.parts)
    return replace(step, facts=tuple(facts), parts=parts)


def _row(row: Row, parts: WaysBack) -> Row:
    """A row of the table of parts with the chapters at the end of its last cell."""
    if row.anchor not in parts:
        return row
    *first, last = row.cells
    said = last.pieces if any(getattr(p, "text", "-") for p in last.pieces) else ()
    before: tuple[Inline, ...] = (Span(" Guide: " if said else "Guide: "),)
    more = replace(last, pieces=(*said, *before, *_listed(parts[row.anchor])))
    return replace(row, cells=(*first, more))


def _block(
    block: Block | Section, steps: WaysBack, moments: WaysBack, parts: WaysBack
) -> Block | Section:
    match block:
        case Section():
            inner = tuple(_block(b, steps, moments, parts) for b in block.blocks)
            return replace(block, blocks=inner)
        case Steps():
            items = (_step(i, steps, moments) if isinstance(i, Step) else i for i in block.items)
            return replace(block, items=tuple(items))
        case Table() if parts:
            return replace(block, rows=tuple(_row(row, parts) for row in block.rows))
    return block


def with_ways_back(sheet: SheetInput, whole: Mapping[str, Section]) -> Mapping[str, Section]:
    """The sections with ways to chapters at steps and parts; the same ones where there are none."""
    steps, parts = ways_to_chapters(sheet) if sheet.guide else ({}, {})
    moments = ways_to_moments(sheet)
    out = dict(whole)
    if steps or moments:
        for anchor in ("order", "first-power-up"):
            made = _block(whole[anchor], steps, moments, {})
            out[anchor] = made if isinstance(made, Section) else whole[anchor]
    if parts:
        made = _block(whole["parts"], {}, {}, parts)
        out["parts"] = made if isinstance(made, Section) else whole["parts"]
    return out
