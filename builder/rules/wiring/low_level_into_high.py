"""A 3.3 V output into an input of 5 V logic.

Checks: the level that an output gives against the level at which an input of another part works.
For light data that is the volts that the lights run on, where the pad does not say.
Why: it mostly works and sometimes flickers, above all in the cold and over long wires.
Example: a board's 3.3 V light output into lights that run on 5 V.
Mend: none needed if it works; else a level shifter, or feed the lights a little less than 5 V.
Source: common practice, no source (a high of 0.7 times the supply is what 5 V logic of this kind
asks for)
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.build import Contact
from builder.model.kinds import Lights
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.say import given, say
from builder.rules.wiring._nets import is_sound, joined_nets, where_joined, with_roles

SEVERITY = Severity.REMARK
_HIGH = assumed("wires/signal-high")


def _works_at(case: Case, contact: Contact) -> float | None:
    pad, part = case.build.pad(contact), case.build.parts[contact.part].part
    if pad.level is not None:
        return pad.level.value
    if isinstance(part, Lights):
        volts = (
            part.supply.at if part.supply is not None and part.supply.at is not None else part.volts
        )
        return volts.value if volts is not None else None
    return None


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for net in joined_nets(case):
        if not is_sound(case, net):
            continue
        outs = [
            (o, v.value)
            for o in with_roles(case, net, "light-out", "sends", "drive-out")
            if (v := build.pad(o).level)
        ]
        for i in with_roles(case, net, "light-in", "listens", "drive-in"):
            works = _works_at(case, i)
            heard = [(o, level) for o, level in outs if o.board != i.board]
            if works is None or not heard:
                continue
            o, level = heard[0]
            if level < _HIGH * works:
                yield Found(
                    say(
                        "{} puts out {} into {}, which works at {}.",
                        o,
                        given(level, "V"),
                        i,
                        given(works, "V"),
                    ),
                    "Watch for flicker; a level shifter cures it.",
                    where_joined(case, [i], net),
                )
            else:
                yield Judged()
