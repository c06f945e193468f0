"""A powered part without a ground.

Checks: each part on a supply or a signal is also joined to the common ground: by
wire, by plug or through the battery. A ground wire on a wrong contact is found by the rules about
that contact.
Why: current finds its way back through the signal lines, and takes them with it.
Example: a camera with 5 V and video wired, and no ground.
Mend: add the ground wire.
Source: common practice, no source
"""

from collections.abc import Iterator, Set

from builder.diagnostics.finding import Severity
from builder.model.build import Contact, Fitted
from builder.model.kinds import Connector
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import common_ground, families, upset_by_plugs

SEVERITY = Severity.FAULT
_ALONE = (
    "phase",
    "ground",
    "unconnected",
    "ring",
    "sink",
)  # contacts that want no ground beside them


def _piece(
    case: Case, fitted: Fitted, piece: int, common: set[str], upset: Set[str]
) -> Outcome | None:
    nets, build = case.results.netlist, case.build
    own = [Contact(fitted.key, piece, p) for p in fitted.part.pads]
    live = [c for c in own if c in nets.at and build.pad(c).role not in _ALONE]
    if not live:
        return None
    ground = [c for c in own if build.pad(c).role == "ground"]
    switched = [c for c in own if build.pad(c).role == "sink" or build.pad(c).polarity == "minus"]
    if not ground and any(c in nets.at for c in switched):
        return None  # its minus is switched by a board: wiring/sink-bypassed looks at it
    if not ground and switched:
        message = (
            f"{own[0].board} is wired ({', '.join(c.pad for c in live)}), and its minus reaches"
            " nothing."
        )
        return Found(message, f"Join {switched[0]} to the contact that switches it.", fitted.where)
    if not ground:
        return NotJudged(f"the ground contact of {fitted.key}", fitted.shelf_where)
    if any(nets.of[c].name in common for c in ground):
        return Judged()
    wired = [c for c in ground if c in nets.at]
    # A load may hang on a switched minus; the pack may not.
    apart = [{"ground"}, {"sink"}] if isinstance(fitted.part, Connector) else [{"ground"}]
    if any(nets.of[c].name in upset or families(case, nets.of[c]) not in apart for c in wired):
        return None
    return Found(
        f"{own[0].board} is wired ({', '.join(c.pad for c in live)}), and no ground of it reaches"
        " the rest.",
        f"Join {ground[0]} to a ground of the board that feeds it.",
        fitted.where,
    )


def check(case: Case) -> Iterator[Outcome]:
    common, upset = common_ground(case), upset_by_plugs(case)
    for fitted in case.build.parts.values():
        for piece in fitted.pieces:
            outcome = _piece(case, fitted, piece, common, upset)
            if outcome is not None:
                yield outcome
