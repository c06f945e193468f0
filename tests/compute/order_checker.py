"""Checks an order of work by what a person at the bench insists on. Written apart from the planner:
it knows steps by
their names and what they do, and asks the build, never the planner's constraints."""

from collections.abc import Callable, Iterator

from builder.compute.order.steps.work_step import WorkStep
from builder.compute.order.work_order import Plan
from builder.model.build import Build

Test = Callable[[WorkStep], bool]


def _begins(*words: str) -> Test:
    return lambda s: s.id.startswith(words)


def _solder(step: WorkStep) -> bool:
    return step.do in ("tin", "solder") and step.own is None


def _joint_at(part: str, *pads: str) -> Test:
    return lambda s: (
        s.joint is not None
        and s.joint.contact.part == part
        and (not pads or s.joint.contact.pad in pads)
    )


def _to(part: str) -> Test:
    return lambda s: s.joint is not None and any(part in (c.part, c.board) for c in s.joint.others)


def _rules(build: Build) -> Iterator[tuple[str, Test, Test]]:
    """Words, what comes first, what comes after: every one of the first before every one of the
    second.
    """
    kinds = {f.key: f.part.KIND for f in build.parts.values()}
    drives = next(k for k, kind in kinds.items() if kind in ("speed-controller", "combined-board"))
    control = next((k for k, kind in kinds.items() if kind == "flight-controller"), "")
    yield "parts are accepted before solder", _begins("weigh", "usb ", "spin "), _solder
    yield "dry fit before cutting", _begins("dry fit"), _begins("cut ", "trim ", "legs ")
    yield "dry fit before solder", _begins("dry fit"), _solder
    yield "cups: sleeve on, mate in", _begins("cut pigtail", "mate pigtail"), _joint_at("pigtail")
    yield "cups are tinned before", _named("tin pigtail cups"), _joint_at("pigtail")
    yield "cups before their sleeve is shrunk", _joint_at("pigtail"), _begins("sleeve pigtail")
    yield (
        "cups before the leads are on the board",
        _begins("sleeve pigtail"),
        _joint_at(drives, "BAT+", "BAT-"),
    )
    yield "legs before their joint", _begins("legs capacitor"), _to("capacitor")
    yield "minus first", _joint_at(drives, "BAT-"), _joint_at(drives, "BAT+")
    yield (
        "heavy joints before the soft mounts",
        _joint_at(drives, "BAT+", "BAT-"),
        _begins(f"mount {drives}"),
    )
    yield "heavy joints before gate A", _joint_at(drives, "BAT+", "BAT-"), _begins("gate A")
    for f in build.parts.values():
        if kinds[f.key] == "motor":
            for name in [f"{f.key}.{p}" if p else f.key for p in f.pieces]:
                yield (
                    f"{name} mounted before its leads are cut",
                    _begins(f"mount {name}"),
                    _named(f"trim {name}"),
                )
                yield f"{name} cut before it is soldered", _named(f"trim {name}"), _to(name)
                yield (
                    f"{name}: leads tinned once they are cut",
                    _named(f"trim {name}"),
                    _named(f"tin {f.key} leads"),
                )
                yield f"{name}: leads tinned before", _named(f"tin {f.key} leads"), _to(name)
                yield f"{name}: phases measured before", _begins("phases "), _to(name)
                yield (
                    f"{name}: phases measured before its plug",
                    _begins("phases "),
                    _named(f"plug {name}"),
                )
                yield f"{name} after gate A", _begins("gate A"), _to(name)
    if control:
        yield "gate A before the control board", _begins("gate A"), _begins(f"mount {control}")
        yield (
            "the harness is rung before it is plugged",
            _named("ring harness"),
            _named("plug harness"),
        )
        yield "gate A before the harness", _begins("gate A"), _named("plug harness")
        yield (
            "the harness before the board above",
            _named("plug harness"),
            _begins(f"mount {control}"),
        )
        yield "what lies below is done", _joint_at(drives), _begins(f"mount {control}")
        yield "control board before gate B", _begins(f"mount {control}"), _begins("gate B")
    yield from _of_loads(kinds, "gate B" if control else "gate A")
    yield "dead outputs are found before power", _begins("phases "), _begins("gate A")
    yield from _end()


def _end() -> Iterator[tuple[str, Test, Test]]:
    gates = _begins("gate ")
    yield "coating after the gates", gates, _begins("coat")
    yield "coating after solder", _solder, _begins("coat")
    yield "rotation before propellers", _begins("rotation"), _begins("propellers")
    yield (
        "the last gate with the frame closed",
        lambda s: s.id in ("coat", "dry", "close"),
        _named("last gate"),
    )
    yield "the last gate before the propellers", _named("last gate"), _begins("propellers")
    yield "the last gate before the scale", _named("last gate"), _named("balance")
    yield "pack unplugged before propellers", _begins("unplug"), _begins("propellers")
    yield "all gates before a pack", gates, _named("first pack")
    yield "set-up before a pack", _named("setup"), _named("first pack")
    yield "batteries match before one is plugged", _named("match"), _named("first pack")
    yield "a pack before motors turn", _named("first pack"), _named("rotation")
    yield (
        "no power once it is wet",
        lambda s: s.id in ("setup", "first pack", "rotation", "unplug"),
        _named("coat"),
    )
    yield "dry before it is closed", lambda s: s.id in ("coat", "dry"), _named("close")
    yield "the dry weight counts the propellers", _named("propellers"), _named("balance")
    yield (
        "propellers last",
        lambda s: s.id not in ("propellers", "balance", "charge") and s.own is None,
        _begins("propellers"),
    )
    yield "no full battery before the last gate", gates, _named("charge")
    yield "no full battery before the scale", _named("balance"), _named("charge")


