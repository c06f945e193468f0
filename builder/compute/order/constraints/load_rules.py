"""What the order of work insists on for loads, covers and the end of the work (common practice, no
source).
"""

from itertools import pairwise

from builder.compute.joints.bench_pieces import hanging_loads, is_centre, radios_of, sleeved
from builder.compute.joints.joints import Joint, touches
from builder.compute.joints.strips import before_power, in_place
from builder.compute.order.steps.joint_steps import loose_ends
from builder.compute.order.steps.work_step import LAST_GATE, Gathered, Phase, Why, WorkStep
from builder.model.build import Build, Fitted
from builder.model.kinds import (
    Antenna,
    FlightController,
    Receiver,
    SpeedController,
    VideoTransmitter,
)

_BARE_RAILS = "each rail is measured with nothing on it"


def hot(plan: Gathered) -> list[str]:
    """Names of the steps that are done with the iron."""
    return [s.id for s in plan.steps.values() if s.do in ("tin", "solder")]


def _waits(build: Build, load: Joint, joints: tuple[Joint, ...]) -> bool:
    """Whether a load's own joint waits for its gate in place of the board's, which cannot."""
    ends = {c for c in load.others if is_centre(build, c.part)}
    return any(before_power(build, j) for j in joints if j.contact in ends)


def _joint_of_load(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], key: str, j: Joint, rails: str
) -> None:
    """What one joint of a load waits for."""
    places = [p for p in (f"lay {key}", f"mount {key}") if p in plan.steps][:1]
    if j.contact.part == key:
        for place in places:
            plan.need(
                j.key, place, "its own ends are soldered while it lies free on the bench", Why.EASE
            )
    if not is_centre(build, j.contact.part):
        if _waits(build, j, joints):
            plan.need(rails, j.key, _BARE_RAILS, Why.SAFETY)
    elif not before_power(build, j):
        plan.need(rails, j.key, _BARE_RAILS, Why.SAFETY)
        if in_place(build, j):
            for place in places:
                plan.need(place, j.key, "leads are cut where they lie", Why.EASE)


