"""Which wire ends at which contact of a board, what is written at it, and where it leads."""

from collections.abc import Callable

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.nets import Netlist
from builder.compute.circuit.pinout import letters
from builder.frozen import value_class
from builder.model.build import Build, Contact
from builder.pages.drawings.boards import drawn_boards
from builder.pages.drawings.wiring_drawing import colour_of


@value_class(frozen=True, slots=True)
class Lead:
    """Where something leads, and the number of its step ('' for none)."""

    link: str
    step: str


FindsLead = Callable[[Contact, Join], Lead]


@value_class(frozen=True, slots=True)
class WireEnd:
    """A wire at a contact. `words` are the letters of its colour, the contact at its other end, and in
    brackets the step that solders it.
    """

    words: str
    colour: str
    plug: bool
    net: str
    link: str


def wire_ends(build: Build, nets: Netlist, lead: FindsLead) -> dict[Contact, tuple[WireEnd, ...]]:
    """The wires and plugs at each contact, in the order of their numbers."""
    found: dict[Contact, list[WireEnd]] = {}
    for join in drawn_boards(build, nets).joins:
        net, colour = nets.of[join.a].name, colour_of(build, join)
        for own, other in ((join.a, join.b), (join.b, join.a)):
            way = lead(own, join)
            step = f" ({way.step})" if way.step else ""
            words = f"{letters(colour)} {other}{step}".strip()
            end = WireEnd(words, colour, join.by == "plug", net, way.link)
            found.setdefault(own, []).append(end)
    return {contact: tuple(ends) for contact, ends in found.items()}
