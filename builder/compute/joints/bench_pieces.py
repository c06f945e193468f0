"""What a build is made of, as the bench sees it: boards, what hangs on them, wires to cut together."""

from collections.abc import Mapping
from functools import lru_cache

from builder.compute.power_up.gate import Gate
from builder.model.build import Build, Fitted, PlugJoin, WireRun
from builder.model.kinds import (
    Antenna,
    Camera,
    Capacitor,
    Connector,
    FlightController,
    Frame,
    Hardware,
    Motor,
    Part,
    Receiver,
    SpeedController,
    VideoTransmitter,
)
from builder.model.source.build_source import BuildStep

CENTRES = (SpeedController, FlightController)
_COATING = ("coat", "lacquer", "varnish")
_RADIO: tuple[type[Part], ...] = (Receiver, VideoTransmitter, Camera)


def is_centre(build: Build, part: str) -> bool:
    """Whether a part is a board that others are wired to."""
    return isinstance(build.parts[part.split(".")[0]].part, CENTRES)


def _stands_apart(part: Part) -> bool:
    """Whether a part is neither a board of the middle nor a motor, nor hangs on the battery path."""
    return not isinstance(part, (*CENTRES, Motor, Connector, Capacitor, Antenna))


def hanging_loads(build: Build) -> tuple[Fitted, ...]:
    """What hangs on the boards, receiver first, then video, then camera, then the rest (common
    practice, no source).
    """
    by_wire = {c.part for r in build.wires for c in (r.start, r.end)}
    by_plug = {e[0] for p in build.plugs for e in (p.start, p.end)}
    wired = by_wire | by_plug
    found = [
        f
        for f in build.parts.values()
        if _stands_apart(f.part) and (f.key in wired or isinstance(f.part, _RADIO))
    ]
    return tuple(
        sorted(
            found,
            key=lambda f: next(
                (i for i, k in enumerate(_RADIO) if isinstance(f.part, k)), len(_RADIO)
            ),
        )
    )


def coating_steps(build: Build) -> tuple[tuple[int, BuildStep], ...]:
    """The builder's own steps that coat something, with their number: by what they name under
    `coats`, and, so that none comes too early, by their words where they name nothing.
    """
    return tuple((i, s) for i, s in enumerate(build.source.steps) if s.coats or _says_coating(s))


def _says_coating(step: BuildStep) -> bool:
    words = f"{step.id} {step.text}".casefold()
    return step.do == "cover" and any(w in words for w in _COATING)


def sleeved(build: Build, radio: Fitted) -> bool:
    """Whether a radio gets a sleeve: a receiver always, a video transmitter where the build has a
    sleeve for it.
    """
    if isinstance(radio.part, Receiver):
        return True
    sleeves = [h for h in build.of_kind(Hardware) if h.part.form == "sleeve"]
    return isinstance(radio.part, VideoTransmitter) and bool(sleeves)


def radios_of(build: Build, antenna: str) -> tuple[Fitted, ...]:
    """The radios that an antenna belongs to: those of the same connector, or the only radio there
    is.
    """
    radios = build.of_kind(Receiver, VideoTransmitter)
    coax = getattr(build.parts[antenna].part, "coax", None)

    def serves(radio: Fitted) -> bool:
        other = getattr(radio.part, "coax", None)
        return (
            bool(coax.type == other.type)
            if coax is not None and other is not None
            else len(radios) == 1
        )

    return tuple(f for f in radios if serves(f))


def frame_of(build: Build) -> str:
    """The key of the frame, on which all mounting is done."""
    return next((f.key for f in build.of_kind(Frame)), "frame")


def mm(metres: float) -> str:
    """A length in mm as words."""
    return f"{1000 * metres:g} mm"


def _group(build: Build, run: WireRun) -> str:
    """The piece whose wires are cut together with this one: the one that hangs on the other."""
    return (
        run.end.board
        if is_centre(build, run.start.part) and not is_centre(build, run.end.part)
        else run.start.board
    )


@lru_cache(maxsize=2)  # asked for each joint and each end of a wire
def cuts(build: Build) -> Mapping[str, list[WireRun]]:
    """Wires to cut, by the piece that they belong to."""
    found: dict[str, list[WireRun]] = {}
    for run in build.wires:
        if run.wire.lead is None:
            found.setdefault(_group(build, run), []).append(run)
    return found


def plug_name(plug: PlugJoin) -> str:
    """The name of a plugged joint: its cable, or the piece that plugs in."""
    first = f"{plug.start[0]}.{plug.start[1]}" if plug.start[1] else plug.start[0]
    return plug.plug.use or first


def _powers(build: Build, gate: Gate, kind: type[Part]) -> bool:
    """Whether a part of a kind is on a gate."""
    keys = {piece.split(".")[0] for piece in gate.parts}
    return any(isinstance(build.parts[key].part, kind) for key in keys)


def gate_letters(build: Build, gates: tuple[Gate, ...]) -> tuple[str, str, str]:
    """Letters of the gate of the speed controller, of the rails with nothing on them, of the loads."""
    feed = next((g.letter for g in gates if _powers(build, g, SpeedController)), "")
    rails = next((g.letter for g in gates if _powers(build, g, FlightController)), feed)
    after = [
        g.letter for g in gates if not g.closing and not any(is_centre(build, p) for p in g.parts)
    ]
    return feed, rails, after[0] if after else ""
