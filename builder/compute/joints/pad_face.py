"""How large a contact is before the iron: along its edge, away from it, and how far the next one is."""

from dataclasses import dataclass

from builder.compute.joints.bare_end import width_left
from builder.model.build import Build, Contact
from builder.model.source.electrical import Pad


@dataclass(frozen=True, slots=True)
class PadFace:
    """A pad or cup in m: `width` along its edge, `depth` away from it; None where nobody says it.

    `gap` is the free way to the next pad, the shorter one where pitch and gap say two.
    """

    width: float | None
    depth: float | None
    gap: float | None

    def room(self, tip: float) -> float | None:
        """What is free between a tip on the middle of the pad and the next pad, in m: negative where
        it reaches over; None where pad or gap is not known.
        """
        if self.width is None or self.gap is None:
            return None
        return self.gap - max(0.0, (tip - self.width) / 2)


def _sides(pad: Pad) -> tuple[float | None, float | None]:
    """Along its edge and away from it: the side that pitch and gap leave, else the shorter one is
    along it, from which a tip stands out more.
    """
    left = width_left(pad)
    if pad.pad_size is None:
        return (left, None) if left is not None and left > 0 else (None, None)
    short, *_ = sizes = sorted(pad.pad_size.along[:2])
    long = sizes[-1]
    is_long = left is not None and abs(long - left) < abs(short - left) - 1e-9
    return (long, short) if is_long else (short, long)


def pad_face(build: Build, contact: Contact) -> PadFace:
    """The face of a contact by its size, pitch and gap, as far as they are said."""
    pad = build.pad(contact)
    width, depth = _sides(pad)
    gaps = [pad.gap.value] if pad.gap is not None else []
    if pad.pitch is not None and width is not None:
        gaps.append(pad.pitch.value - width)
    return PadFace(width, depth, min((g for g in gaps if g > 1e-9), default=None))
