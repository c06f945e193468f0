"""Motor order disagrees with the wiring or with a turned board.

Checks: which drive output reaches which motor, through drive line, channel and leads, against the
rotation plan of the setup. Motor 1 is on output 1 unless `outputs` says otherwise. Where that is
right, the corner that the maker printed at each channel is compared with the corner of its motor,
as the speed controller is mounted. Leads that cross over are a remark.
Why: software that throttles up the wrong corner turns the aircraft over at take-off.
Example: a speed controller turned by 180 deg with its motors on the nearest contacts and the order
left as it was.
Mend: say in the setup which output drives which motor, or move the leads; then spin each motor
alone, propellers off.
Source: common practice, no source
"""

from collections.abc import Iterator
from math import degrees

from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Contact, Fitted
from builder.model.kinds import CombinedBoard, Motor, SpeedController
from builder.model.source.setup_source import RotationPlan
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import upset_by_plugs, where_joined, with_roles

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_ROUND = ("front left", "front right", "rear right", "rear left")  # clockwise from above


def _output(case: Case, channel: Contact) -> int | None:
    """The drive output behind a phase contact's channel; on a board that is both, the channel
    itself.
    """
    build, nets = case.build, case.results.netlist
    number = build.pad(channel).channel
    own = [(c, build.pad(c)) for c in build.contacts if c.board == channel.board]
    inputs = [c for c, p in own if p.role == "drive-in" and p.channel == number]
    if not inputs and isinstance(build.parts[channel.part].part, CombinedBoard):
        return number
    if len(inputs) != 1 or nets.of[inputs[0]].name in upset_by_plugs(case):
        return None
    outputs = with_roles(case, nets.of[inputs[0]], "drive-out")
    return build.pad(outputs[0]).channel if len(outputs) == 1 else None


def turned_corner(fitted: Fitted, corner: str) -> str | None:
    """Where a corner that is printed on a board lies in the aircraft; None for a board that lies
    askew.
    """
    words = corner.removesuffix(" upper").removesuffix(" lower").strip()
    if words not in _ROUND:
        return None
    yaw = degrees(fitted.use.yaw.value) if fitted.use.yaw is not None else 0.0
    quarters = round(yaw / 90)
    if abs(yaw - 90 * quarters) > 1:
        return None
    at = _ROUND.index(words)
    if (
        fitted.use.face == "down"
    ):  # turned over about the line from nose to tail: left and right change places
        at ^= 1
    return _ROUND[(at + quarters) % 4]


def _printed(case: Case, contact: Contact, number: str, plan: RotationPlan) -> Found | None:
    fitted = case.build.parts[contact.part]
    part = fitted.part
    channel = case.build.pad(contact).channel
    if not isinstance(part, SpeedController) or not part.channel_corners or channel is None:
        return None
    printed = part.channel_corners.get(str(channel))
    lies = turned_corner(fitted, printed.casefold()) if printed is not None else None
    corner = plan.corners[number].removesuffix(" upper").removesuffix(" lower")
    if lies is None or corner not in _ROUND or lies == corner:
        return None
    return Found(
        f"Motor {number} sits at the {corner}, and is on channel {channel} of {contact.part}, which"
        f" lies at the {lies}.",
        "Its output is right. Lead its wires across the board, or move them to the channel at its"
        " corner and say in `outputs` which output drives it.",
        where_joined(case, [contact], case.results.netlist.of[contact]),
        severity=Severity.REMARK,
    )


def _motor(case: Case, fitted: Fitted, piece: int, plan: RotationPlan) -> Outcome | None:
    nets, build = case.results.netlist, case.build
    number = str(piece or 1)
    leads = [
        Contact(fitted.key, piece, p) for p, pad in fitted.part.pads.items() if pad.role == "phase"
    ]
    reached = [
        c
        for lead in leads
        for c in with_roles(case, nets.of[lead], "phase")
        if c.part != fitted.key
    ]
    shared = any(len(with_roles(case, nets.of[lead], "phase")) > 2 for lead in leads)
    if (
        number not in plan.corners
        or shared
        or len({(c.board, build.pad(c).channel) for c in reached}) != 1
    ):
        return None  # wiring/phases-wrong finds leads that are loose, shared or spread
    output, wanted = _output(case, reached[0]), plan.outputs.get(number, int(number))
    if output is None:
        where = build.parts[reached[0].part].shelf_where
        return NotJudged(f"which drive output reaches motor {number}", where)
    if output != wanted:
        corner = plan.corners[number]
        return Found(
            f"Drive output {output} reaches motor {number} at the {corner}; the setup drives it"
            f" with output {wanted}.",
            "Move the drive lines or the leads, or say in `outputs` which output drives which"
            " motor.",
            where_joined(case, leads, nets.of[leads[0]]),
        )
    return _printed(case, reached[0], number, plan) or Judged()


def check(case: Case) -> Iterator[Outcome]:
    plan = case.build.source.setup.rotation
    motors = [(f, p) for f in case.build.of_kind(Motor) if f.part.pads for p in f.pieces]
    if not motors:
        return
    if plan is None or not plan.corners:
        yield NotJudged("which motor sits at which corner", case.build.where("setup", "rotation"))
        return
    for fitted, piece in motors:
        outcome = _motor(case, fitted, piece, plan)
        if outcome is not None:
            yield outcome
