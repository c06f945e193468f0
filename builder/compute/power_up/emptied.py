"""Where a meter says that nothing is left on the boards: at the battery's plug or contacts, and at
the rails that USB feeds. Each place is named by its print.
"""

from collections.abc import Iterator, Sequence

from builder.compute.power_up.gate import Gate
from builder.compute.power_up.gate_power import UNDER_SAFE_VOLTS
from builder.model.build import Build, Contact, Fitted
from builder.model.kinds import CombinedBoard, Connector, FlightController, SpeedController
from builder.model.source.electrical import Rail

# Where no pad is named at which a meter could say it (common practice, no source).
_UNREAD = "wait 60 s"


def _minus_beside(build: Build, board: str) -> str:
    """The battery's minus contact of a board; '' where it names none."""
    pads = build.parts[board.split(".")[0]].part.pads
    minus = (n for n, p in pads.items() if p.battery and p.role == "ground")
    ground = (n for n, p in pads.items() if p.polarity == "minus" or p.role == "ground")
    return next(minus, "") or next(ground, "")


def battery_minus(build: Build) -> str:
    """The battery's minus contact of the first board that it feeds; '' where none names one."""
    kinds = (SpeedController, CombinedBoard, FlightController)
    boards = sorted(build.of_kind(*kinds), key=lambda f: isinstance(f.part, FlightController))
    for board in boards:
        pads = board.part.pads.items()
        minus = next((n for n, p in pads if p.battery and p.role == "ground"), "")
        if minus:
            return str(Contact(board.key, board.pieces[0], minus))
    return ""


def battery_empty(build: Build, gates: Sequence[Gate]) -> str:
    """What has to be read before ohms, iron or a finger follow power from the battery."""
    plug = gates[0].plug if gates else ""
    plug = plug or next((f.key for f in build.of_kind(Connector)), "")
    board, _, contact = plug.rpartition(".")
    if plug in build.by_name and _minus_beside(build, board):
        return f"{contact} to {_minus_beside(build, board)} of {board} reads {UNDER_SAFE_VOLTS}"
    where = f"at {plug}" if plug else "of the battery lead"
    return f"plus to minus {where} reads {UNDER_SAFE_VOLTS}"


def control_board(build: Build) -> Fitted | None:
    """The board that USB is plugged into; None where there is none."""
    return next(iter(build.of_kind(FlightController, CombinedBoard)), None)


def _may_feed(board: Fitted, name: str, rail: Rail) -> bool:
    """Whether USB may feed a rail: where nobody says, it may."""
    if isinstance(rail.volts, str):
        return False
    if rail.on_usb is not None:
        return rail.on_usb
    listed: tuple[str, ...] = getattr(board.part, "on_usb", ())
    return name in listed or not listed


def _open_pads(board: Fitted, role: str) -> Iterator[tuple[str, str]]:
    """The contacts of one role that a probe reaches once the board sits, with their rails."""
    sockets = {c for s in board.part.sockets.values() for c in s.contacts}
    for name, pad in board.part.pads.items():
        if pad.role == role and pad.side == "top" and name not in sockets:
            yield name, pad.rail or ""


def wait_for_rails(board: Fitted | None) -> str:
    """How long to wait once USB is unplugged: until the rails that it feeds are empty."""
    unread = f"{_UNREAD}: this sheet names no pad to measure at"
    if board is None:
        return unread
    if board.part.rails and not any(_may_feed(board, n, r) for n, r in board.part.rails.items()):
        return f"{_UNREAD}: USB feeds no rail of {board.key} that a meter could read"
    rails = {n for n, rail in board.part.rails.items() if _may_feed(board, n, rail)}
    found: dict[str, str] = {}
    for pad, rail in _open_pads(board, "supply"):
        if rail in rails:
            found.setdefault(rail, pad)
    ground = next((name for name, _ in _open_pads(board, "ground")), "")
    if not found or not ground:
        return unread
    reads = "reads" if len(found) == 1 else "read"
    pads = " and ".join(found.values())
    return f"wait until {pads} to {ground} of {board.key} {reads} {UNDER_SAFE_VOLTS}"
