"""Two ends of a picture line that are not matched.

Checks: the resistance of an analogue picture's output against that of the input on its net. The
output of a camera is compared with its own contact.
Why: a picture line that is not matched is too bright or too dark, and edges have ghosts.
Example: an output of 75 Ω on an input of 1000 Ω.
Mend: read both papers; a resistor of 75 Ω across the input matches it.
Source: Rec. ITU-R BT.470, 75 Ω of a picture line (from memory)
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build, Contact
from builder.model.kinds import Camera
from builder.rules.compare import alike, clash
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import given, say
from builder.rules.wiring._nets import is_sound, joined_nets, with_roles

SEVERITY = Severity.REMARK
_SAME = assumed("statements/impedance")


def _at(build: Build, contact: Contact) -> Where:
    return build.parts[contact.part].shelf_where.at("pads", contact.pad, "resistance")


def _pair(build: Build, source: Contact, sink: Contact) -> Iterator[Outcome]:
    one, other = build.pad(source).resistance, build.pad(sink).resistance
    if one is None or other is None:
        return
    if alike(one.value, other.value, _SAME):
        yield Judged()
        return
    first, second = given(one.value, "ohm"), given(other.value, "ohm")
    text = say("{} has {}, and {} has {}.", source, first, sink, second)
    hint = "Read both papers, and correct the one that is wrong, or match the line."
    yield clash(text, hint, _at(build, sink), _at(build, source))


def _own(build: Build) -> Iterator[Outcome]:
    for camera in build.of_kind(Camera):
        said, at = camera.part.output, camera.shelf_where
        for name, pad in camera.part.pads.items():
            if said is None or pad.role != "video-out" or pad.resistance is None:
                continue
            if alike(said.value, pad.resistance.value, _SAME):
                yield Judged()
                continue
            first, second = given(said.value, "ohm"), given(pad.resistance.value, "ohm")
            text = say(
                "The output of {} has {}, its contact {} {}.", camera.key, first, name, second
            )
            other = at.at("pads", name, "resistance")
            yield clash(text, "Correct one of the two.", at.at("output"), other)


def check(case: Case) -> Iterator[Outcome]:
    yield from _own(case.build)
    for net in joined_nets(case):
        if not is_sound(case, net):
            continue
        outs, ins = with_roles(case, net, "video-out"), with_roles(case, net, "video-in")
        for sink in ins if len(outs) == 1 else ():
            if sink.board != outs[0].board:
                yield from _pair(case.build, outs[0], sink)
