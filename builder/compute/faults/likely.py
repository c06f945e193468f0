"""What somebody looks for by eye before anything is measured: the causes that can be seen, the
likeliest first.
"""

from collections.abc import Sequence

from builder.compute.faults.fault_states import FaultState
from builder.compute.faults.single_faults import SingleFault
from builder.compute.faults.symptoms import Symptom


def _is_at(fault: SingleFault, symptom: Symptom) -> bool:
    """Whether a fault is at the board that shows it."""
    return fault.name == symptom.board or any(c.board == symptom.board for c in fault.places)


def likely_first(symptom: Symptom, states: Sequence[FaultState]) -> tuple[SingleFault, ...]:
    """The causes of a symptom, those at its own board first; at one place joints before bridges, and
    bridges before wires that were swapped (common practice, no source).
    """
    faults = [s.fault for s in states if s.fault is not None]
    return tuple(sorted(faults, key=lambda fault: not _is_at(fault, symptom)))


def seen_by_eye(faults: Sequence[SingleFault], most: int) -> tuple[SingleFault, ...]:
    """The first of them that show under a lens. A rail that is dead looks like one that is not."""
    return tuple(f for f in faults if f.kind != "rail")[:most]
