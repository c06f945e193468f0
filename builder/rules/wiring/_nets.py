"""What wiring rules share: contacts by role, where a net can be mended, and which nets are sound
enough to go on.

One wrong wire breaks several habits at once. So that one mistake gives one finding, a rule about
detail passes over a net on which a coarser rule already finds something: an unlike plug, mixed
kinds, a supply on ground.
"""

from collections.abc import Iterable
from functools import lru_cache

from builder.compute.circuit.contacts import Join, plug_joins
from builder.compute.circuit.nets import Net
from builder.compute.loops.series import series_links
from builder.diagnostics.where import Where
from builder.model.build import Build, Contact
from builder.model.kinds import Connector
from builder.model.source.electrical import Pad
from builder.rules.rule import Case

FAMILY = {
    "sends": "serial",
    "listens": "serial",
    "one-wire": "serial",
    "clock": "bus",
    "data": "bus",
    "video-out": "video",
    "video-in": "video",
    "drive-out": "drive",
    "drive-in": "drive",
    "phase": "phase",
    "light-in": "light",
    "light-out": "light",
    "sense": "sense",
    "ring": "ring",
    "supply": "power",
    "draws": "power",
    "ground": "ground",
    "sink": "sink",
}
_FITS = {
    frozenset({role})
    for role in (
        "ground",
        "supply",
        "draws",
        "one-wire",
        "clock",
        "data",
        "sense",
        "phase",
        "sink",
        "ring",
    )
}
_FITS |= {
    frozenset({"supply", "draws"}),
    frozenset({"sends", "listens"}),
    frozenset({"drive-out", "drive-in"}),
    frozenset({"one-wire", "sends"}),
    frozenset({"video-out", "video-in"}),
    frozenset({"light-out", "light-in"}),
    frozenset({"sink", "ground"}),
}


def with_roles(case: Case, net: Net, *roles: str) -> list[Contact]:
    """The contacts of a net whose pad has one of these roles."""
    return [c for c in net.contacts if case.build.pad(c).role in roles]


@lru_cache(maxsize=2)
def joined_nets(case: Case) -> tuple[Net, ...]:
    """Nets in which a wire or a plug takes part, but for those that an unlike plug upsets. Kept as
    those are.
    """
    upset = upset_by_plugs(case)
    return tuple([n for n in case.results.netlist.nets if n.connected and n.name not in upset])


def where_joined(case: Case, contacts: Iterable[Contact], net: Net) -> Where:
    """The wire or plug that brings these contacts onto the net: the last of those that touch them."""
    wanted = set(contacts)
    touching = [j for j in net.joins if j.by != "inside" and (j.a in wanted or j.b in wanted)]
    joins = touching or [j for j in net.joins if j.by != "inside"]
    return joins[-1].where if joins else case.build.parts[next(iter(wanted)).part].where


def named(contacts: Iterable[Contact]) -> str:
    """`camera.5V, controller.5V2`."""
    return ", ".join(str(c) for c in contacts)


def boards_apart(contacts: Iterable[Contact]) -> bool:
    """Whether the contacts are on more than one piece."""
    return len({c.board for c in contacts}) > 1


def is_live(pad: Pad) -> bool:
    """Whether a contact belongs on a supply: it feeds, it draws, or it is marked plus."""
    return pad.role in ("supply", "draws") or pad.polarity == "plus"


def unlike(build: Build, joined: Iterable[Join]) -> list[Join]:
    """Those of the pairs of one plugged cable that do not belong together."""
    out = []
    for pair in joined:
        roles = frozenset({build.pad(pair.a).role, build.pad(pair.b).role})
        if "unconnected" not in roles and roles not in _FITS:
            out.append(pair)
    return out


def _upsetting(build: Build) -> list[tuple[Join, ...]]:
    """The pairs of each plugged cable that joins unlike contacts."""
    plugged = (plug_joins(build, plug) for plug in build.plugs)
    return [pairs for pairs in plugged if unlike(build, pairs)]


@lru_cache(maxsize=2)
def upset_by_plugs(case: Case) -> frozenset[str]:
    """Names of nets that a plug with an unlike pair joins: wiring/plug-joins-unlike finds the plug
    itself.

    Kept for the case in hand, since rules ask it net by net.
    """
    of, build = case.results.netlist.of, case.build
    return frozenset(of[j.a].name for pairs in _upsetting(build) for j in pairs)


def families(case: Case, net: Net) -> set[str]:
    """The kinds of line that meet on a net; ground and a switched minus count as one."""
    found = {FAMILY[r] for c in net.contacts if (r := case.build.pad(c).role) in FAMILY}
    return found - {"ground"} if found == {"sink", "ground"} else found


def is_sound(case: Case, net: Net) -> bool:
    """Whether a net holds one kind of line, with at most one output for it, and no supply on
    ground.
    """
    if net.name in upset_by_plugs(case) or len(families(case, net)) > 1:
        return False
    ground = with_roles(case, net, "ground")
    if ground and (
        any(is_live(case.build.pad(c)) for c in net.contacts) or with_roles(case, net, "sink")
    ):
        return False
    if {case.build.pad(c).role for c in net.contacts} == {"listens"} and boards_apart(net.contacts):
        return False
    if len(with_roles(case, net, "phase")) > 2 or (
        with_roles(case, net, "clock") and with_roles(case, net, "data")
    ):
        return False
    return all(
        len(with_roles(case, net, r)) < 2 for r in ("sends", "video-out", "light-out", "drive-out")
    )


def common_ground(case: Case) -> set[str]:
    """Names of the nets that are ground together: the widest one, and what the pack itself joins to
    it.

    Every minus of a connector of the pack is one copper with the others through the pack, but for one
    that lies a battery above it; so is the ground of a part that is fed from the balance lead.
    """
    nets, build = case.results.netlist, case.build
    links = series_links(build, nets)
    grounds = [n for n in nets.nets if n.name not in links and with_roles(case, n, "ground")]
    widest = max(
        grounds, key=lambda n: len({c.board for c in with_roles(case, n, "ground")}), default=None
    )
    if widest is None:
        return set()
    through_pack = set()
    for contact in build.contacts:
        part = build.parts[contact.part].part
        from_pack = isinstance(part, Connector) or (
            part.supply is not None and part.supply.from_balance_lead
        )
        if from_pack and build.pad(contact).role == "ground":
            through_pack.add(nets.of[contact].name)
    through_pack -= links
    return {widest.name} | (through_pack if widest.name in through_pack else set())
