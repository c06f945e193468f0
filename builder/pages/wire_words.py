"""Wires and contacts as words and cells, the same on every table that names them."""

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.pinout import letters
from builder.model.build import Build, Contact
from builder.pages.blocks import Cell, Inline, Span, Swatch
from builder.rounding import rounded

ROLE_WORDS = {
    "ground": "ground",
    "supply": "gives power",
    "draws": "takes power",
    "sends": "sends",
    "listens": "listens",
    "one-wire": "one-wire control",
    "clock": "clock",
    "data": "data",
    "video-out": "video out",
    "video-in": "video in",
    "drive-out": "drive out",
    "drive-in": "drive in",
    "phase": "motor phase",
    "light-in": "light data in",
    "light-out": "light data out",
    "sink": "switched minus",
    "sense": "sense",
    "ring": "antenna",
    "unconnected": "not connected",
}


def wire_cell(join: Join, build: Build) -> Cell:
    """Colour, gauge and length of a join."""
    if join.by == "plug":
        return Cell((Span(f"plug, contact {join.position}"),))
    wire = join.wire
    if wire is None:
        return Cell()
    pieces: list[Inline] = []
    if wire.colour:
        pieces.append(Swatch(wire.colour, letters(wire.colour)))
    words = []
    if wire.gauge is not None:
        words.append(wire.gauge.label)
    if wire.length is not None:
        words.append(f"{rounded(1000 * wire.length.value, 0)} mm")
    if wire.lead == "fitted":
        words.append(
            "fitted lead"
            + (f", trim to {rounded(1000 * wire.trim_to.value, 0)} mm" if wire.trim_to else "")
        )
    if words:
        pieces.append(Span((" " if pieces else "") + ", ".join(words)))
    return Cell(tuple(pieces))


def contact_span(contact: Contact) -> Span:
    """A contact in the type of contacts."""
    return Span(str(contact), code=True)
