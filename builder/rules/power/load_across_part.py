"""A load across a part of the battery.

Checks: each load that a balance lead or one of several batteries feeds. Between its plus and its
ground lies the whole battery. No wire joins two contacts of the battery that lie at other volts.
Why: cells that feed more than the others empty first; they are harmed, and burn at a later charge.
Two volts of the battery on one wire short its cells.
Example: a camera between the third contact of a balance lead of four cells and its minus.
Mend: feed it from the whole battery, or from a rail.
Source: common practice, no source
"""

from collections.abc import Iterator
from fractions import Fraction

from builder.compute.circuit.nets import Net
from builder.compute.circuit.print_pads import doubt_words, in_doubt
from builder.compute.loops.battery_levels import (
    battery_levels,
    battery_plugs,
    is_balance_lead,
    said_in_series,
)
from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Build, Contact, Fitted
from builder.model.kinds import Connector
from builder.model.source.electrical import Pad
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
YIELDS_TO = ("wiring/polarity-reversed", "wiring/supply-to-ground")
_WHOLE = Fraction(-1)  # the battery's plus, whatever its cells
_MEND = "Feed it from the whole battery, or from a rail."


Tapped = tuple[Contact, Fraction | None]  # a contact of the battery, and what lies below it


def _level(part: Connector, pad: Pad, below: Fraction | None) -> Fraction | None:
    """The share of the battery's cells below a contact, or its cells as they are counted on a
    balance lead, which are whole; None where nobody says, as of a middle contact.
    """
    if pad.tap is not None:
        return Fraction(pad.tap)
    if below is not None and not is_balance_lead(part):
        return -below
    if pad.role == "ground" or pad.polarity == "minus":
        return Fraction(0)
    return None if is_balance_lead(part) else _WHOLE


def _told(case: Case, net: Net) -> list[Tapped]:
    """What the battery's own contacts on a net say of its cells."""
    levels = battery_levels(case.build, case.results.netlist)
    below: Fraction | None = None
    if levels.steps == said_in_series(case.build) and net.name in levels.below:
        below = Fraction(levels.below[net.name], levels.steps)
    out: list[Tapped] = []
    for contact in net.contacts:
        part, pad = case.build.parts[contact.part].part, case.build.pad(contact)
        if isinstance(part, Connector) and pad.role in ("supply", "ground"):
            out.append((contact, _level(part, pad, below)))
    return out


def _cells_below(level: Fraction, cells: int) -> int:
    """Cells below a contact: a share of all of the battery's is negative here, a count is not."""
    return int(-level * cells) if level < 0 else int(level)


def _shorted(case: Case, net: Net, cells: int) -> Outcome | None:
    """Contacts of the battery at other volts on one net; None where fewer than two are told of."""
    told = [(c, _cells_below(at, cells)) for c, at in _told(case, net) if at is not None]
    if len(told) < 2:
        return None
    (one, low), (other, high) = (sorted(told, key=lambda t: t[1])[i] for i in (0, -1))
    doubt = in_doubt(case.build, case.results.netlist, net)
    if low == high:
        return NotJudged(doubt_words(doubt)) if doubt else Judged()
    where = next(j.where for j in reversed(net.joins) if j.by != "inside")
    text = f"A wire joins {one} and {other}: it shorts {high - low} of the battery's cells."
    return Found(text, "Take the wire away before a battery is plugged in.", where)


def _across(case: Case, fitted: Fitted, piece: int, key: str, cells: int) -> Outcome | None:
    """One piece against the cells of a battery; None where no contact of a battery feeds it."""
    ends = _ends(case, fitted, piece)
    if not ends["draws"]:
        return None
    contact, high = ends["draws"][0]
    low = ends["ground"][0][1] if ends["ground"] else None
    board = contact.board
    if high is None or low is None:
        missing = f"which cells of the battery lie below the contacts that feed {board}"
        return NotJudged(missing, fitted.where)
    across = _cells_below(high, cells) - _cells_below(low, cells)
    if across == cells:
        nets = case.results.netlist
        both = (nets.of[c] for c, _ in (*ends["draws"][:1], *ends["ground"][:1]))
        doubt = tuple(c for net in both for c in in_doubt(case.build, nets, net))
        return NotJudged(doubt_words(doubt), fitted.shelf_where) if doubt else Judged()
    text = f"{board} hangs across {across} of the {cells} cells of battery {key}."
    wire = case.results.netlist.at[contact][-1].where
    return Found(text, _MEND, wire, see=(case.build.packs[key].where,))


def _ends(case: Case, fitted: Fitted, piece: int) -> dict[str, list[Tapped]]:
    """The wired contacts of a piece that a battery's contact feeds, by role, with the cells below."""
    nets = case.results.netlist
    ends: dict[str, list[Tapped]] = {"draws": [], "ground": []}
    for name, pad in fitted.part.pads.items():
        contact = Contact(fitted.key, piece, name)
        if pad.role in ends and contact in nets.at:
            ends[pad.role] += [(contact, at) for _, at in _told(case, nets.of[contact])]
    return ends


def _fed_unknown(build: Build) -> Iterator[Outcome]:
    """Parts that a balance lead feeds in words only: no wire says through which contacts."""
    for fitted in build.parts.values():
        supply = fitted.part.supply
        if supply is not None and supply.from_balance_lead:
            missing = f"which contacts of the balance lead feed {fitted.key}"
            yield NotJudged(missing, fitted.where)


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    if battery_levels(build, case.results.netlist).rings:
        return  # a short of whole batteries: pack/joined-otherwise finds it
    tapped = any(is_balance_lead(f.part) for f in build.of_kind(Connector))
    if not tapped and len(battery_plugs(build)) < 2:
        yield from _fed_unknown(build)
        return
    cells: dict[str, int] = {}
    for key, pack in build.packs.items():
        if pack.cells is None:
            yield NotJudged(f"cells of battery {key}", pack.shelf_where)
        else:
            cells[key] = pack.cells.low
    for net in case.results.netlist.nets:
        yield from _first([_shorted(case, net, whole) for whole in cells.values()])
    for fitted in build.parts.values():
        for piece in fitted.pieces:
            asked = [_across(case, fitted, piece, k, whole) for k, whole in cells.items()]
            yield from _first(asked)


def _first(answers: list[Outcome | None]) -> Iterator[Outcome]:
    """One finding for all batteries, where there is one; else what is said of each."""
    said = [a for a in answers if a is not None]
    found = [a for a in said if isinstance(a, Found)]
    yield from found[:1] or said
