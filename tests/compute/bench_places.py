"""Reads a printed order of work for what lies where: layers on screws, parts in their places, what is
closed, and where the limiter is. Apart from the planner, as `bench_reading` does: by words, and by
what the build's file says.
"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from builder.model.build import Build
from tests.compute.bench_reading import Read

_ORDER = re.compile(r"(?:[Hh]eads on the ([^.]+)\. Then in order|in order): ([^.]+)\.")
_SCREWED = re.compile(r"Heads on the ([^.]+)\.")


def _told_layers(text: str) -> list[str]:
    """What a step says to put on screws, in its order."""
    layers = []
    for found in _ORDER.finditer(text):
        head, rest = found.groups()
        layers += [head] if head else []
        layers += [layer.strip() for layer in rest.split(",")]
    return layers


def layers_out_of_turn(build: Build, steps: Sequence[Read]) -> Iterator[str]:
    """Stacks whose layers are not told once each, in the file's order, or of which one step puts two
    boards on: a hand sets one at a time.
    """
    told = [(s.number, _told_layers(s.all)) for s in steps]
    for place in build.screws:
        wanted = [layer.what for layer in place.screw.through]
        if sum("board" in layer for layer in wanted) < 2:
            continue
        mine = [(n, layers) for n, layers in told if layers and set(layers) <= set(wanted)]
        if [layer for _, layers in mine for layer in layers] != wanted:
            yield f"{place.screw.place}: told {mine}, the file has {wanted}"
        for number, layers in mine:
            if sum("board" in layer for layer in layers) > 1:
                yield f"step {number} puts two boards on"


def closes_nothing(steps: Sequence[Read]) -> Iterator[str]:
    """Steps that close the frame without saying with what, or that it is not known."""
    for step in steps:
        shut = step.text.startswith("Close the frame")
        if shut and not re.search(r"Screws: \d|not listed here|not known", step.text):
            yield f"step {step.number}: {step.text}"


def _ways(x: float, y: float) -> set[str]:
    """A seat as it has to be read: `68 mm in front`, `22 mm right`. Forward and left are positive."""
    said = {f"{abs(x) * 1000:g} mm {'in front' if x > 0 else 'behind'}"} if x else set()
    return said | ({f"{abs(y) * 1000:g} mm {'left' if y > 0 else 'right'}"} if y else set())


def places_unsaid(build: Build, steps: Sequence[Read]) -> Iterator[str]:
    """Parts that are laid or fitted 'in their place' without the place that the file has for them."""
    lines = [line for s in steps for line in (s.boxes or (s.text,))]
    for fitted in build.parts.values():
        for line in lines:
            told = re.search(rf"\b(?:Fit|Lay) (?:\d × )?{re.escape(fitted.part.name)}\b", line)
            if told is None or not re.search(r"in (its|their) places?\b", line):
                continue
            for seat in fitted.use.each_at or filter(None, (fitted.use.at,)):
                missing = {w for w in _ways(seat.x, seat.y) if w not in line}
                if missing:
                    yield f"{fitted.key}: {sorted(missing)} is not in {line!r}"


def devices_not_there(steps: Sequence[Read]) -> Iterator[str]:
    """Devices that are 'soldered to' a board before a wire is on them: only their wires are."""
    for at, step in enumerate(steps):
        told = re.match(r"(?:Tin the pads of \w+, then solder|Solder) (\w+) to ", step.text)
        if told is None:
            continue
        later = [s for s in steps[at + 1 :] if f"Tin the pads of {told[1]}, then" in s.text]
        if later:
            yield f"step {step.number} solders {told[1]}, whose pads come at step {later[0].number}"


_LIMITER = re.compile(
    r"(?P<into>through the (?:series )?limiter|Put it in again)|(?P<out>Take the limiter out)"
)


def limiter_out_of_turn(text: str) -> Iterator[str]:
    """Where a limiter is taken out that is not in, or put in again that was never out. It is in from
    the first gate on.
    """
    inside = True
    for found in _LIMITER.finditer(text):
        if found["out"] and not inside:
            yield f"taken out twice: {text[found.start() - 60 : found.end()]!r}"
        if found[0] == "Put it in again" and inside:
            yield f"put in twice: {text[found.start() - 60 : found.end()]!r}"
        inside = found["out"] is None


def contacts_of_cables(build: Build, text: str) -> Iterator[str]:
    """Contacts of a harness whose row does not say which contact of its one end is which of its
    other, by the file's order of both sockets and by how the cable lies.
    """
    for plug in build.plugs:
        if plug.plug.use is None:
            continue
        (one, _, near), (other, _, far) = plug.start, plug.end
        first = build.parts[one].part.sockets[near].contacts
        second = build.parts[other].part.sockets[far].contacts
        turned = plug.plug.cable == "reversed"
        for i, pad in enumerate(first):
            j = len(second) - 1 - i if turned else i
            row = f"{i + 1} to {j + 1} {one}.{pad} {other}.{second[j]}"
            if Counter(re.findall(rf"(?<!\d){re.escape(row)}\b", text))[row] != 1:
                yield row
