"""A wire shorter than its route.

Checks: the length of each wire, or what a fitted lead is trimmed to, against its stated route.
Without a route: against the distance between the two parts, where both are placed. No fitted lead
may be 'trimmed' to more than it has.
Why: a lead can be shortened, never lengthened; a taut wire tears its pad off.
Example: a camera lead of 40 mm for parts that sit 75 mm apart.
Mend: cut it longer, or move a part.
Source: common practice, no source
"""

from collections.abc import Iterator
from math import dist, hypot

from builder.compute.geometry.edge_places import EDGES, on_edge
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.build import Contact, Fitted, WireRun
from builder.model.kinds import Frame, Motor
from builder.model.values.lengths_text import Position
from builder.rules.compare import EXACT
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
_SLACK = assumed("wires/pad-place")
_REACH_UNKNOWN = assumed("wires/part-reach")


def _corner(place: Position) -> str:
    along = "front" if place.x > 0 else "rear"
    return f"{along} left" if place.y > 0 else f"{along} right"


def _motor_place(case: Case, piece: int) -> Position | None:
    """The frame's place for a motor: by its corner where the setup says it, else by its number."""
    plan = case.build.source.setup.rotation
    corner = plan.corners.get(str(piece)) if plan is not None else None
    for frame in case.build.of_kind(Frame):
        places: dict[str, Position] = getattr(frame.part, "motors", None) or {}
        at_corner = [p for p in places.values() if corner is not None and _corner(p) == corner]
        if at_corner or str(piece) in places:
            return at_corner[0] if at_corner else places[str(piece)]
    return None


def _place(case: Case, contact: Contact) -> Position | None:
    fitted = case.build.parts[contact.part]
    if fitted.use.each_at and contact.piece and contact.piece <= len(fitted.use.each_at):
        return fitted.use.each_at[contact.piece - 1]
    if isinstance(fitted.part, Motor) and contact.piece:
        return _motor_place(case, contact.piece)
    return fitted.use.at if fitted.count == 1 else None


def _fitted_length(case: Case, run: WireRun) -> float | None:
    leads = case.build.parts[run.start.part].part.leads
    return leads.length.value if leads is not None and leads.length is not None else None


def _length(case: Case, run: WireRun) -> float | None:
    if run.wire.length is not None:
        return run.wire.length.value
    if run.wire.lead == "fitted":
        return run.wire.trim_to.value if run.wire.trim_to is not None else _fitted_length(case, run)
    return None


def _reach(case: Case, contact: Contact) -> float:
    """How far a contact may lie from the middle of its part: half its diagonal."""
    size = case.build.parts[contact.part].part.size
    return hypot(*size.along[:2]) / 2 if size is not None else _REACH_UNKNOWN


def _on_edge(fitted: Fitted, pad: str) -> tuple[float, float] | None:
    """Where a pad lies from the middle of a board whose turn is known, forward and left in m; None
    if unknown.
    """
    for edge in EDGES:
        pads = getattr(fitted.part.edges, edge)
        if pad in pads:
            return on_edge(fitted, edge, (pads.index(pad) + 0.5) / len(pads))
    return None


def _spot(case: Case, contact: Contact) -> tuple[tuple[float, float, float], float] | None:
    """Where a contact lies, and how far off that may be."""
    place = _place(case, contact)
    if place is None:
        return None
    edge = _on_edge(case.build.parts[contact.part], contact.pad)
    if edge is None:
        return (place.x, place.y, place.z), _reach(case, contact)
    return (place.x + edge[0], place.y + edge[1], place.z), _SLACK


def _need(case: Case, run: WireRun) -> tuple[float, str] | None:
    if run.wire.route is not None:
        return run.wire.route.value, "its route"
    a, b = _spot(case, run.start), _spot(case, run.end)
    if a is None or b is None or run.start.board == run.end.board:
        return None
    return max(0.0, dist(a[0], b[0]) - a[1] - b[1]), "the straight way between its ends at least"


def check(case: Case) -> Iterator[Outcome]:
    for run in case.build.wires:
        length, fitted = _length(case, run), _fitted_length(case, run)
        if length is None:
            yield NotJudged(f"length of the wire {run.start} to {run.end}", run.where)
            continue
        ends = f"{run.start} to {run.end}"
        if run.wire.lead == "fitted" and fitted is not None and length > fitted + EXACT:
            has = given(fitted, "m", f"shelf/{case.build.parts[run.start.part].shelf}/lead-length")
            message = say(
                "{} is to be trimmed to {}, and the maker's lead has {}.",
                ends,
                given(length, "m"),
                has,
            )
            yield Found(
                message,
                "A lead can be shortened, never lengthened: write what it has, or splice it.",
                run.where,
            )
            continue
        need = _need(case, run)
        if need is None:
            continue
        if length < need[0] - EXACT:
            wanted = given(need[0], "m") if run.wire.route is not None else made(need[0], "m")
            message = say("{} is {} long, and {} is {}.", ends, given(length, "m"), need[1], wanted)
            yield Found(message, "Cut it longer, or move a part.", run.where)
        else:
            yield Judged()
