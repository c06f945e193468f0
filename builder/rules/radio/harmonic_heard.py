"""A radio that another one hears beside it.

Checks: each frequency that is sent, and its harmonics up to the fifth, against what listens beside it. Aboard: the
picture against the control receiver, picture and telemetry against the satellite receiver. On the ground: the hand
transmitter against the picture receiver. A satellite receiver listens from 1559 to 1610 MHz. Picture and control on
one band are found by 'Two links on one band'.
Why: a transmitter leaks some power at whole multiples of its frequency, and a receiver beside it hears that.
Example: a picture at 1232 MHz beside a control receiver at 2.4 GHz.
Mend: take another channel or another band, or put the two antennas far apart.
Source: harmonics of a nonlinear amplifier (definition); 1559 to 1610 MHz: ITU Radio Regulations, article 5 (from
memory); up to which harmonic is common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Unknown
from builder.compute.radio.pairs import RadioPair, radio_pairs
from builder.diagnostics.finding import Severity
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.REMARK
YIELDS_TO = ("radio/links-overlap",)
_MEND = "Take another channel or another band, or put the two antennas far apart."


def _lacking(pair: RadioPair) -> NotJudged | None:
    if isinstance(pair.sender.frequency, Unknown):
        return NotJudged(pair.sender.frequency.missing[0], pair.sender.where)
    if pair.listener.span is None:
        return NotJudged(f"frequencies of {pair.listener.words}", pair.listener.where)
    return None


def check(case: Case) -> Iterator[Outcome]:
    for pair in radio_pairs(case.build, case.results.settings.radio):
        lacks = _lacking(pair)
        if lacks is not None:
            yield lacks
            continue
        sent, order, satellite = pair.sender.frequency, pair.heard, pair.is_satellite
        if isinstance(sent, Unknown) or order is None or (order == 1 and not satellite):
            yield Judged()
            continue
        frequency = given(sent.value, "Hz")
        if order == 1:
            text = say("{} hears {} at {}.", pair.listener.words, pair.sender.words, frequency)
        else:
            text = say(
                "{} hears {}: {} times {} is {}.",
                pair.listener.words,
                pair.sender.words,
                order,
                frequency,
                made(order * sent.value, "Hz"),
            )
        yield clash(text, _MEND, pair.sender.where, pair.listener.where)
