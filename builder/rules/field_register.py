"""The register of facts: for each field of the source, which figure or rule reads it, or why it is
only shown.

What reads a field is recorded (see builder/load/field_readers.py); a test holds it against the
code. A field that nobody reads and that stands on no list is a mistake of ours.
"""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from builder.load.field_readers import readers
from builder.model.values.base import Frozen

# What the reader of builds itself follows, or holds against another value (contradictions.py).
STRUCTURE = frozenset(
    {
        "BuildSource.parts",
        "BuildSource.packs",
        "BuildSource.wires",
        "BuildSource.plugs",
        "BuildSource.screws",
        "BuildSource.based_on",
        "BuildSource.own_aircraft",
        "PartUse.use",
        "PackUse.use",
        "Wire.from",
        "Wire.to",
        "Electrical.each_pad",
        "PadShape.side",
        "PadShape.pitch",
        "PadShape.gap",
        "PadShape.pad_size",
        "PadShape.copper",
        "Antenna.active",
        "Antenna.length",
        "BuildSource.accept",
        "BuildSource.give_source",
        "Accept.rule",
        "Accept.at",
        "Accept.up_to",
        "Accept.down_to",
        "Accept.because",
    }
)
# Texts of build.yaml in which Markdown works, and how much of it. In all others its marks are printed
# as they were typed. Chapters are Markdown altogether.
PROSE: Mapping[str, str] = MappingProxyType(
    {
        "Question.answer": "Markdown: paragraphs, lists, tables, links",
        "Change.text": "Markdown of one line: links, marks",
        "Incident.what": "Markdown of one line: links, marks",
        "Maintenance.what": "Markdown of one line: links, marks",
    }
)
# Words and pictures that the pages print as they are: any other words are as right. By key.
WORDS: Mapping[str, str] = MappingProxyType(
    {
        "note": "a remark, printed beside what it is about; figures in it are held against those beside it",
        "text": "what the build tells, printed as it is",
        "title": "the name of the build or the site",
        "summary": "what the build is for, in words",
        "author": "who built it",
        "invented": "whether it was never made, printed as it is",
        "hero": "a picture",
        "photos": "pictures",
        "marks": "points of a picture with their words",
        "photo": "a picture of a step",
        "file": "a picture, or a printed part's file",
        "alt": "what a picture shows",
        "caption": "words under a picture",
        "side": "the side that is seen, printed",
        "questions": "what people ask",
        "ask": "what people ask",
        "answer": "the answer",
        "id": "an anchor on the page",
        "as_built": "what came back from the bench",
        "chapters": "time stamps of a recording",
        "measured": "a reading in words, or one of several bases",
        "estimate": "the least trusted of several bases",
        "maker": "who makes it, or the basis between the two others",
        "source": "who says so",
        "dated": "the day on which a source was read",
        "date": "a day that is printed",
        "step": "the step that a line is about",
        "licence": "licence of a printed part's file, of a sheet or of a site",
        "style": "how it was flown, in a word",
        "words": "how it is flown, in words",
        "notes": "further settings, in words; figures in them are held against those set",
        "warns": "a warning in words",
        "tested": "when it was tried, in words",
        "software": "name of a software",
        "rate": "a speed, in words",
        "guide_on_paper": "whether the chapters are printed",
        "recording": "an address",
        "files": "files that are given along; their names, sizes and digests are checked as they are read",
        "name": "what it is called on the site",
        "steps": "steps that lead there; their names are checked",
        "was": "figures as they were; their keys and units are checked",
        "superseded_by": "the build that took its place; its name is checked",
        "retired_because": "why it is not built any more, printed at its head",
        "copies": "what others found who built it, in words",
        "found": "what others found who built it, in words",
        "by": "who says so",
        "samples": "pieces of other people; shown on the part's page, and no figure counts with them",
        "pieces": "readings of other people; as above",
        "volts_divider": "in words; checked with a meter at setup",
    }
)
# Figures and settings that a page shows and nothing works with. None of them can hurt alone.
SHOWN_ONLY: Mapping[str, str] = MappingProxyType(
    {
        "BuildSource.origin": "credit to whom it was started from",
        "Origin.build": "credit to whom it was started from",
        "Origin.site": "credit to whom it was started from",
        "Origin.address": "credit to whom it was started from",
        "Origin.revised": "credit to whom it was started from",
        "Origin.digest": "of the files that were given",
        "Origin.guide": "credit to whom it was started from",
        "Origin.history": "what the giver said of another aircraft, in words",
        "Antenna.bend": "for the hand that lays its cable",
        "Antenna.dc_short": "for the hand that measures across it",
        "PhotoMark.at": "where the line to a picture's words begins",
        "Buzzer.self_sounding": "told at setup; both kinds hang on the same pads",
        "Cable.colours": "drawn on the wiring drawing",
        "Camera.tilt": "for the pilot",
        "Capacitor.esr": "its spikes are not worked out",
        "Capacitor.ripple": "its spikes are not worked out",
        "CombinedBoard.pattern_turn": "for the hand that fits it",
        "CombinedBoard.receiver": "the receiver on the board has no wires to check",
        "CombinedBoard.usb_limit": "a combined board feeds little else on USB",
        "Compass.turn": "tried by turning the aircraft at setup",
        "SatelliteReceiver.compass_turn": "tried by turning the aircraft at setup",
        "Chapter.at": "time in a recording",
        "Connector.contacts": "for the buyer",
        "Setup.arming": "tried one by one at setup",
        "Setup.overlay": "figures in the picture",
        "OverlayField.field": "figures in the picture",
        "OverlayField.at": "figures in the picture",
        "GivenFile.what": "what a file is, in words",
        "GroundGear.volts": "for the buyer",
        "Leads.enamelled": "told to the hand that tins them",
        "Pad.wide_open": "the volts that it accepts are checked",
        "Part.serial_number": "never published; its presence is found by its key",
        "Setup.link_secret": "never published; its presence is found by its key",
        "Setup.home": "never published; its presence is found by its key",
        "Payload.stores": "for the pilot",
        "PeakCurrent.propeller": "in words",
        "PrintedPart.infill": "for the printer",
        "PrintedPart.material": "for the printer",
        "PrintedPart.orientation": "for the printer",
        "PrintedPart.walls": "for the printer",
        "Propeller.blades": "for the buyer; thrust comes from the bench table",
        "Propeller.pitch": "for the buyer; thrust comes from the bench table",
        "Ribbon.bend": "for the hand that lays it",
        "Socket.latch": "drawn beside the contacts",
        "VideoTransmitter.heat_limit": "it protects itself",
        "FlyingPlace.name": "name of a field",
        "Wire.twisted": "told to the hand that lays it",
    }
)


