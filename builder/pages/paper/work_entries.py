"""The lines of the work as paper takes them: which are work at one board, and how many lines they
take.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from builder.compute.joints.joints import Joint
from builder.compute.order.steps.work_step import Why, WorkStep
from builder.compute.order.work_order import Plan
from builder.model.build import Contact
from builder.pages.blocks import Block, GateBar, Span, Step, Steps
from builder.pages.page_text import words
from builder.pages.paper.pad_table import Soldering
from builder.pages.paper.plug_table import plugged_words
from builder.pages.sheet_input import SheetInput
from builder.pages.work.plan_items import plan_items

_LETTERS = 70  # of a line of the steps beside a drawing
_PICTURE = 7  # lines that a picture takes
_PAUSE = 3  # lines from one to the next at a board, from which on they are two pieces of work
_BETWEEN = 3  # lines of other work between two boards that share a table
_TOGETHER = 22  # lines that the work at boards which share a table takes at most


@dataclass(frozen=True)
class Entry:
    """A line of the work: how it is shown, and the steps of the plan that it is."""

    shown: Step | GateBar
    steps: tuple[WorkStep, ...]

    @property
    def joints(self) -> tuple[Joint, ...]:
        """What is soldered in it."""
        return tuple(s.joint for s in self.steps if s.joint is not None)

    @property
    def boards(self) -> frozenset[str]:
        """The boards that the iron touches in it."""
        soldered = {j.board for j in self.joints}
        return frozenset(soldered | {s.board for s in self.steps if s.do == "tin" and s.board})

    @property
    def number(self) -> str:
        """Its number on the sheet."""
        return self.shown.number if isinstance(self.shown, Step) else ""


def entries(sheet: SheetInput, plan: Plan) -> tuple[Entry, ...]:
    """All lines of the work in order."""
    items = plan_items(sheet, paper=True)
    return tuple(Entry(i, g.steps) for i, g in zip(items, plan.groups, strict=True))


def _kept_reason(sheet: SheetInput, plan: Plan, steps: Sequence[WorkStep]) -> bool:
    """Whether paper says why a line stands where it does: the builder's own words, or safety."""
    owns = [sheet.build.source.steps[s.own] for s in steps if s.own is not None]
    if any(own.reason for own in owns):
        return True
    waits = [plan.waits_for(s.id) for s in steps]
    return any(w is not None and w.why is Why.SAFETY for w in waits)


def _alike(shown: Step) -> Step:
    """Parts that read the same, whose readings are named once, so that two parts share a line."""
    labels = {tuple((w.label, w.expect, w.unit) for w in p.write_ins) for p in shown.parts}
    if len(shown.parts) < 2 or len(labels) != 1:
        return shown
    (told,) = labels
    if not told:
        return shown
    names = [f"{label} ({expect})" for label, expect, _ in told]
    said = Span(f" Write down {', then '.join(names)}.")
    parts = (
        replace(p, write_ins=tuple(replace(w, label="", expect="") for w in p.write_ins))
        for p in shown.parts
    )
    return replace(shown, text=(*shown.text, said), parts=tuple(parts))


def _with_contacts(sheet: SheetInput, shown: Step, entry: Entry) -> Step:
    """A step that plugs something in, with the contacts that meet where no table says them."""
    said = [Span(plugged_words(sheet, s)) if s.do == "plug" else None for s in entry.steps]
    if not shown.parts:
        return replace(shown, text=(*shown.text, *filter(None, said[:1])))
    pairs = zip(shown.parts, said, strict=False)
    parts = (replace(p, text=(*p.text, *filter(None, (more,)))) for p, more in pairs)
    return replace(shown, parts=tuple(parts))


def as_printed(sheet: SheetInput, plan: Plan, entry: Entry) -> Step | None:
    """A step without what stands in the table of its board; None for a gate."""
    shown = entry.shown
    if not isinstance(shown, Step):
        return None
    reason = shown.reason if _kept_reason(sheet, plan, entry.steps) else ""
    if not entry.joints:
        return _alike(_with_contacts(sheet, replace(shown, reason=reason), entry))
    pairs = list(zip(shown.parts, entry.steps, strict=False))
    parts = tuple(part for part, step in pairs if step.joint is None)
    return replace(shown, reason=reason, facts=(), parts=parts)


