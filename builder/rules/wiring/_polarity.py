"""Which pieces sit the wrong way round: plus on ground and minus on a supply, both."""

from builder.compute.circuit.nets import Net
from builder.model.build import Contact
from builder.rules.rule import Case
from builder.rules.wiring._nets import common_ground, is_live, upset_by_plugs, with_roles


def poles(case: Case, key: str, piece: int) -> tuple[list[Contact], list[Contact]]:
    """The wired plus and minus contacts of a piece, by what is marked on them, else by role."""
    nets, build = case.results.netlist, case.build
    own = [c for p in build.parts[key].part.pads if (c := Contact(key, piece, p)) in nets.at]
    pads = [(c, build.pad(c)) for c in own]
    plus = [c for c, p in pads if p.polarity == "plus" or (p.polarity is None and is_live(p))]
    grounds = [c for c, p in pads if p.polarity is None and p.role == "ground"]
    minus = [c for c, p in pads if p.polarity == "minus" or c in grounds]
    return plus, minus


def _feeds(case: Case, net: Net, but: str) -> bool:
    """Whether a contact of another piece makes this net a supply."""
    pads = [case.build.pad(c) for c in net.contacts if c.board != but]
    return any(p.role == "supply" or (p.battery and is_live(p)) for p in pads)


def _sunk(case: Case, net: Net, but: str) -> bool:
    """Whether a contact of another piece switches this net to minus."""
    return any(c.board != but for c in with_roles(case, net, "sink"))


def reversed_pieces(case: Case) -> dict[str, list[Contact]]:
    """Pieces of which every wired plus lies on ground (or a switched minus) and a minus on a
    supply.
    """
    nets, ground, upset = case.results.netlist, common_ground(case), upset_by_plugs(case)
    out = {}
    for fitted in case.build.parts.values():
        if getattr(fitted.part, "polarised", None) is False:
            continue
        for piece in fitted.pieces:
            plus, minus = poles(case, fitted.key, piece)
            if not plus or not minus or any(nets.of[c].name in upset for c in plus + minus):
                continue
            board = plus[0].board
            low = all(nets.of[c].name in ground or _sunk(case, nets.of[c], board) for c in plus)
            if low and all(
                nets.of[c].name not in ground and _feeds(case, nets.of[c], board) for c in minus
            ):
                out[board] = plus + minus
    return out
