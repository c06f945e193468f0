"""What has to be reached on a part once it is built in, and the room that this takes."""

from typing import Literal

from builder.model.source.electrical import EdgeName, PadSide
from builder.model.values.base import Frozen
from builder.model.values.bounds_of_bodies import PartSize, ShareOfWhole

ReachedThing = Literal["usb", "card", "button"]


class Reached(Frozen):
    """A USB socket, a slot for a card, or a button: from where it is reached, and the free room before it.

    `along` counts left and right edges from the top, the others from the left.
    """

    edge: EdgeName | None = None  #: the edge of the part on which it sits
    side: PadSide = "edge"  #: from where it is reached: past its edge, from the top or from under
    along: ShareOfWhole | None = None  #: where on its edge; the middle if not said
    #: free room before it that a plug, a card or a finger needs: out, across and high
    room: PartSize | None = None
