"""One tip and one temperature that serve several joints, so that the iron is not changed between
them.
"""

from collections.abc import Sequence

from builder.compute.joints.joints import Joint
from builder.compute.joints.tips import PRACTICE, Tip, takes_tip
from builder.model.build import Build

_BY_WIDTH: tuple[Tip, ...] = tuple(PRACTICE)


def common_iron(build: Build, joints: Sequence[Joint]) -> tuple[Tip, int] | None:
    """The tip and the temperature (°C) that serve all of these joints; None where one of them has
    no room for the tip that another needs.

    A joint that takes a finer tip gets hot sooner with a wider one, and with a hotter one: so the
    widest tip at the highest setting serves all.
    """
    if not joints:
        return None
    widest = max((j.tip for j in joints), key=_BY_WIDTH.index)
    for joint in joints:
        if not joint.cup and joint.tip != widest and not takes_tip(build, joint.contact, widest):
            return None
    return widest, max(j.heat.setting for j in joints)
