"""A part that says two things of itself.

Checks: a frame of carbon or metal against `conducts: no`. A screw's head is wider than its thread. A
radio whose antenna is fixed, or on the board, has no connector for another.
Why: a bare pad on carbon is a short; a plan that takes the part for another is wrong.
Example: a frame of carbon plate that is said not to conduct.
Mend: look at the part, and correct the one that is wrong.
Source: carbon fibre conducts (any handbook of composites, from memory); the figures themselves
"""

import re
from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Fitted
from builder.model.kinds import Frame, Hardware, Receiver, VideoTransmitter
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.CAUTION
OF_EACH_PART = True
_CONDUCTS = re.compile(r"\b(carbon|steel|titanium|aluminium|brass|copper)\b", re.IGNORECASE)
_NOT = re.compile(r"\b(coated|wrapped|film|without)\b", re.IGNORECASE)
_LOOK = "Look at the part, and correct the one that is wrong."
_METRIC = re.compile(r"M(\d+(?:\.\d+)?)")


def _conducts(fitted: Fitted) -> Iterator[Outcome]:
    part, at = fitted.part, fitted.shelf_where
    if not isinstance(part, Frame) or part.material is None or part.conducts is None:
        return
    metal = _CONDUCTS.search(part.material) and not _NOT.search(part.material)
    if part.conducts or not metal:
        yield Judged()
        return
    text = f"{fitted.key} is of {part.material}, and is said not to conduct."
    hint = "Hold a meter to a cut edge: carbon and metal conduct."
    yield clash(text, hint, at.at("conducts"), at.at("material"))


def _head(fitted: Fitted) -> Iterator[Outcome]:
    part, at = fitted.part, fitted.shelf_where
    if not isinstance(part, Hardware) or part.form != "screw" or part.head == "none":
        return
    thread = _METRIC.match(part.thread or "")
    if thread is None or part.head_diameter is None:
        return
    wide = float(thread[1]) / 1000.0
    if part.head_diameter.value > wide:
        yield Judged()
        return
    head = given(part.head_diameter.value, "m")
    text = say(
        "The head of {} measures {}, no more than its thread {}.", fitted.key, head, thread[0]
    )
    yield clash(text, "Measure the head.", at.at("head_diameter"), at.at("thread"), Severity.REMARK)


def _antenna(fitted: Fitted) -> Iterator[Outcome]:
    part, at = fitted.part, fitted.shelf_where
    if not isinstance(part, Receiver | VideoTransmitter) or part.antenna is None:
        return
    if part.antenna == "coax" or part.coax is None:
        yield Judged()
        return
    word = "is fixed" if part.antenna == "fixed" else "is a chip"
    text = f"The antenna of {fitted.key} {word}, and it has a connector for one."
    yield clash(text, _LOOK, at.at("antenna"), at.at("coax"), Severity.REMARK)


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.parts.values():
        for look in (_conducts, _head, _antenna):
            yield from look(fitted)
