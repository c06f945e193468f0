"""A supply joined to ground.

Checks: no net holds both a ground and a contact that feeds, draws or is marked plus; a part whose
two wires are swapped is wiring/polarity-reversed. A wire from one battery to the next is no short
where the build says that they are in series. A contact that is known by its print only is no word
for it: the net cannot be checked then.
Why: a short: the first plug-in burns the wire, the board or the battery.
Example: camera.GND wired to controller.5V2.
Mend: move the wire to its right contact and measure before any power is put on.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.battery_levels import balance_contacts
from builder.compute.circuit.print_pads import doubt_words, in_doubt
from builder.compute.loops.series import inner_links
from builder.diagnostics.finding import Severity, Signal
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import is_live, joined_nets, named, where_joined
from builder.rules.wiring._polarity import reversed_pieces

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
YIELDS_TO = ("pack/joined-otherwise",)


def check(case: Case) -> Iterator[Outcome]:
    turned, nets = reversed_pieces(case), case.results.netlist
    links = {n.name for n in inner_links(nets)}  # as many as said: pack/joined-otherwise
    ends = {c for p in nets.plugs for c in (p.plus, p.minus)}
    ends |= set(balance_contacts(case.build))  # on a link: power/load-across-part judges them
    for net in joined_nets(case):
        joins_batteries = ends if net.name in links else set()
        left = (c for c in net.contacts if c not in joins_batteries)
        contacts = [c for c in left if c.board not in turned]
        grounds = [c for c in contacts if case.build.pad(c).role == "ground"]
        live = [c for c in contacts if is_live(case.build.pad(c))]
        if grounds and live:
            fewer = live if len(live) <= len(grounds) else grounds
            yield Found(
                f"A supply meets ground: {named(live[:3])} and {named(grounds[:3])} are one net.",
                "Move the wire to its right contact, and measure before any power is put on.",
                where_joined(case, fewer, net),
            )
            continue
        doubt = in_doubt(case.build, nets, net)
        if len(doubt) > 1 or (doubt and (grounds or live)):
            yield NotJudged(doubt_words(doubt), case.build.parts[doubt[0].part].shelf_where)
        elif grounds or live:
            yield Judged()
