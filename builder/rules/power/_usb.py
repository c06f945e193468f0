"""Which rails USB feeds, and what it gives."""

from builder.compute.circuit.rails import RailRow
from builder.load.assumed import assumed
from builder.model.build import Fitted

USUAL = assumed("supply/usb-port")


def on_usb(board: Fitted, row: RailRow) -> bool | None:
    """Whether USB feeds a rail: as the rail says, else as its board lists; None where nobody says."""
    rail = row.source.rail
    if rail is not None and rail.on_usb is not None:
        return rail.on_usb
    listed = getattr(board.part, "on_usb", ())
    return row.source.name in listed if listed else None


def given_by_usb(board: Fitted, row: RailRow) -> float:
    """What USB gives to a rail, in A."""
    rail = row.source.rail
    limit = (
        rail.usb_limit
        if rail is not None and rail.usb_limit is not None
        else getattr(board.part, "usb_limit", None)
    )
    return float(limit.value) if limit is not None else USUAL