def between_gates(found: Sequence[Entry]) -> Iterator[tuple[list[Entry], Entry | None]]:
    """The lines up to each gate with that gate, then the rest."""
    run: list[Entry] = []
    for entry in found:
        if isinstance(entry.shown, GateBar):
            yield run, entry
            run = []
        else:
            run.append(entry)
    yield run, None


def _soldered(found: Sequence[Entry]) -> set[str]:
    return {j.board for e in found for j in e.joints}


def _pieces(at: Sequence[int]) -> Iterator[tuple[int, int]]:
    """The lines at a board without long pauses: what is soldered before it is turned or mounted is a
    piece of its own.
    """
    first = last = at[0]
    for place in at[1:]:
        if place - last > _PAUSE:
            yield first, last
            first = place
        last = place
    yield first, last


def _overlapping(run: Sequence[Entry]) -> list[tuple[int, int]]:
    """From the first to the last line in which each board is soldered; those that overlap are one."""
    spans: list[tuple[int, int]] = []
    for board in _soldered(run):
        spans += _pieces([i for i, e in enumerate(run) if board in e.boards])
    merged: list[tuple[int, int]] = []
    for first, last in sorted(spans):
        if merged and first <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(last, merged[-1][1]))
        else:
            merged.append((first, last))
    return [span for span in merged if _soldered(run[span[0] : span[1] + 1])]


def by_board(run: Sequence[Entry]) -> dict[str, list[Joint]]:
    """The joints of a run by their boards, in the order of the steps."""
    out: dict[str, list[Joint]] = {}
    for joint in (j for e in run for j in e.joints):
        out.setdefault(joint.board, []).append(joint)
    return out


def solderings(run: Sequence[Entry]) -> dict[Contact, Soldering]:
    """Where each contact of a run is soldered."""
    return {
        step.joint.contact: Soldering(entry.number, step)
        for entry in run
        for step in entry.steps
        if step.joint is not None
    }


def _lines_of_caution(step: Step) -> int:
    """About how many lines it takes what to take care of at a step or a part of one."""
    letters = (len(c.title) + len(words(c.pieces)) for c in step.cautions)
    return sum(1 - (-many // _LETTERS) for many in letters)


def lines_of_steps(run: Sequence[Entry], *, cautions: bool = True) -> int:
    """About how many lines steps take beside a drawing."""
    total = 0
    for entry in run:
        shown = entry.shown
        if not isinstance(shown, Step):
            continue
        pairs = zip(shown.parts, entry.steps, strict=False)
        parts = [part for part, step in pairs if step.joint is None]
        told = [shown, *parts]
        total += sum(1 + len(words(s.text) + s.reason) // _LETTERS for s in told)
        total += sum(map(_lines_of_caution, (shown, *shown.parts))) if cautions else 0
        total += _PICTURE if shown.picture is not None else 0
    return total


def lines_printed(blocks: Iterable[Block]) -> int:
    """About how many lines steps take that are printed as they stand."""
    items = [item for b in blocks if isinstance(b, Steps) for item in b.items]
    told = [each for s in items if isinstance(s, Step) for each in (s, *s.parts)]
    lines = sum(1 + len(words(s.text) + s.reason) // _LETTERS for s in told)
    lines += sum(map(_lines_of_caution, told))
    return lines + sum(_PICTURE for s in told if s.picture is not None)


def _lines(run: Sequence[Entry]) -> int:
    """About how many lines the work at boards takes: its steps, then a row a joint. What to take
    care of at a first joint parts no boards.
    """
    return lines_of_steps(run, cautions=False) + 4 + sum(len(e.joints) for e in run)


def spans_at_boards(run: Sequence[Entry]) -> list[tuple[int, int]]:
    """The between_gates of work at boards. Small boards that follow each other share one table."""
    joined: list[tuple[int, int]] = []
    for first, last in _overlapping(run):
        if joined:
            between = run[joined[-1][1] + 1 : first]
            whole = run[joined[-1][0] : last + 1]
            plain = all(s.do != "plug" for e in between for s in e.steps)
            if plain and len(between) <= _BETWEEN and _lines(whole) <= _TOGETHER:
                joined[-1] = (joined[-1][0], last)
                continue
        joined.append((first, last))
    return joined