@cache
def owner_of(cls: type[Frozen], field: str) -> str:
    """A field by the class that says it, with its key as it is written: `Part.mass`, `Wire.from`."""
    bases = [b for b in cls.__mro__ if field in getattr(b, "__annotations__", {})]
    owner = bases[0].__name__ if bases else cls.__name__
    return f"{owner}.{field.rstrip('_')}"


def shown_because(field: str) -> str:
    """Why a field is only shown; '' where it is on no list."""
    key = field.partition(".")[2]
    return SHOWN_ONLY.get(field, "") or WORDS.get(key, "")


@cache
def _classes(base: type[Frozen]) -> Mapping[str, type[Frozen]]:
    """Every class of the source below this one, by name; all of them are there once the model is
    imported.
    """
    found = {}
    for each in base.__subclasses__():
        found[each.__name__] = each
        found.update(_classes(each))
    return found


def field_of(group: str, key: str) -> str:
    """A key of a group as the register names it: the key `mass` of a motor is `Part.mass`."""
    cls = _classes(Frozen)[group]
    return owner_of(cls, key if key in cls.model_fields else f"{key}_")


def markdown_in(group: str, key: str) -> str:
    """How much Markdown works in a key, in words; '' where its marks are printed as they are."""
    return PROSE.get(field_of(group, key), "")


def read_by(group: str, key: str) -> str:
    """Which figures and rules read a key, in words, or why it is only shown; '' for a setting."""
    field = field_of(group, key)
    who = readers().get(field, ())
    if who:
        return ", ".join(who)
    because = shown_because(field)
    return f"shown only: {because}" if because else ""
