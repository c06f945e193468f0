"""First power-up in gates: what holds at all of them. Each begins and ends with the power off, and
the next waits until it has passed.
"""

from collections.abc import Iterator

from builder.compute.loops.matching import joined_packs, matching_words
from builder.compute.loops.plugging import first_plugged_in
from builder.compute.order.steps.power_steps import smallest_pack
from builder.compute.power_up.emptied import battery_empty
from builder.diagnostics.finding import Signal
from builder.pages.blocks import Block, Bullets, Notice, Paragraph, Section, Span
from builder.pages.sheet_input import SheetInput
from builder.pages.told_words import told_words
from builder.pages.work.gate_procedure import trip_notice


def _joined_lines(sheet: SheetInput) -> Iterator[str]:
    """What holds at each gate where batteries fly joined: measured first, then how they go in."""
    matching = matching_words(sheet.build)
    if matching is None:
        return
    yield f"{told_words(matching)} Write on each which one it is."
    for pack in joined_packs(sheet.build):
        yield f"At 'output on': {told_words(first_plugged_in(pack, '', 'the limiter'))}"


def _without_supply(sheet: SheetInput) -> tuple[Block, ...]:
    """What holds at every gate where the battery feeds it through a limiter."""
    names = sheet.build.packs
    smallest = smallest_pack(sheet.build)
    which = f"battery '{smallest}'" if len(names) > 1 else "the battery"
    lines = (
        (
            "Limiter: a lamp, a resettable fuse or the like in the plus lead, between two plugs of"
            " the battery's kind."
        ),
        (
            f"Use {which} at storage charge, outside or on ground that cannot burn, in view all the"
            " time."
        ),
        (
            "Each gate names its own limiter. Never fit a larger one, never bridge it. Take it out only"
            " where a step or a gate says so."
        ),
        (
            "First plug one battery into it alone. Its free end reads the battery's volts, red to plus,"
            " without a minus sign. Unplug the battery."
        ),
        (
            "Leave out setting volts and limit, checking the supply's lead, and connecting it. Plug in for 'output"
            " on', unplug for 'supply off'."
        ),
        (
            "The current cannot be read: leave its field empty and look at the limiter. All other lines"
            " of a gate hold."
        ),
        *_joined_lines(sheet),
        (
            "If the lamp stays bright or the limiter gets warm, unplug at once. There is a short"
            " or a wrong wire."
        ),
    )
    return (
        Paragraph((Span("Without a bench supply: a series limiter", strong=True),)),
        Bullets(tuple((Span(line),) for line in lines)),
    )


_RULES = (
    (
        "Each gate begins and ends with the power off. Between gates, power goes on only where a"
        " step names it."
    ),
    "No ohms, no iron, no finger on a board that has power or a charged capacitor.",
    (
        "Boards lie on something dry that does not conduct. No wire end, solder or screw lies on or"
        " under them."
    ),
)
_BASIS = (
    "A minute here can save a board.",
    ("Each current limit is 1.5 times the starting loads of its gate plus 0.1 A, at least 0.3 A."),
)
_LOCAL = " Local rules and licensed practice come first."  # which stands below each printed page


def first_power_up(sheet: SheetInput, *, paper: bool = False) -> Section:
    """What holds at every gate. Each gate is where its band is in the order of work. Paper leaves
    out what a number rests on.
    """
    if not sheet.results.gates:
        return Section("first-power-up", "First power-up", ())
    hurts = "A motor that starts by itself cuts to the bone."
    warning = Notice(
        Signal.WARNING,
        "Propellers off until the last gate has passed.",
        (Span(hurts if paper else hurts + _LOCAL),),
    )
    supply = (
        "Use a bench supply with a current limit, or a series limiter in the battery lead."
        " Leave connected what has passed. Before you touch anything: supply off, then wait until"
        f" {battery_empty(sheet.build, sheet.results.gates)}."
    )
    rules = _RULES if paper else (*_RULES, *_BASIS)
    said: tuple[Block, ...] = (
        warning,
        Paragraph((Span(supply),)),
        Bullets(tuple((Span(rule),) for rule in rules)),
        *_without_supply(sheet),
    )
    return Section("first-power-up", "First power-up", (*said, trip_notice(sheet)))
