"""From which rail each load is fed: followed through the nets, so that both power and flight read
one truth.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from builder.compute.circuit.nets import Netlist
from builder.compute.circuit.pack_volts import volts_of_packs
from builder.diagnostics.where import Where
from builder.model.build import Build, Contact, Fitted
from builder.model.kinds import Buzzer, Capacitor, Connector, Lights, Motor, VideoTransmitter
from builder.model.source.feeding import Draw, Rail


@dataclass(frozen=True)
class Source:
    """A supply: a board's rail (`rail` set), or the pack itself (`rail` None)."""

    part: str
    name: str
    rail: Rail | None

    @property
    def label(self) -> str:
        """`controller 9V`, or `pack`."""
        return f"{self.part} {self.name}" if self.part else "battery"


@dataclass(frozen=True)
class Load:
    """What a part takes from a source. Currents in A at the source's volts; None where nobody says."""

    part: str
    pad: Contact
    source: Source | None
    low: float | None
    high: float | None
    idle: float | None
    typical: float | None
    peak: float | None
    peak_seconds: float | None
    start: float | None
    where: Where


PACK = Source("", "pack", None)


def _pack_pads(build: Build) -> set[Contact]:
    """Plus contacts of pigtails and balance leads: what is on their net is fed by the pack."""
    found = set()
    for fitted in build.of_kind(Connector):
        for piece in fitted.pieces:
            for name, pad in fitted.part.pads.items():
                if pad.polarity == "plus" or (
                    pad.polarity is None and name.upper() in ("PLUS", "+", "BAT+")
                ):
                    found.add(Contact(fitted.key, piece, name))
    return found


def sources_by_net(build: Build, nets: Netlist) -> Mapping[str, tuple[Source, ...]]:
    """The supplies on each net, by the net's name."""
    out: dict[str, list[Source]] = {}
    battery = {nets.of[c].name for c in _pack_pads(build)}
    for name in battery:
        out[name] = [PACK]
    for net in nets.nets:
        for contact in net.contacts:
            pad, part = build.pad(contact), build.parts[contact.part].part
            rail = part.rails.get(pad.rail or "")
            if pad.role != "supply" or isinstance(part, Connector):
                continue
            if pad.rail == "battery" or (rail is not None and rail.volts == "battery"):
                source = PACK
            elif rail is not None:
                source = Source(contact.board, pad.rail or "", rail)
            else:
                continue
            if source not in out.setdefault(net.name, []):
                out[net.name].append(source)
    return {k: tuple(v) for k, v in out.items()}


def _set_power(build: Build, sender: VideoTransmitter) -> float | None:
    """The power that is set in this build, else the one that the shelf names."""
    use = build.source.setup.channel
    only = len(build.of_kind(VideoTransmitter)) == 1
    if only and use is not None and use.power is not None:
        return use.power.value
    return sender.set.value if sender.set is not None else None


def _by_power(draw: Draw, volts: float | None) -> float | None:
    """Typical current of a load that names its power, in A at the volts that feed it."""
    if draw.power is None or not volts:
        return None
    return draw.power.value / volts


def _volts_of(build: Build, source: Source | None, fitted: Fitted) -> float | None:
    """The volts at which a load is fed: its rail's, else the lowest battery's nominal ones."""
    rail = source.rail if source is not None else None
    if rail is not None and not isinstance(rail.volts, str):
        return rail.volts.value
    packs = [volts.nominal for volts in volts_of_packs(build)]
    supply = fitted.part.supply
    at = supply.at.value if supply is not None and supply.at is not None else None
    return min(packs) if packs else at


def currents_of(
    build: Build, fitted: Fitted, source: Source | None
) -> tuple[float | None, float | None, float | None, float | None, float | None]:
    """Idle, typical, peak, its seconds, starting current of a part."""
    part = fitted.part
    supply = part.supply
    draw = supply.draw if supply is not None else Draw()
    typical = draw.typical.value if draw.typical is not None else None
    if typical is None:
        typical = _by_power(draw, _volts_of(build, source, fitted))
    peak = draw.peak.current if draw.peak is not None else None
    seconds = draw.peak.seconds if draw.peak is not None else None
    watts = _set_power(build, part) if isinstance(part, VideoTransmitter) else None
    if isinstance(part, VideoTransmitter) and watts is not None:
        drawn = [p for p in part.powers if p.draw is not None]
        step = next((p for p in drawn if abs(p.power.value - watts) < 1e-9), None)
        typical = step.draw.value if step is not None and step.draw is not None else typical
    if isinstance(part, Lights) and part.lamps and part.each is not None:
        duty = part.duty.value if part.duty is not None else 1.0
        typical = part.lamps * part.each.current * duty
        peak = part.lamps * part.each.current
    if isinstance(part, Buzzer) and part.draw is not None:
        peak = part.draw.value
    if isinstance(part, Buzzer):
        # It does not sound in flight.
        peak, typical = (peak if peak is not None else typical), 0.0
    at_rest = draw.idle or (supply.idle if supply is not None else None)
    idle = at_rest.value if at_rest is not None else None
    start = draw.start.value if draw.start is not None else None
    at = supply.at.value if supply is not None and supply.at is not None else None
    volts = _volts_of(build, source, fitted)
    if supply is not None and supply.constant_power and at and volts:
        # the same power at other volts: P = U * I
        typical, peak = (a * at / volts if a is not None else None for a in (typical, peak))
    return idle, typical, peak, seconds, start


def loads(build: Build, nets: Netlist) -> tuple[Load, ...]:
    """Every part that draws, with the source that feeds it (None: no supply on its net)."""
    by_net = sources_by_net(build, nets)
    out = []
    for fitted in build.parts.values():
        if isinstance(fitted.part, Motor | Capacitor | Connector):
            continue
        supply = fitted.part.supply
        for piece in fitted.pieces:
            pads = [n for n, p in fitted.part.pads.items() if p.role == "draws"]
            if supply is not None and supply.pad is not None and supply.pad in fitted.part.pads:
                pads = [supply.pad]
            for name in pads[:1]:
                contact = Contact(fitted.key, piece, name)
                given = by_net.get(nets.of[contact].name, ())
                source = next((s for s in given if s.part != contact.board), None)
                accepts = fitted.part.pads[name].accepts or (
                    supply.accepts if supply is not None else None
                )
                low, high = (accepts.low, accepts.high) if accepts else (None, None)
                idle, typical, peak, seconds, start = currents_of(build, fitted, source)
                out.append(
                    Load(
                        contact.board,
                        contact,
                        source,
                        low,
                        high,
                        idle,
                        typical,
                        peak,
                        seconds,
                        start,
                        fitted.shelf_where.at("supply"),
                    )
                )
    return tuple(out)
