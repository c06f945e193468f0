"""'This does not work': what is seen, the likely causes, and what to read next, as words for the page
and as data for its script, which only follows the answers.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from builder.compute.faults.fault_states import FaultState, WiredBench
from builder.compute.faults.likely import likely_first, seen_by_eye
from builder.compute.faults.narrowing import FaultReading, FaultTree, fault_trees
from builder.compute.faults.single_faults import SingleFault
from builder.compute.faults.symptoms import Symptom, by_symptom
from builder.compute.power_up.emptied import battery_empty, battery_minus
from builder.compute.power_up.gate_power import UNDER_SAFE_VOLTS
from builder.compute.power_up.open_pads import reach_live
from builder.model.build import Contact
from builder.model.kinds import Propeller, VideoTransmitter
from builder.pages.blocks import Bullets, Paragraph, Section, Span
from builder.pages.sheet_input import SheetInput
from builder.rounding import rounded

_ALL_OFF = f"Everything unplugged, plus to minus {UNDER_SAFE_VOLTS}"
_MOST = 6  # causes that a line names, and that a look is for


def symptom_words(symptom: Symptom) -> str:
    """What is seen, in a few words."""
    if symptom.kind == "short":
        return "The limit trips, something warms, or plus to minus keeps beeping"
    if symptom.kind == "motor":
        return f"{symptom.board} does not turn, or turns roughly"
    if symptom.kind == "mute":
        return f"{symptom.board} has power, but {symptom.line} does nothing"
    return f"{symptom.board} is dead"


def cause_words(fault: SingleFault) -> str:
    """What may be wrong, and where."""
    ends = [str(c) for c in fault.places]
    if fault.kind == "open":
        return f"an open joint of one wire: {ends[0]} or {ends[1]}"
    if fault.kind == "plug":
        return f"a plug's contact: {ends[0]} to {ends[1]}"
    if fault.kind == "bridge":
        return f"a bridge: {ends[0]} and {ends[1]}"
    if fault.kind == "swap":
        return f"two wires swapped: {ends[0]} and {ends[2]}"
    return f"dead: {fault.name}" if fault.kind == "part" else f"no volts come out of {fault.name}"


def look_words(fault: SingleFault) -> str:
    """What of a cause is seen under a lens; a swap says where its wires belong."""
    ends = [str(c) for c in fault.places]
    if fault.kind == "open":
        return f"A loose wire, or a dull or cracked joint: {ends[0]} or {ends[1]}"
    if fault.kind == "plug":
        return f"A plug not pushed home, or a bent contact: {ends[0]} to {ends[1]}"
    if fault.kind == "bridge":
        return f"Solder or a hair of wire between {ends[0]} and {ends[1]}"
    if fault.kind == "swap":
        return f"Swapped wires: {ends[0]} belongs to {ends[1]}, {ends[2]} to {ends[3]}"
    return f"A burn mark or a crack: {fault.name}"


def _first_big(words: str) -> str:
    return words[:1].upper() + words[1:]


def _band(sheet: SheetInput, contact: Contact) -> str:
    """The volts of a contact as a gate has them, on the same net."""
    net = sheet.results.netlist.of[contact].contacts
    names = {str(c) for c in net}
    found = (v for g in sheet.results.gates for v in g.volts if v.contact in names)
    v = next(found, None)
    if v is None:
        return "the volts that its board states"
    return f"{rounded(v.read_low, 2)} to {rounded(v.read_high, 2)} V"


def _propellers(sheet: SheetInput) -> str:
    """What somebody takes off first who looks for a fault after a flight."""
    if not sheet.build.of_kind(Propeller):
        return ""
    return "Disarm, unplug, then take the propellers off. "


def _before_power(sheet: SheetInput) -> str:
    """What has to be so before power goes on for a reading."""
    said = ["propellers off"] if sheet.build.of_kind(Propeller) else []
    said += ["antenna fitted"] if sheet.build.of_kind(VideoTransmitter) else []
    return f" {_first_big(', '.join([*said, 'a fan on the boards']))}."


def first_words(sheet: SheetInput) -> str:
    """What is done before anything is looked at, touched or read."""
    empty = battery_empty(sheet.build, sheet.results.gates)
    return (
        f"{_propellers(sheet)}Unplug every battery, the supply and USB. Wait until {empty}: before"
        " that no finger, no iron, no ohms. Look first, then measure ohms, volts last. Never put power on a suspected"
        " short."
    )


def asked_words(sheet: SheetInput, reading: FaultReading) -> str:
    """What to read, and what is asked."""
    if reading.to is not None:
        return f"{_ALL_OFF}: beep test {reading.at} to {reading.to}. Does the beep stay?"
    where = battery_minus(sheet.build)
    minus, probe = f" ({where})" if where else "", ""
    if reach_live(sheet.build, reading.at) == "clamp":
        probe = f" Fix the red probe on {reading.at} too: a slip there bridges two contacts."
    return (
        f"First pass all power-off readings of the last gate again.{_before_power(sheet)} Clip the"
        f" black lead to battery minus{minus}.{probe} Put power on through the limiter, as at that"
        " gate. Red probe on"
        f" {reading.at}: is it {_band(sheet, reading.at)}? Take the power off again:"
        f" {_ALL_OFF[:1].lower()}{_ALL_OFF[1:]}."
    )


@dataclass
class _Words:
    """Words once each, by number. Local to a call."""

    rows: dict[str, int] = field(default_factory=dict)

    def of(self, words: str) -> int:
        return self.rows.setdefault(words, len(self.rows))


def _plain(sheet: SheetInput, tree: FaultTree, asked: _Words, causes: _Words) -> list[object]:
    """A tree as lists: [reading, yes, no], or [[causes]]."""
    if tree.reading is None or tree.yes is None or tree.no is None:
        return [[causes.of(cause_words(f)) for f in tree.causes]]
    number = asked.of(asked_words(sheet, tree.reading))
    ways = [_plain(sheet, way, asked, causes) for way in (tree.yes, tree.no)]
    return [number, *ways]


@dataclass(frozen=True, eq=False)
class Trouble:
    """A build on the bench, and the single faults that each symptom can come from."""

    bench: WiredBench
    symptoms: Mapping[Symptom, tuple[FaultState, ...]]


def trouble_of(sheet: SheetInput) -> Trouble:
    """Every single fault is tried: the section and the data of a page share what that gives."""
    bench = WiredBench(sheet.build, sheet.results.netlist)
    return Trouble(bench, by_symptom(bench))


def _looked_for(faults: Sequence[SingleFault], causes: _Words) -> list[list[object]]:
    """What to look for, each with the number of the cause that it shows."""
    looked = seen_by_eye(faults, _MOST)
    return [[look_words(fault), causes.of(cause_words(fault))] for fault in looked]


def trouble_data(sheet: SheetInput, found: Trouble) -> Mapping[str, object]:
    """What the script follows: words by number, and for each symptom what to look for and the tree
    of readings.
    """
    asked, causes = _Words(), _Words()
    trees = fault_trees(found.bench, found.symptoms)
    symptoms: list[Mapping[str, object]] = []
    for symptom, states in found.symptoms.items():
        tree = _plain(sheet, trees[symptom], asked, causes)
        look = _looked_for(likely_first(symptom, states), causes)
        symptoms.append({"seen": symptom_words(symptom), "look": look, "tree": tree})
    first = {"first": first_words(sheet), "symptoms": symptoms}
    return {**first, "readings": list(asked.rows), "causes": list(causes.rows)}


def trouble_section(sheet: SheetInput, found: Trouble) -> Section:
    """For whoever has no script: each symptom with what to look at first."""
    lines = []
    for symptom, states in found.symptoms.items():
        faults = likely_first(symptom, states)
        more = len(faults) - _MOST
        told = [_first_big(cause_words(f)) for f in faults[:_MOST]]
        told += [f"And {more} more"] if more > 0 else []
        lines.append((Span(". ".join((symptom_words(symptom), *told)) + "."),))
    if not lines:
        return Section("trouble", "This does not work", ())
    blocks = (Paragraph((Span(first_words(sheet)),)), Bullets(tuple(lines)))
    return Section("trouble", "This does not work", blocks)
