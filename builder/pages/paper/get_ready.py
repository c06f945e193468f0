"""Get ready and cut: things, parts, wires, screws."""

from builder.compute.order.work_order import Plan
from builder.pages.blocks import Block, Illustration, Section, Span, Tick
from builder.pages.drawings.true_size import ruler, screw_silhouettes
from builder.pages.paper.bench_cuts import bench_cuts
from builder.pages.paper.bench_parts import bench_parts
from builder.pages.paper.ticked_lists import TickedLine, ticked_group, ticked_lists
from builder.pages.sections.before_you_start import things_to_lay_out
from builder.pages.sections.order_of_work import hours
from builder.pages.sheet_input import SheetInput
from builder.pages.work.bench_things import Thing


def _line(thing: Thing) -> TickedLine:
    """`Side cutters: flush, for copper only (step 6)`."""
    wanted = f" ({thing.wanted})".replace(" ", "\u00a0").replace("\u00a0", " ", 1)
    note = f": {thing.note}" if thing.note else ""
    said = f"{thing.name}{note}{wanted if thing.wanted else ''}"
    return (Tick(f"lay-{thing.key}"), Span(said))


def _things(sheet: SheetInput) -> Section:
    """What lies on the bench, with where it is first needed."""
    groups = [
        ticked_group(
            f"bench-lay-{heading.split()[-1].casefold()}", heading, list(map(_line, found))
        )
        for heading, found in things_to_lay_out(sheet)
    ]
    return Section("lay-out", "Get ready", (*_effort(sheet), *ticked_lists(groups)))


def _parts(sheet: SheetInput) -> Section:
    return Section("bench-parts", "Parts to get ready", bench_parts(sheet))


def _cutting(sheet: SheetInput) -> Section:
    """Wires to cut, then ruler and screws at true size, to lay things on."""
    blocks: list[Block] = []
    cuts = bench_cuts(sheet)
    if cuts is not None:
        blocks.append(cuts)
    blocks.append(Illustration(ruler(), "", true_size=True))
    screws = screw_silhouettes(sheet.build)
    if screws is not None:
        caption = (
            "Screws at true size where the bar is 100 mm long (heads near the standard of their shape):"
            " lay yours on them."
        )
        blocks.append(Illustration(screws, caption, true_size=True))
    return Section("cutting", "Wires to cut, screws to sort", tuple(blocks))


def _effort(sheet: SheetInput) -> tuple[Block, ...]:
    """How long a copier works, and what is hard about it."""
    plan = sheet.results.order
    return (hours(plan),) if isinstance(plan, Plan) else ()


def get_ready(sheet: SheetInput) -> tuple[Section, ...]:
    """All that lies on the bench before the first step."""
    return _things(sheet), _parts(sheet), _cutting(sheet)
