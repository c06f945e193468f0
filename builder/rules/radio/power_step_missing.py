"""A power that the transmitter has no step for.

Checks: the power of the video channel against the steps of the video transmitter. It is compared with
the step that the build names beside the part (`set`), else with that of the shelf.
Why: the transmitter takes the nearest step of its own, often a larger one, and nobody knows what is
radiated.
Example: 25 mW on a transmitter with steps of 15, 100 and 400 mW.
Mend: set one of its steps, and write the same in both places.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.build import Build, FittedAs
from builder.model.kinds import VideoTransmitter
from builder.model.values.quantities import parse
from builder.rounding import MILLIWATTS
from builder.rules.compare import alike, clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT
YIELDS_TO = ("radio/radiated-power-over-limit",)


def _watts(text: str | None) -> float | None:
    """The power that a step is named after; None for a mode in words."""
    try:
        return parse(text, "power").value if text is not None else None
    except ValueError:
        return None


def _steps(build: Build, sender: FittedAs[VideoTransmitter]) -> Iterator[Outcome]:
    use, steps = build.source.setup.channel, sender.part.powers
    watts, at = (use.power if use is not None else None), build.where("setup", "channel", "power")
    if watts is None:
        watts, at = sender.part.set, sender.shelf_where.at("set")
    if watts is None:
        return
    if not steps:
        yield NotJudged(f"power steps of {sender.key}", sender.shelf_where)
    elif any(alike(watts.value, s.power.value) for s in steps):
        yield Judged()
    else:
        powers = say(", ".join("{}" for _ in steps), *(_shown(s.power.value) for s in steps))
        text = say("{} is set to {}; its steps are {}.", sender.key, _shown(watts.value), powers)
        yield clash(text, "Set one of its steps.", at, sender.shelf_where.at("powers"))


def _shown(watts: float) -> object:
    return given(watts, "W", shown_as=MILLIWATTS)


def _named(build: Build, sender: FittedAs[VideoTransmitter]) -> Iterator[Outcome]:
    use, named = build.source.setup.channel, _watts(sender.use.set)
    watts = use.power if use is not None else None
    of_shelf = sender.part.set.value if sender.part.set is not None else None
    at = build.where("parts", sender.key, "set")
    if sender.use.set is None:
        named, at = of_shelf, sender.shelf_where.at("set")
    if watts is None or named is None:
        return
    if alike(watts.value, named):
        yield Judged()
        return
    text = say(
        "{} is set to {}, and the channel to {}.", sender.key, _shown(named), _shown(watts.value)
    )
    other = build.where("setup", "channel", "power")
    milder = Severity.REMARK if sender.use.set is None else None
    yield clash(text, "Write one power in both places.", at, other, milder)


def check(case: Case) -> Iterator[Outcome]:
    for sender in case.build.of_kind(VideoTransmitter):
        yield from _steps(case.build, sender)
        yield from _named(case.build, sender)
