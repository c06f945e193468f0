"""The tip of the iron on a pad, at one scale with the pad and its neighbour: whether it reaches the
next one is seen, not counted.
"""

from collections.abc import Iterable

from builder.compute.joints.pad_face import PadFace, pad_face
from builder.compute.joints.tips import TIP_WIDE
from builder.compute.order.steps.work_step import WorkStep
from builder.frozen import value_class
from builder.model.build import Build, Contact
from builder.pages.drawing import Item, KeptShapes, Line, Rectangle, Words
from builder.rounding import rounded

SCALE = 2.0  # mm of the drawing for a mm, in all of them that fit
TYPE = 3.1  # mm
_SHANK = 4.5  # mm of the tip that is drawn beyond the pad
_LEFT = 1.0  # mm
_WIDEST = 34.0  # mm that pads take
_HIGHEST = 16.0  # mm
_ROW = 4.3  # mm between words
_BESIDE = 3.0  # mm from the shapes to the words


@value_class(frozen=True, slots=True)
class TipOnPad:
    """A class of tip with its width in m, and the pad that it is on."""

    name: str
    wide: float
    face: PadFace

    @property
    def says(self) -> tuple[str, str]:
        """The sizes in words, in two lines: what nobody says is said to be not known."""
        first = f"{self.name} tip, {self.size}, to scale"
        if self.face.width is None:
            return first, "pad's size not known"
        gap = f"gap {_mm(self.face.gap)}" if self.face.gap is not None else "gap not known"
        return first, f"pad {_mm(self.face.width)}, {gap}"

    @property
    def short(self) -> str:
        """The sizes in one line."""
        return f"{self.name} tip {self.size}, {self.says[1]}"

    @property
    def size(self) -> str:
        """How wide the tip is, in words."""
        return _mm(self.wide)


def nearest_tip(build: Build, steps: Iterable[WorkStep]) -> tuple[TipOnPad, Contact]:
    """The tip of steps that solder on the contact where it comes nearest to another one; contacts
    with a gap that nobody says come last.
    """
    found = [
        (TipOnPad(s.tip, TIP_WIDE[tip], pad_face(build, s.joint.contact)), s.joint.contact)
        for s in steps
        for tip in TIP_WIDE
        if s.joint is not None and s.tip == tip
    ]
    rooms = [on.face.room(on.wide) for on, _ in found]
    nearest = min(range(len(found)), key=lambda i: (rooms[i] is None, rooms[i] or 0.0))
    return found[nearest]


def _mm(metres: float) -> str:
    digits = rounded(1000 * metres, 2)
    return f"{digits.rstrip('0').rstrip('.') if '.' in digits else digits} mm"


def _scale(on: TipOnPad) -> float:
    """The scale of all, or what fits where a pad is huge."""
    width, gap = on.face.width or 0.0, on.face.gap or 0.0
    across = 1000 * (max(width, on.wide) + gap + width)
    high = 1000 * (on.face.depth or width)
    return min(SCALE, _WIDEST / max(across, 1e-3), _HIGHEST / max(high, 1e-3))


def _crossed(left: float, top: float, width: float, height: float) -> list[Item]:
    """A pad that must stay free of solder."""
    right, low = left + width, top + height
    lines: list[Item] = [Line(((left, top), (right, low))), Line(((left, low), (right, top)))]
    return [Rectangle(left, top, width, height, "fill"), *lines]


def _pads(face: PadFace, middle: float, top: float, scale: float) -> tuple[list[Item], float]:
    """The pad in the middle and its neighbour, and how far they reach to the right."""
    if face.width is None:
        return [], middle
    width = face.width * scale * 1000
    high = (face.depth or face.width) * scale * 1000
    left = middle - width / 2
    items: list[Item] = [Rectangle(left, top, width, high, "lit")]
    if face.gap is None:
        return items, left + width
    beside = left + width + face.gap * scale * 1000
    return items + _crossed(beside, top, width, high), beside + width


def tip_on_pad(
    on: TipOnPad, name: str, top: float, says: tuple[str, ...] = ()
) -> tuple[KeptShapes, float]:
    """The shapes below a height, and how far down they reach. The tip comes from outside of the
    board, with its end on the middle of the pad. Its sizes stand beside it, or what is said instead.
    """
    scale = _scale(on)
    width, tip = ((x or 0.0) * scale * 1000 for x in (on.face.width, on.wide))
    middle = _LEFT + max(width, tip) / 2
    pad_top = top + _SHANK
    pads, right = _pads(on.face, middle, pad_top, scale)
    deep = (on.face.depth or on.face.width or on.wide) * scale * 1000
    left, far, end = middle - tip / 2, middle + tip / 2, pad_top + 0.75 * deep
    outline = Line(((left, top), (left, end), (far, end), (far, top)), "tip")
    at = max(right, far) + _BESIDE
    rows = enumerate(says or on.says)
    words = [Words(at, top + _ROW * (i + 0.8), said, TYPE) for i, said in rows]
    bottom = max(pad_top + deep, words[-1].y + 1.0)
    return KeptShapes(name, (*pads, outline, *words)), bottom + 1.0