def _loose(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    """Bare ends are covered before the board that they hang on gets power."""
    why = "a bare end that swings under power finds the frame or its neighbour"
    for f in build.of_kind(SpeedController, FlightController):
        for j, _ in loose_ends(build, joints, f.key):
            plan.need(
                j.key, f"tape {f.key}", "its far end hangs free until it is soldered", Why.SAFETY
            )
        letter = gates[0] if isinstance(f.part, SpeedController) else gates[1]
        plan.need(f"tape {f.key}", f"gate {letter}", why, Why.SAFETY)


def loads_joined(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    """What hangs on the boards, and the last look before it gets power."""
    rails, last = f"gate {gates[1]}", f"gate {gates[2]}"
    _loose(build, plan, joints, gates)
    for f in hanging_loads(build):
        for j in joints:
            if touches(j, f.key):
                _joint_of_load(build, plan, joints, f.key, j, rails)
                plan.need(j.key, last, "this gate puts power on it", Why.SAFETY)
        place = f"lay {f.key}" if f"lay {f.key}" in plan.steps else f"mount {f.key}"
        plan.need(place, last, "this gate puts power on it", Why.SAFETY)
    for f in build.of_kind(SpeedController, FlightController):
        for j in joints:
            if j.contact.part == f.key:
                plan.need(
                    j.key,
                    f"look over {f.key}",
                    "a bridge has to be found before power goes on",
                    Why.SAFETY,
                )
        plan.need(
            f"look over {f.key}",
            last,
            "a bridge has to be found before power goes on",
            Why.SAFETY,
        )


def _slid(build: Build, plan: Gathered, joints: tuple[Joint, ...], f: Fitted) -> None:
    """A sleeve is on the leads before the second end of any of them is soldered."""
    why = "a sleeve does not go on once both ends are soldered"
    fixed = [
        j
        for j in joints
        if touches(j, f.key) and is_centre(build, j.contact.part) and not in_place(build, j)
    ]
    for j in joints:
        if not touches(j, f.key):
            continue
        if j.contact.part != f.key and in_place(build, j):
            plan.need(f"slide {f.key}", j.key, why)
        for first in fixed:
            if j.contact.part == f.key and j.contact in first.others:
                plan.need(first.key, j.key, "its board's end is out of reach later")
                plan.need(f"slide {f.key}", j.key, why)
    plan.need(f"cut {f.key}", f"slide {f.key}", "its leads go through the sleeve")
    plan.need(f"slide {f.key}", f"lay {f.key}", why)


def covers(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    """Sleeves and antennas of radios."""
    last = f"gate {gates[2]}"
    for f in build.of_kind(Receiver, VideoTransmitter):
        for j in joints:
            if j.contact.part == f.key:
                plan.need(
                    j.key, f"cover {f.key}", "a cover that is shrunk first has to be cut off again"
                )
        if sleeved(build, f):
            _slid(build, plan, joints, f)
        plan.need(
            f"cover {f.key}",
            f"mount {f.key}",
            "the sleeve does not go over a part that is tied down",
        )
        plan.need(
            f"mount {f.key}",
            "tie",
            "wires are tied down once all of them lie in their places",
            Why.EASE,
        )
        plan.need(last, f"cover {f.key}", "its contacts are measured at this gate")
        plan.need(
            f"cover {f.key}",
            "setup",
            "nothing lies bare on the frame while it is under power for long",
            Why.SAFETY,
        )
    for a in build.of_kind(Antenna):
        for f in radios_of(build, a.key):
            for j in joints:
                if j.contact.part == f.key:
                    plan.need(j.key, f"antenna {a.key}", "the antenna's foot is kept from the iron")
            plan.need(f"antenna {a.key}", f"cover {f.key}", "the antenna's foot is under the cover")
        plan.need(
            f"antenna {a.key}",
            last,
            "a transmitter without its antenna burns its output",
            Why.SAFETY,
        )


def until_done(
    build: Build, plan: Gathered, joints: tuple[Joint, ...], gates: tuple[str, str, str]
) -> None:
    """From the gate of the loads to the scale: all that wants power first, then what is wet, then
    propellers.
    """
    powered = plan.named("gate ")
    for a, b in pairwise(powered):
        plan.need(a, b, "each gate adds one thing to what has passed", Why.SAFETY)
    for gate in powered:
        plan.need(gate, "coat", "coating comes off badly: it goes on what works")
        plan.need(gate, "tie", "what does not work is fixed before it is tied down", Why.EASE)
        for step in ("software", "setup"):
            plan.need(gate, step, "the set-up wants boards that are sound", Why.SAFETY)
        less = "a limited supply does less harm than a battery if there is a fault"
        plan.need(gate, "first pack", less, Why.SAFETY)
    for step in hot(plan):
        plan.need(step, "coat", "solder does not take on coating")
        plan.need(step, "tie", "wires are tied down once all of them lie in their places", Why.EASE)
    _end(plan)


def is_cover(step: WorkStep) -> bool:
    """Whether a step fits what lies over the boards."""
    return step.phase == Phase.CLOSE and step.id.startswith("fit ")


def _end(plan: Gathered) -> None:
    plan.need("match", "first pack", "unlike ones harm each other once they are joined", Why.SAFETY)
    plan.need("tie", "first pack", "a loose wire is drawn into a bell that turns", Why.SAFETY)
    plan.need(
        "setup", "first pack", "ports and motors are set before a battery can turn them", Why.SAFETY
    )
    plan.need("first pack", "rotation", "the motors turn from a battery only", Why.SAFETY)
    plan.need("software", "setup", "loading it takes the settings back to their first state")
    bound = plan.named("bind ")
    for step in bound:
        plan.need("setup", step, "its port is set before it can be heard")
        plan.need("first pack", step, "the limiter has shown that nothing is shorted", Why.SAFETY)
        plan.need(step, "rotation", "only a bound transmitter can stop a motor", Why.SAFETY)
    for step in ("first pack", "rotation", *bound):
        plan.need(
            step, "unplug", "the battery is unplugged before hands go to the boards", Why.SAFETY
        )
    for step in ("software", "setup", "rotation", "unplug", *bound):
        plan.need(step, "coat", "no power goes on while coating or glue is wet", Why.SAFETY)
    plan.need("coat", "dry", "coating and glue dry once they are on")
    plan.need("dry", "close", "nothing dries in a closed frame", Why.SAFETY)
    last = ("close", LAST_GATE, "propellers", "balance", "charge")
    covers_on = [s.id for s in plan.steps.values() if is_cover(s)]
    for step in list(plan.steps):
        if step not in last:
            plan.need(step, "close", "a closed frame is not opened again for this")
        if step not in (*last, *covers_on):
            for cover in covers_on:
                plan.need(step, cover, "what it covers is reached until then")
    tried = "everything has run once without them, and the battery is unplugged"
    unplugged = "propellers go on with the battery unplugged, last of all"
    plan.need("close", LAST_GATE, "it is tried once more as it will fly", Why.SAFETY)
    plan.need(LAST_GATE, "propellers", tried, Why.SAFETY)
    stored = "every gate is passed with the battery at storage charge"
    plan.need(LAST_GATE, "charge", stored, Why.SAFETY)
    done = "no work at the aircraft is left once a battery is full"
    plan.need("propellers", "charge", done, Why.SAFETY)
    plan.need("balance", "charge", done, Why.EASE)
    plan.need(LAST_GATE, "balance", "what is weighed is finished", Why.EASE)
    plan.need("close", "propellers", unplugged, Why.SAFETY)
    plan.need("rotation", "propellers", "rotation is checked without them", Why.SAFETY)
    plan.need("unplug", "propellers", unplugged, Why.SAFETY)
    plan.need("propellers", "balance", "the dry weight counts the propellers", Why.EASE)
    plan.need("close", "balance", "it is weighed and balanced whole", Why.EASE)
