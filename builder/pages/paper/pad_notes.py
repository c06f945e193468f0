"""What holds for several joints of a board, said once below its table of contacts."""

from collections.abc import Iterable, Sequence

from builder.compute.joints.joints import Joint
from builder.compute.joints.strips import in_place
from builder.model.build import Build
from builder.pages.work.step_facts import WARM
from builder.rounding import rounded


def _pads(found: Iterable[Joint]) -> str:
    return ", ".join(j.contact.pad for j in found)


def _gaps(found: Sequence[Joint]) -> str:
    """The room to the next contact, by which contacts it is."""
    by_gap: dict[float, list[Joint]] = {}
    for joint in found:
        gaps = [gap for _, gap in joint.neighbours if gap is not None]
        if gaps:
            by_gap.setdefault(min(gaps), []).append(joint)
    if not by_gap:
        return ""
    if len(by_gap) == 1:
        (gap,) = by_gap
        return f"Do not bridge to the next pad: {_mm(gap)} away."
    parts = [f"{_mm(gap)} at {_pads(joints)}" for gap, joints in by_gap.items()]
    return f"Do not bridge to the next pad: {'; '.join(parts)}."


def _mm(metres: float) -> str:
    return f"{rounded(1000 * metres, 1)} mm"


def _hot(build: Build, found: Sequence[Joint]) -> str:
    hard = [j for j in found if j.heat.warm_first]
    if not hard:
        return ""
    if in_place(build, hard[0]):
        return (
            f"{_pads(hard)}: much heat. Add flux. Use the widest tip that does not touch the next"
            " pad."
        )
    return (
        f"{_pads(hard)}: much heat. First warm the board from below to about {WARM} °C, on a hot plate"
        " that shows it."
    )


def _for(words: str, found: Sequence[Joint]) -> str:
    """What is said of some contacts; nothing where there are none."""
    return words.format(_pads(found)) if found else ""


def pad_notes(build: Build, found: Sequence[Joint]) -> list[str]:
    """Underside, room between pads, pads that take much heat, bare ends on pads of unknown size."""
    under = [j for j in found if j.side == "under"]
    unsized = [j for j in found if j.heat.strip_basis]
    bare = "Bare ends: no more than lies on the pad, whose size is not known"
    broad = [j for j in found if j.heat.tip == "broad"]
    said = [
        _for("On the underside (drawn mirrored): {}.", under),
        _gaps(found),
        _for("{}: hold the broad tip until the solder flows.", broad),
        _hot(build, found),
        f"{bare}." if len(unsized) == len(found) else _for(bare + ": {}.", unsized),
    ]
    return [words for words in said if words]
