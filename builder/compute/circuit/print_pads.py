"""Contacts whose meaning was taken from the print beside them: nobody looked it up, so no danger is
judged by it.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from builder.compute.circuit.nets import Net, Netlist
from builder.model.build import Build, Contact
from builder.model.source.electrical import Pad

# What decides whether a contact feeds, draws or is ground.
_DECIDES = frozenset({"role", "battery", "polarity", "tap"})


@dataclass(frozen=True)
class TakenFromPrints:
    """The contacts of a part that nobody wrote more of than their print, in the order of the file:
    what each was taken for, by its name.
    """

    part: str
    shelf: str
    meant: Mapping[str, str]


def by_print(pad: Pad) -> bool:
    """Whether what a contact is for was taken from its print."""
    return not _DECIDES.isdisjoint(pad.assumed)


def in_doubt(build: Build, nets: Netlist, net: Net) -> tuple[Contact, ...]:
    """The contacts of a net at which a wire or a plug ends and that may be something else than
    their print says.
    """
    return tuple(c for c in net.contacts if c in nets.at and by_print(build.pad(c)))


def doubt_words(contacts: tuple[Contact, ...]) -> str:
    """The fact that is missing where contacts are known by their print only."""
    named = ", ".join(dict.fromkeys(map(str, contacts)))
    return f"whether these are what their print says: {named}"


def taken_from_prints(build: Build) -> tuple[TakenFromPrints, ...]:
    """What the build took from prints, part by part."""
    out = []
    for fitted in build.parts.values():
        pads = fitted.part.pads.items()
        meant = {name: _meant(pad) for name, pad in pads if pad.assumed}
        if meant:
            out.append(TakenFromPrints(fitted.key, fitted.shelf, meant))
    return tuple(out)


def _meant(pad: Pad) -> str:
    """`supply, 5V`, `sends, port 1`."""
    words: list[str] = [pad.role]
    words += [pad.rail] if pad.rail else []
    words += [f"port {pad.serial}"] if pad.serial is not None else []
    words += [f"channel {pad.channel}"] if pad.channel is not None else []
    return ", ".join(words)
