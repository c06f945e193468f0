"""The standing cautions of the bench, by what a build holds. Usual cautions; local rules and
licensed practice come first.
"""

from collections.abc import Callable
from dataclasses import dataclass

from builder.diagnostics.finding import Signal
from builder.model.build import Build
from builder.model.kinds import (
    Consumable,
    FlightController,
    Frame,
    Motor,
    Pack,
    Propeller,
    SpeedController,
    VideoTransmitter,
)


@dataclass(frozen=True)
class Caution:
    """What a person at the bench must heed, with its signal word."""

    key: str
    signal: Signal
    title: str
    text: str
    applies: Callable[[Build], bool]


def _leaded(build: Build) -> bool:
    return any(
        getattr(f.part, "leaded", None) is not False
        for f in build.of_kind(Consumable)
        if getattr(f.part, "alloy", None)
    )


def _carbon(build: Build) -> bool:
    return any("carbon" in (f.part.material or "").casefold() for f in build.of_kind(Frame))


CAUTIONS = (
    Caution(
        "pack",
        Signal.DANGER,
        "A lithium battery can catch fire, and it burns without air.",
        "Never charge it unwatched, on anything that burns, or when it is swollen, punctured, wet,"
        " below 0 °C or still hot from a flight. Set the charger to the battery's chemistry,"
        " cells and charge current; 1C where nobody says. Do not charge a battery with a cell below"
        " 2.5 V, and join batteries in parallel only with equal cells and volts. Store it away from"
        " what burns: lithium-polymer at about 3.8 V a cell, lithium-ion at about 3.6 V."
        " If it swells, hisses or smokes, keep away and call for help."
        " Keep it away from the iron and from loose screws. A short across its leads burns skin and"
        " starts a fire. Its maker's sheet and local rules come first.",
        lambda b: any(isinstance(p.part, Pack) for p in b.packs.values()),
    ),
    Caution(
        "propellers",
        Signal.WARNING,
        "Propellers off for all work on the bench.",
        "A motor that starts by itself cuts to the bone. Propellers go on last, with the battery"
        " unplugged.",
        lambda b: bool(b.of_kind(Motor)) and bool(b.of_kind(Propeller)),
    ),
    Caution(
        "goggles",
        Signal.WARNING,
        "With goggles on you do not see who is near the aircraft.",
        "Propellers cut whoever they meet. Fly by its picture only with an observer beside you who"
        " keeps it in sight, as local rules ask.",
        lambda b: bool(b.of_kind(VideoTransmitter)) and bool(b.of_kind(Propeller)),
    ),
    Caution(
        "iron",
        Signal.CAUTION,
        "The iron and everything it touched stay hot.",
        "They burn skin and set fire to what lies near. Use its stand, and let joints cool before you"
        " feel them.",
        lambda b: bool(b.wires),
    ),
    Caution(
        "fumes",
        Signal.CAUTION,
        "Do not breathe the smoke of the flux.",
        "It irritates eyes and lungs, and may bring on asthma. Work with a fan that draws it away from"
        " you, in a room that can be aired.",
        lambda b: bool(b.wires),
    ),
    Caution(
        "eyes",
        Signal.CAUTION,
        "Cut ends fly, and flux spits.",
        "They injure eyes. Wear eye protection when you cut, strip and solder. Hold the end that you"
        " cut off.",
        lambda b: bool(b.wires) or bool(b.of_kind(Motor)),
    ),
    Caution(
        "carbon",
        Signal.CAUTION,
        "Dust of carbon plate irritates skin and lungs, and conducts.",
        "It itches for days and shorts boards. File and drill it wet, away from the boards, with mask"
        " and gloves. Wipe it up wet.",
        _carbon,
    ),
    Caution(
        "solvents",
        Signal.CAUTION,
        "Cleaner, coating and glue give off vapour that burns.",
        "It makes dizzy and catches fire at a hot iron. Switch the iron off first, keep flames away,"
        " air the room, wear gloves. Their labels come first.",
        lambda b: bool(b.wires),
    ),
    Caution(
        "violet",
        Signal.CAUTION,
        "A lamp of violet light harms eyes and skin.",
        "The eye does not see how bright it is. If you cure or look at coating with one, do not look"
        " into it, and shade it from others.",
        lambda b: bool(b.of_kind(SpeedController, FlightController)),
    ),
    Caution(
        "lead",
        Signal.CAUTION,
        "Leaded solder is poisonous when swallowed.",
        "Do not eat or drink at the bench, and wash your hands. Waste goes where your local rules"
        " say.",
        _leaded,
    ),
    Caution(
        "antenna",
        Signal.NOTICE,
        "Never power a video transmitter without its antenna.",
        "Its output burns within seconds; it also needs moving air when it stays on at the bench.",
        lambda b: bool(b.of_kind(VideoTransmitter)),
    ),
    Caution(
        "boards",
        Signal.CAUTION,
        "Boards get hot on the bench.",
        "Without moving air a video transmitter or a speed controller burns fingers within a"
        " minute, and then itself. Put a fan on it, and keep to the times that each gate names.",
        lambda b: bool(b.of_kind(VideoTransmitter, SpeedController)),
    ),
    Caution(
        "law",
        Signal.NOTICE,
        "Where and how it may be flown is local law.",
        "Weights, radio power and places are named here with their source to help, not as advice.",
        lambda b: True,
    ),
)


def cautions_for(build: Build) -> tuple[Caution, ...]:
    """The cautions that apply, worst first."""
    found = [c for c in CAUTIONS if c.applies(build)]
    return tuple(sorted(found, key=lambda c: list(Signal).index(c.signal)))
