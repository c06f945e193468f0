"""One link: what its ends are, what is lost between them, and what is left over."""

from dataclasses import dataclass

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.formulas.radio import (
    free_space_loss,
    link_margin,
    polarisation_loss,
    power_level,
    radiated_power,
    received_level,
)
from builder.compute.radio.channels import ranges_for
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build, Fitted
from builder.model.site import Allowed
from builder.model.values.quantities import Quantity

AXIS_RATIO = {"linear": 0.0, "right-hand": 1.0, "left-hand": -1.0}
GAIN_SPREAD = assumed("radio/gain-spread")
SENSITIVITY_SPREAD = assumed("radio/sensitivity-spread")
POWER_SHARE = assumed("radio/power-spread")


@dataclass(frozen=True, eq=False)
class Link:
    """One link. `allowed` is the range that holds its frequency, or None; `ranges` all ranges for
    what it serves. `gain_there` and `least` are of the end that receives; `words` what else is
    written of it, by what it is called.
    """

    serves: str
    frequency: MaybeFigure
    power: MaybeFigure
    gain: MaybeFigure
    radiated: MaybeFigure
    sent: str
    received: str
    polarisation: MaybeFigure
    distance: MaybeFigure
    path_loss: MaybeFigure
    margin: MaybeFigure
    allowed: Allowed | None
    ranges: tuple[Allowed, ...]
    gain_there: MaybeFigure
    least: MaybeFigure
    words: tuple[tuple[str, str], ...]


@dataclass(frozen=True, eq=False)
class SendingEnd:
    """What an end sends with: power, gain of its antenna, polarisation ('' where nobody says it)."""

    power: MaybeFigure
    gain: MaybeFigure
    polarisation: str


@dataclass(frozen=True, eq=False)
class ReceivingEnd:
    """What an end receives with: gain of its antenna, lowest level, polarisation."""

    gain: MaybeFigure
    least: MaybeFigure
    polarisation: str


@dataclass(frozen=True, slots=True)
class LinkName:
    """What a link serves, as keys and allowed ranges name it, and what is said of it."""

    serves: str
    words: str

    def key(self, build: Build) -> str:
        """With what the keys of its figures begin."""
        return f"{build.name}/radio/{self.serves}"


def stated(
    key: str,
    label: str,
    unit: str,
    given: Quantity | None,
    where: Where | None,
    missing: str,
    own: float = 0.0,
    share: float = 0.0,
) -> MaybeFigure:
    """What somebody wrote, with a spread of its own or as a share of it."""
    if given is None:
        return Unknown(key, label, (missing,))
    spread = own + share * given.value
    return leaf(key, label, given.value, unit, own=spread, basis="setting", where=where)


def of_shelf(fitted: Fitted | None, field: str, otherwise: str) -> tuple[str, Where | None]:
    """Key and place of a field of what is fitted; another key, and no place, without it."""
    if fitted is None:
        return otherwise, None
    return f"shelf/{fitted.shelf}/{field}", fitted.shelf_where.at(field)


def said_of_link(*pairs: tuple[str, str | None]) -> tuple[tuple[str, str], ...]:
    """What is written of a link in words; what is not written is left out."""
    return tuple((name, text) for name, text in pairs if text)


def link(
    build: Build,
    name: LinkName,
    frequency: MaybeFigure,
    distance: MaybeFigure,
    sender: SendingEnd,
    receiver: ReceivingEnd,
    words: tuple[tuple[str, str], ...],
) -> Link:
    """A link between two ends over a distance."""
    key, ranges = name.key(build), ranges_for(build, name.serves)
    radiated = _radiated(key, sender)
    turned = _polarisation(key, sender.polarisation, receiver.polarisation)
    loss = apply(
        f"{key}-path",
        "Loss of the path in free space",
        formula(free_space_loss),
        frequency,
        distance,
    )
    return Link(
        name.serves,
        frequency,
        sender.power,
        sender.gain,
        radiated,
        sender.polarisation,
        receiver.polarisation,
        turned,
        distance,
        loss,
        _to_spare(key, name.words, radiated, loss, turned, receiver),
        _within(ranges, frequency),
        ranges,
        receiver.gain,
        receiver.least,
        words,
    )


def _within(ranges: tuple[Allowed, ...], frequency: MaybeFigure) -> Allowed | None:
    if not isinstance(frequency, Figure):
        return None
    return next((a for a in ranges if a.from_.value <= frequency.value <= a.to.value), None)


def _radiated(key: str, sender: SendingEnd) -> MaybeFigure:
    note = "taken as none: the worse case for the limit"
    feeder = constant(f"{key}-feeder", "Loss of its cable", 0.0, "dB", note)
    label = "Radiated power (e.i.r.p.)"
    return apply(f"{key}-eirp", label, formula(radiated_power), sender.power, feeder, sender.gain)


def _polarisation(key: str, sent: str, received: str) -> MaybeFigure:
    own, label = f"{key}-polarisation", "Loss by polarisation"
    if sent not in AXIS_RATIO or received not in AXIS_RATIO:
        return Unknown(own, label, ("the polarisation of both ends",))
    there, here = AXIS_RATIO[sent], AXIS_RATIO[received]
    first = constant(f"{own}/sent", f"Axis ratio sent, {sent}", there, "1")
    second = constant(f"{own}/received", f"Axis ratio received, {received}", here, "1")
    turn = constant(f"{own}/turn", "Angle between the long axes", 0.0, "rad")
    return apply(own, label, formula(polarisation_loss), first, second, turn)


def _to_spare(
    key: str,
    what: str,
    radiated: MaybeFigure,
    loss: MaybeFigure,
    turned: MaybeFigure,
    receiver: ReceivingEnd,
) -> MaybeFigure:
    level = apply(f"{key}-level", "Radiated level", formula(power_level), radiated)
    got = apply(
        f"{key}-received",
        "Level at the receiver",
        formula(received_level),
        level,
        loss,
        turned,
        receiver.gain,
    )
    return apply(f"{key}-margin", f"Margin of {what}", formula(link_margin), got, receiver.least)
