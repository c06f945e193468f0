"""A load across a part of the battery.

Checks: each load that a balance lead or one of several batteries feeds. Between its plus and its
ground lies the whole battery. No ground lies on a part of the battery. No wire joins two contacts
of the battery at other volts.
Why: cells that feed more than the others empty first; they are harmed, and burn at a later charge.
Two volts of the battery on one wire short its cells.
Example: a camera between the third contact of a balance lead of four cells and its minus.
Mend: feed it from the whole battery, or from a rail.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.battery_levels import is_balance_lead
from builder.compute.circuit.nets import Net
from builder.compute.circuit.print_pads import doubt_words, in_doubt
from builder.compute.loops.cell_levels import CellLevel, CellLevels, cell_levels
from builder.compute.loops.series import said_in_series
from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Build, Contact, Fitted
from builder.model.kinds import Connector
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
YIELDS_TO = ("wiring/polarity-reversed", "wiring/supply-to-ground")
_MEND = "Feed it from the whole battery, or from a rail."
_GROUND = "Take it to a ground of the board that feeds it."

Tapped = tuple[Contact, CellLevel | None]  # a contact of the battery, and the cells below it


def _told(case: Case, of: CellLevels, net: Net) -> list[Tapped]:
    """What the battery's own contacts on a net say of its cells."""
    build = case.build
    return [
        (c, of.below(c))
        for c in net.contacts
        if isinstance(build.parts[c.part].part, Connector)
        and build.pad(c).role in ("supply", "ground")
    ]


def _shorted(case: Case, of: CellLevels, net: Net) -> Outcome | None:
    """Contacts of the battery at other volts on one net; None where fewer than two are told of."""
    told = [(c, at) for c, at in _told(case, of, net) if at is not None]
    if len(told) < 2:
        return None
    doubt = in_doubt(case.build, case.results.netlist, net)
    apart = [(x.over(y), c, d) for c, x in told for d, y in told]
    known = [(cells, c, d) for cells, c, d in apart if cells is not None]
    cells, high, low = max(known, key=lambda k: k[0])
    if cells > 0:
        where = next(j.where for j in reversed(net.joins) if j.by != "inside")
        text = f"A wire joins {low} and {high}: it shorts {cells} of the battery's cells."
        return Found(text, "Take the wire away before a battery is plugged in.", where)
    if len(known) < len(apart):
        unlike = next(at.above for _, at in told if at.above)
        return NotJudged(
            f"to which battery {unlike} belongs", case.build.parts[told[0][0].part].where
        )
    return NotJudged(doubt_words(doubt)) if doubt else Judged()


def _across(case: Case, of: CellLevels, fitted: Fitted, piece: int, key: str) -> Outcome | None:
    """One piece against the cells of a battery; None where no contact of a battery feeds it."""
    ends = _ends(case, of, fitted, piece)
    if not ends["draws"]:
        return _lifted(case, fitted, ends["ground"], key)
    contact, high = ends["draws"][0]
    low = ends["ground"][0][1] if ends["ground"] else None
    board, whole = contact.board, of.cells * of.series
    across = high.over(low) if high is not None and low is not None else None
    if across is None:
        missing = f"which cells of the battery lie below the contacts that feed {board}"
        return NotJudged(missing, fitted.where)
    if across == whole:
        nets = case.results.netlist
        both = (nets.of[c] for c, _ in (*ends["draws"][:1], *ends["ground"][:1]))
        doubt = tuple(c for net in both for c in in_doubt(case.build, nets, net))
        return NotJudged(doubt_words(doubt), fitted.shelf_where) if doubt else Judged()
    text = f"{board} hangs across {across} of the {whole} cells of battery {key}."
    wire = case.results.netlist.at[contact][-1].where
    return Found(text, _MEND, wire, see=(case.build.packs[key].where,))


def _lifted(case: Case, fitted: Fitted, grounds: list[Tapped], key: str) -> Outcome | None:
    """A piece that another one feeds, with its ground on a part of the battery; None where its ground
    is on none, or on the minus of all.
    """
    if isinstance(fitted.part, Connector):
        return None  # the battery's own contacts lie where they lie
    for contact, at in grounds:
        if at is None or at.above:
            missing = f"which cells of the battery lie below the ground of {contact.board}"
            return NotJudged(missing, fitted.where)
        if at.cells > 0:
            cells = "1 cell" if at.cells == 1 else f"{at.cells} cells"
            text = f"{contact} lies {cells} of battery {key} above all other grounds."
            wire = case.results.netlist.at[contact][-1].where
            return Found(text, _GROUND, wire, see=(case.build.packs[key].where,))
    return None


def _ends(case: Case, of: CellLevels, fitted: Fitted, piece: int) -> dict[str, list[Tapped]]:
    """The wired contacts of a piece that a battery's contact feeds, by role, with the cells below."""
    nets = case.results.netlist
    ends: dict[str, list[Tapped]] = {"draws": [], "ground": []}
    for name, pad in fitted.part.pads.items():
        contact = Contact(fitted.key, piece, name)
        if pad.role in ends and contact in nets.at:
            ends[pad.role] += [(contact, at) for _, at in _told(case, of, nets.of[contact])]
    return ends


def _touches(case: Case, fitted: Fitted, piece: int, names: set[str]) -> bool:
    of = case.results.netlist.of
    own = (Contact(fitted.key, piece, name) for name in fitted.part.pads)
    return any(of[contact].name in names for contact in own)


def _fed_unknown(build: Build) -> Iterator[Outcome]:
    """Parts that a balance lead feeds in words only: no wire says through which contacts."""
    for fitted in build.parts.values():
        supply = fitted.part.supply
        if supply is not None and supply.from_balance_lead:
            missing = f"which contacts of the balance lead feed {fitted.key}"
            yield NotJudged(missing, fitted.where)


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    levels = case.results.netlist.levels
    otherwise = levels.steps > 1 and levels.steps != said_in_series(build)
    if levels.rings or otherwise:
        return  # pack/joined-otherwise finds it, and what lies where is told by nobody
    tapped = any(is_balance_lead(f.part) for f in build.of_kind(Connector))
    if not tapped and len(case.results.netlist.plugs) < 2:
        yield from _fed_unknown(build)
        return
    known: dict[str, CellLevels] = {}
    for key, pack in build.packs.items():
        of = cell_levels(build, case.results.netlist, pack)
        if of is None:
            yield NotJudged(f"cells of battery {key}", pack.shelf_where)
        else:
            known[key] = of
    shorted: set[str] = set()
    for net in case.results.netlist.nets:
        answers = list(_first([_shorted(case, of, net) for of in known.values()]))
        shorted |= {net.name for a in answers if isinstance(a, Found)}
        yield from answers
    for fitted in build.parts.values():
        for piece in fitted.pieces:
            if _touches(case, fitted, piece, shorted):
                continue  # what hangs on a short is told by the short
            asked = [_across(case, of, fitted, piece, k) for k, of in known.items()]
            yield from _first(asked)


def _first(answers: list[Outcome | None]) -> Iterator[Outcome]:
    """One finding for all batteries, where there is one; else what is said of each."""
    said = [a for a in answers if a is not None]
    found = [a for a in said if isinstance(a, Found)]
    yield from found[:1] or said