def _named(name: str) -> Test:
    return lambda s: s.id == name


def _of_loads(kinds: dict[str, str], rails: str) -> Iterator[tuple[str, Test, Test]]:
    def last_gate(s: WorkStep) -> bool:
        return s.gate != "" and s.id not in ("gate A", rails, "last gate")

    for load in ("receiver", "video", "camera", "lights"):
        if load not in kinds:
            continue
        own = _joint_at(load)
        for joints in (own, _to(load)):
            yield f"{load}: cut before solder", _named(f"cut {load}"), joints
            yield f"{load}: all joints before its gate", joints, last_gate
        if load in ("receiver", "video"):
            yield f"{load}: leads before cover", own, _named(f"cover {load}")
            yield (
                f"{load}: measured before it is covered",
                _begins("gate "),
                _named(f"cover {load}"),
            )
            yield (
                f"{load}: covered before it lies under power for long",
                _named(f"cover {load}"),
                _named("setup"),
            )
            yield f"{load}: cover before mounting", _named(f"cover {load}"), _named(f"mount {load}")
            antenna = _named("antenna video-antenna" if load == "video" else "antenna rx-antenna")
            yield f"{load}: antenna before power", antenna, last_gate
            yield f"{load}: antenna before cover", antenna, _named(f"cover {load}")


def broken(build: Build, plan: Plan) -> list[str]:
    """What the order breaks, in words; empty for a good one."""
    out = []
    for words, first, second in _rules(build):
        ends = [i for i, s in enumerate(plan.steps) if first(s)]
        starts = [i for i, s in enumerate(plan.steps) if second(s)]
        own = {id(s) for s in plan.steps if first(s)} & {id(s) for s in plan.steps if second(s)}
        if not own and ends and starts and max(ends) > min(starts):
            out.append(
                f"{words}: {plan.steps[max(ends)].id} comes after {plan.steps[min(starts)].id}"
            )
    out += [*_sides(build, plan), *_supplies(build, plan), *_one_heating(plan)]
    return [*out, *_loose_ends(build, plan), *_sleeves(build, plan)]


def _sides(build: Build, plan: Plan) -> Iterator[str]:
    """The hidden side first, and before its board is mounted."""
    place = {s.id: i for i, s in enumerate(plan.steps)}
    for low in plan.steps:
        if low.joint is None or build.pad(low.joint.contact).side != "under":
            continue
        part = low.joint.contact.part
        if place[low.id] > place.get(f"mount {part}", len(place)):
            yield f"{low.id} on the underside of a mounted board"
        for s in plan.steps:
            top = (
                s.joint is not None
                and s.joint.contact.part == part
                and build.pad(s.joint.contact).side == "top"
            )
            late = (
                build.parts[part].part.KIND == "combined-board"
                or build.pad(low.joint.contact).role == "phase"
            )
            if top and late and s.joint is not None:
                top = not build.pad(
                    s.joint.contact
                ).battery  # its battery comes before its first gate, wires after it
            if top and place[s.id] < place[low.id]:
                yield f"{low.id} on the hidden side comes after {s.id}"


def _supplies(build: Build, plan: Plan) -> Iterator[str]:
    """No load hangs on a board by both ends of a wire until the rails were measured with nothing on
    them.
    """
    place = {s.id: i for i, s in enumerate(plan.steps)}
    rails = place[
        "gate B"
        if any(f.part.KIND == "flight-controller" for f in build.parts.values())
        else "gate A"
    ]
    for run in build.wires:
        on_board = build.parts[run.end.part].part.KIND in (
            "flight-controller",
            "combined-board",
            "speed-controller",
        )
        if on_board and run.start.part in ("receiver", "video", "camera", "lights"):
            done = [place.get(f"solder {c}", len(place)) for c in (run.start, run.end)]
            if max(done) < rails:
                yield f"{run.start} hangs on {run.end} before the rails were measured"


def _one_heating(plan: Plan) -> Iterator[str]:
    """All wires at one contact are one step: battery minus and capacitor minus in one heating."""
    contacts = [s.joint.contact for s in plan.steps if s.joint is not None]
    for contact in set(contacts):
        if contacts.count(contact) > 1:
            yield f"{contact} is heated {contacts.count(contact)} times"


def _places(plan: Plan) -> dict[str, int]:
    return {s.id: i for i, s in enumerate(plan.steps)}


def _loose_ends(build: Build, plan: Plan) -> Iterator[str]:
    """At no gate does a wire hang on a board with power and a bare far end, unless it was taped
    over before.
    """
    place = _places(plan)
    first = {
        "speed-controller": "gate A",
        "combined-board": "gate A",
        "flight-controller": "gate B",
    }
    gates = [i for i, s in enumerate(plan.steps) if s.gate and s.id != "last gate"]
    for run in build.wires:
        if run.wire.lead is not None:
            continue
        for near, far in ((run.start, run.end), (run.end, run.start)):
            on = first.get(build.parts[near.part].part.KIND)
            done, other = (place.get(f"solder {c}", len(place)) for c in (near, far))
            hanging = [g for g in gates if on is not None and done < g < other and g >= place[on]]
            if hanging and place.get(f"tape {near.part}", len(place)) > hanging[0]:
                yield f"{near} has a bare wire at {plan.steps[hanging[0]].id}"


def _sleeves(build: Build, plan: Plan) -> Iterator[str]:
    """A sleeve is on before the second end of any wire of its part is soldered."""
    place = _places(plan)
    for run in build.wires:
        for end in (run.start, run.end):
            on = place.get(f"slide {end.part}")
            ends = [place.get(f"solder {c}", -1) for c in (run.start, run.end)]
            if on is not None and run.wire.lead is None and on > max(ends):
                yield f"the sleeve of {end.part} does not go over {run.start} to {run.end}"
