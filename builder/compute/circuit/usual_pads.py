"""How large a soldered contact is, how far the next one and what copper is behind it, where nobody
says: by what is usual on such a part (builder/pads.toml). Assumed, and listed as such.

A probe's place and the checks of dangers never ask here; they take what was said or nothing.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import hypot

from builder.load.usual.usual_pads import Carries, UsualPad, usual_pad_of
from builder.model.build import Build, Contact
from builder.model.kinds import Connector, SpeedController
from builder.model.source.electrical import Copper, Pad


@dataclass(frozen=True, slots=True)
class PadArea:
    """Length and width of a pad in m, and the least that its shorter side may be. `share` is the
    standard deviation of its area as a share, 0 where the part says its size; otherwise `kind`
    names what it is usual for and `basis` says so in words.
    """

    length: float
    width: float
    narrowest: float
    share: float = 0.0
    kind: str = ""
    basis: str = ""

    @property
    def shorter(self) -> float:
        """The shorter side in m."""
        return min(self.length, self.width)


def _carries(pad: Pad) -> Carries:
    if pad.battery:
        return "battery"
    return "motor" if pad.role == "phase" else "other"


def usual_pad(build: Build, contact: Contact) -> UsualPad:
    """What is usual for a contact of its kind of part."""
    part = build.parts[contact.part].part
    channels = part.channels if isinstance(part, SpeedController) else None
    return usual_pad_of(part.KIND, channels, _carries(build.pad(contact)))


def pad_area(build: Build, contact: Contact) -> PadArea:
    """The size of a contact: what the part says, else what is usual."""
    size = build.pad(contact).pad_size
    if size is not None and len(size.along) > 1:
        length, width, *_ = size.along
        return PadArea(length, width, min(length, width))
    usual = usual_pad(build, contact)
    along, across = usual.length, usual.width
    share = hypot(along.share, across.share)
    narrowest = min(along.least, across.least)
    basis = f"usual for a {usual.what}: {usual.source}"
    return PadArea(along.usual, across.usual, narrowest, share, usual.key, basis)


def copper_behind(build: Build, contact: Contact) -> Copper:
    """What lies behind a contact: what the part says, else what is usual."""
    pad = build.pad(contact)
    if pad.copper:
        return pad.copper
    usual = usual_pad(build, contact)
    return usual.ground if pad.role == "ground" else usual.copper


@dataclass(frozen=True)
class TakenAsUsual:
    """Contacts of a part of which nobody says the same facts, `size`, `copper` or `pitch`."""

    part: str
    pads: tuple[str, ...]
    facts: tuple[str, ...]
    usual: UsualPad


def _unsaid(build: Build, contact: Contact) -> tuple[str, ...]:
    """What of a contact is taken as usual; a cup has no copper of a board behind it."""
    pad, part = build.pad(contact), build.parts[contact.part].part
    lacks = {
        "size": pad.pad_size is None or len(pad.pad_size.along) < 2,
        "copper": pad.copper is None and not isinstance(part, Connector),
    }
    lacks["pitch"] = lacks["size"] and pad.pitch is None and pad.gap is None
    return tuple(fact for fact, lacking in lacks.items() if lacking)


def taken_as_usual(build: Build, soldered: Iterable[Contact]) -> tuple[TakenAsUsual, ...]:
    """What the build took as usual of the contacts that are soldered, alike ones together."""
    found: dict[tuple[str, tuple[str, ...], UsualPad], list[str]] = {}
    for contact in soldered:
        facts = _unsaid(build, contact)
        if facts:
            key = contact.part, facts, usual_pad(build, contact)
            found.setdefault(key, []).append(contact.pad)
    return tuple(TakenAsUsual(p, tuple(pads), f, u) for (p, f, u), pads in found.items())
