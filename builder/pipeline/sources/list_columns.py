"""What the columns of a list of parts are, by the headings that people give them, or as it is said.

The headings and the words for kinds are those of shops and of spreadsheets (common practice, no
source).
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from builder.model.kinds import KINDS

_HEADINGS: Mapping[str, str] = MappingProxyType(
    {
        "name": "name; part; item; product; article; description; component; what; title",
        "kind": "kind; type; category; group; class",
        "count": "count; qty; qty.; quantity; pcs; pcs.; pieces; amount; number; no.; #; how many",
        "mass": "weight; mass; weight each; unit weight; mass each; grams",
        "price": "price; unit price; price each; each; cost; unit cost; cost each; price per piece",
        "currency": "currency; cur; cur.",
        "shop": "shop; store; seller; vendor; supplier; source; bought at; dealer; from",
        "link": "link; url; web; website; address; web address; page",
        "seen": "seen; date; price date; seen on; price seen; as of",
        "maker": "maker; manufacturer; brand; make; made by",
        "note": "note; notes; remark; remarks; comment; comments",
    }
)
# Said of the whole row again: nothing is lost without them.
_SUMS = frozenset(("total", "sum", "subtotal", "line total", "total price", "total weight", "pos"))
_WORDS_OF_KINDS: Mapping[str, str] = MappingProxyType(
    {
        "motor": "motor; motors",
        "propeller": "propeller; propellers; prop; props",
        "frame": "frame; frames; frame kit; airframe",
        "speed-controller": "esc; escs; speed controller; speed controllers; 4in1; 4-in-1",
        "flight-controller": "flight controller; flight control board; control board; fc",
        "combined-board": "aio; all in one; all-in-one; combined board",
        "camera": "camera; cameras; cam",
        "video-transmitter": "video transmitter; vtx",
        "receiver": "receiver; rx",
        "antenna": "antenna; antennas; antennae; aerial",
        "pack": "battery; batteries; pack; packs; lipo; li-ion",
        "capacitor": "capacitor; capacitors; cap",
        "connector": "connector; connectors; pigtail; plug",
        "cable": "cable; cables; harness; wire harness",
        "satellite-receiver": "satellite receiver; gps; gnss",
        "compass": "compass; magnetometer",
        "buzzer": "buzzer; beeper",
        "lights": "led; leds; lights; led strip",
        "hardware": "screw; screws; nut; nuts; standoff; standoffs; strap; straps; washer; hardware",
        "printed-part": "printed part; 3d print; print; printed",
        "payload": "payload",
        "consumable": "solder; flux; heat shrink; wire; tape; glue; consumable",
        "tool": "tool; tools; soldering iron; iron; screwdriver; meter; multimeter; scale",
        "ground-gear": "charger; goggles; transmitter; remote; radio; ground gear",
    }
)
_IN_BRACKETS = re.compile(r"\s*[(\[]\s*([^)\]]{1,12}?)\s*[)\]]\s*$")
_BEHIND = re.compile(r"^(.*\S)\s*(?:[,/:]|\s+in)\s+(\S{1,6})$")


@dataclass(frozen=True)
class ListColumn:
    """A column that is understood: its field, its heading, and the unit that the heading says."""

    at: int
    field: str
    heading: str
    unit: str = ""


@dataclass(frozen=True)
class ListColumns:
    """All of them, the headings that are not understood, and those that only sum up."""

    known: tuple[ListColumn, ...]
    unknown: tuple[str, ...]
    sums: tuple[str, ...]


def _table(words: Mapping[str, str]) -> dict[str, str]:
    return {word.strip(): field for field, listed in words.items() for word in listed.split(";")}


def _plain(text: str) -> str:
    return " ".join(text.replace("_", " ").casefold().split())


def _parted(heading: str) -> tuple[str, str]:
    """A heading and the unit in it: `Weight (g)`, `Price in EUR`."""
    bracketed = _IN_BRACKETS.search(heading)
    if bracketed is not None:
        return _plain(heading[: bracketed.start()]), bracketed[1]
    behind = _BEHIND.match(heading)
    return (_plain(behind[1]), behind[2]) if behind is not None else (_plain(heading), "")


def list_columns(headings: Sequence[str], said: Mapping[str, str]) -> ListColumns:
    """What each column is. `said` names the heading of a field, or its number from 1; ValueError,
    with the words, where there is no such column or field.
    """
    usual = _table(_HEADINGS)
    chosen = {field: _place(headings, where) for field, where in said.items()}
    wrong = [field for field in chosen if field not in _HEADINGS]
    if wrong:
        raise ValueError(f"{wrong[0][:40]!r} is no column; there are {', '.join(_HEADINGS)}")
    known: dict[str, ListColumn] = {}
    unknown: list[str] = []
    sums: list[str] = []
    by_place = {at: field for field, at in chosen.items()}
    for at, heading in enumerate(headings):
        word, unit = _parted(heading)
        field = by_place.get(at) or usual.get(_plain(heading)) or usual.get(word, "")
        taken = field in known or (field in chosen and chosen[field] != at)
        if word in _SUMS and at not in by_place:
            sums.append(heading)
        elif not field or taken:
            unknown.append(heading)
        else:
            known[field] = ListColumn(at, field, heading, "g" if word == "grams" else unit)
    return ListColumns(tuple(known.values()), tuple(h for h in unknown if h.strip()), tuple(sums))


def _place(headings: Sequence[str], where: str) -> int:
    if where.isdecimal() and 1 <= int(where) <= len(headings):
        return int(where) - 1
    plain = [_plain(h) for h in headings]
    if _plain(where) not in plain:
        raise ValueError(f"there is no column {where[:60]!r}")
    return plain.index(_plain(where))


def kind_in_cell(text: str) -> str:
    """The kind that a cell names; '' for none."""
    word = _plain(text)
    dashed = word.replace(" ", "-")
    return dashed if dashed in KINDS else _table(_WORDS_OF_KINDS).get(word, "")


def kinds_in(name: str) -> tuple[str, ...]:
    """The kinds that the words of a name speak of; one of several words goes before one of one."""
    words = f" {' '.join(re.findall(r'[a-z0-9-]+', name.casefold()))} "
    table = _table(_WORDS_OF_KINDS)
    found = sorted((w for w in table if f" {w} " in words), key=len, reverse=True)
    whole = [w for w in found if not any(f" {w} " in f" {o} " for o in found if o != w)]
    return tuple(dict.fromkeys(table[w] for w in whole))
