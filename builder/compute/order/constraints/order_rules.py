"""What the order of work insists on, each constraint with its reason (common practice, no source).

Joints are in joint_rules.py, frame, motors and plugs in mounting_rules.py, loads, covers and the end
of the work in load_rules.py.
"""

from collections.abc import Callable

from builder.compute.joints.bench_pieces import gate_letters
from builder.compute.joints.joints import Joint
from builder.compute.order.constraints.joint_rules import (
    before_each_joint,
    heavy_first,
    hidden_first,
)
from builder.compute.order.constraints.load_rules import covers, hot, loads_joined, until_done
from builder.compute.order.constraints.mounting_rules import (
    frame_first,
    motors_after_gates,
    plugs_after_gates,
)
from builder.compute.order.steps.work_step import Gathered, Why
from builder.compute.power_up.gate import Gate
from builder.model.build import Build

Insist = Callable[[Build, Gathered, tuple[Joint, ...], tuple[str, str, str]], None]


def _accepting(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    checks = [*plan.named("usb ", "spin "), *(["weigh"] if "weigh" in plan.steps else [])]
    for step in hot(plan):
        for check in checks:
            plan.need(check, step, "soldered parts are not taken back", Why.EASE)
        plan.need("dry fit", step, "nothing then has to be unsoldered", Why.EASE)
    for check in checks:
        plan.need(check, "dry fit", "a marked part cannot be returned", Why.EASE)
    for step in plan.named("cut ", "trim ", "legs "):
        plan.need("dry fit", step, "lengths are known once everything lies in its place", Why.EASE)
    plan.need("dry fit", "screws", "the stack-up is known once it stands together", Why.EASE)


_ALL: tuple[Insist, ...] = (
    _accepting,
    frame_first,
    before_each_joint,
    heavy_first,
    motors_after_gates,
    hidden_first,
    plugs_after_gates,
    loads_joined,
    covers,
    until_done,
)


def constrain(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[Gate, ...]
) -> None:
    """Adds all that is insisted on."""
    letters = gate_letters(build, gates)
    for insist in _ALL:
        insist(build, plan, joints, letters)
