"""What is looked at after the first 30 s, in the first flights, every tenth flight and after a crash:
only what the build has. Common practice, no source.
"""

from builder.compute.order.steps.part_steps import has_strap
from builder.compute.order.steps.propeller_step import propeller_styles
from builder.model.build import Build
from builder.model.kinds import Antenna, Frame, Motor, Propeller, SpeedController, VideoTransmitter

_UNPLUGGED = "Unplug the battery before you touch anything else."


def _emptied(empty: str) -> str:
    """A board, a bare contact or a screw beside it is touched only then (common practice, no
    source). `empty` is what a meter reads, and where.
    """
    return f"Before you touch a board, a screw or a bare contact: wait until {empty}."


def _felt(build: Build) -> str:
    """The boards that get hot in the first hover."""
    kinds = (("speed controller", SpeedController), ("video transmitter", VideoTransmitter))
    return ", ".join(name for name, kind in kinds if build.of_kind(kind))


def _has_ducts(build: Build) -> bool:
    return any(f.part.ducts for f in build.of_kind(Frame))


def first_lines(build: Build, empty: str) -> list[str]:
    """At the first flight, which is a hover of 30 s."""
    motors = sum(f.count for f in build.of_kind(Motor))
    out = [
        "Before you plug in: press each arm and lead. Nothing may reach a propeller disc as it bends.",
        "Choose a day without wind. Keep people and animals as far away as local rules ask.",
    ]
    if build.of_kind(VideoTransmitter):
        out.append(
            "If you wear goggles, somebody beside you watches the aircraft and says who comes near."
        )
    out += [
        (
            "Fly the first 30 s outdoors, low, over open ground. Stand behind it, well clear, and"
            " let nobody come near."
        ),
        "Hover at knee height. If it swings, drifts or sounds rough, land at once.",
        "After 30 s of hover: land, disarm, unplug the battery.",
        _emptied(empty),
    ]
    if motors:
        out.append(
            f"Tap each of the {motors} motors with a finger: it may be hot. If one is hotter, find out"
            " why."
        )
        out.append(
            "Check that motor and frame screws are tight, and that no screw end touches a winding."
        )
    out.append("Feel the battery's lead and connector: no more than hand-warm.")
    felt = _felt(build)
    if felt:
        out.append(
            f"Hold a finger near each board before you touch it: {felt}. If one is too hot to touch,"
            " find out why."
        )
    return out


def early_lines(build: Build, empty: str) -> list[str]:
    """After each of the first flights."""
    out = [
        _UNPLUGGED,
        _emptied(empty),
        "Check that screws of frame and motors are tight. Nuts on soft mounts must just hold.",
        "If a screw is loose, tighten it. Use thread lock only where its step says so.",
    ]
    if build.of_kind(Propeller):
        out.append(
            "Look at the propellers: no nick, no white bend line, seated fully. Throw a damaged one"
            " away."
        )
    out.append(
        "Note in the log the time in the air, and the charge used or what the charger puts back."
    )
    if build.packs:
        out.append("Look at the batteries: no swelling, no dent, no torn wrap.")
        out.append(
            "Do not fly or charge a swollen or dented battery. Put it outdoors. Dispose of it by"
            " local rules."
        )
    return out


def _held(build: Build) -> list[str]:
    """What holds the propellers, each way that there is."""
    styles = propeller_styles(build)
    out = []
    if "press" in styles:
        out.append("Pull at each propeller: it must not move on its shaft. Replace one that does.")
    if any(style != "press" for style in styles):
        out.append("Check the propeller nuts or screws: tight, and the locking part still grips.")
    return out


def _frame(build: Build) -> str:
    """What of the frame is looked at."""
    if _has_ducts(build):
        return "Check the frame: no crack, every duct round, no mark where a propeller rubbed."
    slots = ", strap slots with smooth edges" if has_strap(build) else ""
    return f"Check the frame: arms without cracks or loose layers{slots}."


def tenth_lines(build: Build, empty: str) -> list[str]:
    """After every tenth flight."""
    out = [_UNPLUGGED, _emptied(empty)] if build.packs or build.of_kind(Motor) else []
    if build.of_kind(Motor):
        out.append(
            "Check the motor bells: no play along or across the shaft, no grit when turned by hand."
        )
    out += _held(build)
    out += [
        f"Check {f.part.name}: in its place, cable not chafed, its end not cut."
        for f in build.of_kind(Antenna)
    ]
    if build.of_kind(Frame):
        out.append(_frame(build))
    if has_strap(build):
        out.append("Check the strap: stitching and grip sound.")
    if build.packs:
        out.append("Check the joints of the battery's lead: no crack, no grey, no loose strand.")
    return out


def crash_lines(build: Build, empty: str) -> list[str]:
    """After a crash, before it may fly again."""
    ducts = "Check frame, ducts and screws" if _has_ducts(build) else ""
    looked = ducts or "Check arms, screws and standoffs"
    return [
        "Disarm. If it smokes, hisses or burns, stay away, upwind, and call for help.",
        "Else walk up from behind and unplug the battery before you touch anything else.",
        _emptied(empty),
        (
            "Put a battery that was hit outdoors, on bare ground. Watch it from a distance for half an"
            " hour."
        ),
        "Do not fly or charge a dented battery. Dispose of it by local rules.",
        "Replace every propeller, or look at it against the light.",
        f"{looked}: no crack, no bend. Motors must turn freely and run true.",
        (
            "Check wires and plugs: none pulled, none bare. Antenna and socket must be joined before the"
            " transmitter has power."
        ),
        "Go through the first power-up again, with the current limiter, propellers off.",
    ]
