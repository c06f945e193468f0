"""What the field card says before and after a flight and when something goes wrong. Usual practice,
no source; local rules and licensed practice come first.
"""

from builder.compute.loops.matching import matching_words
from builder.compute.order.steps.part_steps import has_strap
from builder.model.build import Build
from builder.model.kinds import Antenna, SatelliteReceiver, VideoTransmitter
from builder.pages.told_words import told_words
from builder.pages.work.lost_link import in_air


def before_lines(build: Build) -> list[str]:
    """From the place to the moment of arming."""
    held = "Strap tight" if has_strap(build) else "Battery held fast"
    lines = [
        "Place, weather and airspace: allowed and safe. Nobody near.",
        "Battery unplugged: propellers without nick or bend, tight, on their own corners.",
        "Arms, screws and wires sound. Motors turn freely by hand.",
        f"Battery full, no dent, no swelling. {held}, lead clear of propellers.",
        "Transmitter on first, arm switch on safe, throttle low.",
    ]
    if build.of_kind(Antenna):
        lines.append("Each antenna fitted and whole, before power goes on.")
    lines += [
        "Plug in, step back. Look at the volts. Set the timer.",
        "Sticks and switches do what they should.",
    ]
    matching = matching_words(build)
    if matching is not None:
        lines.insert(0, told_words(matching))
    if build.of_kind(VideoTransmitter):
        lines.append("Goggles on: an observer beside you keeps it in sight.")
    if build.of_kind(SatelliteReceiver):
        lines.append("Wait for the position before you arm.")
    return lines


def after_lines(empty: str) -> list[str]:
    """From landing to the bag. `empty` is what a meter reads once nothing is left, and where."""
    return [
        "Disarm. Walk up. Unplug the battery before you touch anything else.",
        f"Touch no board and no bare contact until {empty}.",
        "Transmitter off last.",
        "Feel motors and battery lead with one finger: hot is a fault.",
        "Look at propellers and battery: no crack, no dent, no swelling.",
        "Log minutes, and charge used or put back. Store lithium-polymer at about 3.8 V a cell, lithium-ion at about 3.6 V.",
    ]


def emergency_lines(build: Build) -> list[str]:
    """What helps when seconds count."""
    plan = build.source.setup.fail_safe
    lost = f"Link lost: {in_air(plan)}. Keep clear." if plan is not None else ""
    lines = [
        "It does not obey: switch to safe. The motors stop and it falls.",
        lost,
        "Somebody is hurt: motors off, unplug, first aid, call for help.",
        "Battery smokes, hisses or burns: stay away, upwind. Do not touch it. Call for help.",
        "After a crash: disarm. If nothing smokes, hisses or burns, unplug from behind.",
        "Put a battery that was hit outdoors, on bare ground. Watch it for half an hour.",
    ]
    return [line for line in lines if line]
