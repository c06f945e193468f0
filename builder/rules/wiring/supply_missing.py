"""A part that draws and is not fed.

Checks: each part that draws and has a wire or plug at all lies on a net with a supply. A supply
wire on a wrong contact is found by the rules about that contact.
Why: it stays dead, or lives on what leaks through its signal lines.
Example: a receiver with ground and data wired, and no 5 V.
Mend: join its supply contact to a rail that it accepts.
Source: common practice, no source
"""

from collections.abc import Iterator, Set

from builder.compute.circuit.feeds import Load
from builder.diagnostics.finding import Severity
from builder.model.kinds import Capacitor, Connector
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import families, is_live, upset_by_plugs, with_roles
from builder.rules.wiring._polarity import reversed_pieces

SEVERITY = Severity.FAULT


def _pack_astray(case: Case) -> bool:
    """Whether a plus of the pack is wired to something that is no battery line: then that is the
    finding.
    """
    build, nets = case.build, case.results.netlist
    plus = [
        c
        for c in build.contacts
        if isinstance(build.parts[c.part].part, Connector) and is_live(build.pad(c))
    ]
    for contact in plus:
        rails = [
            c
            for c in with_roles(case, nets.of[contact], "supply")
            if not build.pad(c).battery and c.part != contact.part
        ]
        if contact in nets.at and (rails or families(case, nets.of[contact]) != {"power"}):
            return True
    return False


def _unfed(case: Case, load: Load, upset: Set[str]) -> Outcome | None:
    build, nets = case.build, case.results.netlist
    fitted, net = build.parts[load.pad.part], nets.of[load.pad]
    supply = fitted.part.supply
    if supply is not None and (supply.own_cell or supply.from_balance_lead):
        return Judged()
    if not any(c in nets.at for c in build.contacts if c.board == load.part):
        return NotJudged(f"the wires of {load.part}", fitted.where)
    if net.name in upset or families(case, net) != {"power"} or load.part in reversed_pieces(case):
        return None
    if _pack_astray(case) and (
        build.pad(load.pad).battery or any(build.pad(c).battery for c in net.contacts)
    ):
        return None
    return Found(
        f"{load.pad} draws and no supply reaches it.",
        "Join it to a rail that it accepts.",
        fitted.where,
    )


def _capacitors(case: Case, upset: Set[str]) -> Iterator[Outcome]:
    """A capacitor is no load, and still has to reach the supply that it smooths."""
    build, nets, turned = case.build, case.results.netlist, reversed_pieces(case)
    for contact in build.contacts:
        net, part = nets.of[contact], build.parts[contact.part].part
        if (
            not isinstance(part, Capacitor)
            or not is_live(build.pad(contact))
            or contact.board in turned
        ):
            continue
        if not any(c in nets.at for c in build.contacts if c.board == contact.board):
            continue
        if any(is_live(build.pad(c)) for c in net.contacts if c.part != contact.part):
            yield Judged()
        elif net.name not in upset and families(case, net) == {"power"}:
            yield Found(
                f"{contact} reaches no supply.",
                "Join it to the supply that it smooths.",
                build.parts[contact.part].where,
            )


def check(case: Case) -> Iterator[Outcome]:
    power, upset = case.results.power, upset_by_plugs(case)
    for load in power.unfed:
        outcome = _unfed(case, load, upset)
        if outcome is not None:
            yield outcome
    yield from _capacitors(case, upset)
    for _ in power.on_pack:
        yield Judged()
    for row in power.rails:
        for _ in row.supplied:
            yield Judged()
