"""By what a typed reading is judged, as plain values for the page's script: it compares, and works
out nothing.

A reading is wrong only where it contradicts the nets, or lies outside what the board's maker states
and the meter's own error. What nobody states is doubtful at most.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Literal

from builder.compute.order.steps.work_step import Measure, WorkStep
from builder.compute.order.work_order import Cycle, Plan
from builder.compute.power_up.gate import Gate
from builder.compute.power_up.gate_readings import BEEP_BELOW, GateReading
from builder.compute.power_up.gate_volts import RailReading
from builder.compute.power_up.pair_readings import burns_if_joined, by_pair
from builder.frozen import value_class
from builder.load.assumed import assumed
from builder.model.build import Build, Contact
from builder.pages.bench.step_fields import ExtraField, fields_of
from builder.pages.bench.step_measures import measures_of
from builder.pages.sheet_input import SheetInput
from builder.pages.work.step_anchors import step_anchors

BandKind = Literal["open", "joined", "charges", "alike", "near", "low", "band", "kept"]
_JOINED = assumed("first power-up/joint-ohms")
_ALIKE = assumed("first power-up/alike")
_DIGIT = assumed("first power-up/meter-digit")
_TIMES = assumed("first power-up/winding-times")
_OVER = assumed("first power-up/winding-over")


@value_class(frozen=True, slots=True)
class Band:
    """A field: its lasting name, where its reading belongs in the build, and what is expected.

    `low` and `high` are in `unit`; `ratio` is how far readings that are alike may be apart, `digit`
    what a meter cannot tell apart (in `unit`), `count` how many readings there are. `wrong`
    says that outside them is wrong, not only doubtful; `danger` that it is passed by measuring right
    alone, `hard` that a wrong one is not passed by a reason.
    """

    key: str
    name: str
    label: str
    step: str
    kind: BandKind
    unit: str = ""
    low: float | None = None
    high: float | None = None
    ratio: float | None = None
    digit: float | None = None
    count: int | None = None
    wrong: bool = False
    danger: bool = False
    hard: bool = False
    weighed: str = ""
    parts: tuple[str, ...] = ()
    gate: str = ""

    def as_plain(self) -> dict[str, object]:
        """As the page's script reads it: what is not said is left out."""
        said: Mapping[str, object] = {
            "name": self.name,
            "label": self.label,
            "kind": self.kind,
            "unit": self.unit,
            "low": self.low,
            "high": self.high,
            "ratio": self.ratio,
            "digit": self.digit,
            "count": self.count,
            "wrong": self.wrong,
            "danger": self.danger,
            "hard": self.hard,
        }
        return {k: v for k, v in said.items() if v not in (None, False, "")}


def wanted(expect: str) -> BandKind:
    """What kind of reading words of compute expect. What is not known is kept, and not judged."""
    if "not measured" in expect:
        return "kept"
    if "normally low" in expect:
        return "low"
    if "short beep" in expect or "that stays" in expect or "rises" in expect:
        return "charges"
    if "to its own" in expect:
        return "kept"  # wires that nobody names cannot be judged in one field
    if "equal" in expect:
        return "alike" if "no beep" in expect else "near"
    if "alike" in expect:
        return "near"
    if expect.startswith("beeps"):
        return "joined"
    return "open" if "no beep" in expect or expect.startswith("open") else "kept"


def _limits(kind: BandKind) -> tuple[float | None, float | None]:
    """The ohms between which meters differ: below the first each beeps, above the second none."""
    if kind == "joined":
        return _JOINED, BEEP_BELOW[0]
    if kind in ("open", "charges", "alike"):
        return BEEP_BELOW[0], BEEP_BELOW[1]
    return None, None


def _ratio(kind: BandKind) -> float | None:
    return _ALIKE if kind in ("alike", "near") else None


def _on_the_battery(build: Build, names: tuple[str, ...]) -> bool:
    """Whether a contact of a reading is one of the battery's: there a fault burns."""
    found = [build.by_name[name] for name in names if name in build.by_name]
    return any(build.pad(c).battery for c in found)


def _of_reading(sheet: SheetInput, gate: Gate, i: int, r: GateReading) -> Band:
    build, nets, kind = sheet.build, sheet.results.netlist, wanted(r.expect)
    label = " to ".join(r.between)
    at_battery = any(build.pad(c).battery for pair in r.pairs for c in pair)
    burns = any(burns_if_joined(build, nets, a, b) for a, b in r.pairs)
    danger = kind == "charges" or (kind == "open" and burns) or (kind == "joined" and at_battery)
    step, name = f"gate {gate.letter}", f"gate {gate.letter}|{label}"
    key = f"gate-{gate.letter}-r{i}"
    return Band(
        *(key, name, label, step, kind, "Ω", *_limits(kind), _ratio(kind)),
        danger=danger,
        hard=at_battery or burns,
        gate=gate.letter,
    )


def _stated(sheet: SheetInput, contact: Contact) -> bool:
    """Whether the maker of a board states how far the rail that feeds a contact may be off."""
    build, nets = sheet.build, sheet.results.netlist
    on_net = nets.of[contact].contacts
    feeds = [c for c in on_net if build.pad(c).role == "supply" and build.pad(c).rail]
    rails = [build.parts[c.part].part.rails.get(build.pad(c).rail or "") for c in feeds]
    return bool(rails) and all(r is not None and r.tolerance is not None for r in rails)


def _of_volts(sheet: SheetInput, gate: Gate, i: int, v: RailReading) -> Band:
    contact = sheet.build.by_name.get(v.contact)
    stated = contact is not None and _stated(sheet, contact)
    danger = _on_the_battery(sheet.build, (v.contact, *v.instead_of))
    label = f"{v.contact}, volts"
    step, name = f"gate {gate.letter}", f"gate {gate.letter}|{label}"
    return Band(
        *(f"gate-{gate.letter}-v{i}", name, label, step, "band", "V", v.read_low, v.read_high),
        wrong=stated,
        danger=danger,
        gate=gate.letter,
    )


def pair_gate(sheet: SheetInput, gate: Gate) -> Gate:
    """A gate with a reading, and so a field, for each wire and each pair that is judged by itself."""
    build, nets = sheet.build, sheet.results.netlist
    rows = tuple(one for r in gate.readings for one in by_pair(build, nets, r))
    return replace(gate, readings=rows)


def _of_gate(sheet: SheetInput, gate: Gate) -> Iterator[Band]:
    for i, r in enumerate(gate.readings):
        yield _of_reading(sheet, gate, i, r)
    for i, v in enumerate(gate.volts):
        if v.reach != "none":
            yield _of_volts(sheet, gate, i, v)
    low, high = gate.power.low, gate.power.high
    step, key = f"gate {gate.letter}", f"gate-{gate.letter}-amps"
    band = (low.value, high.value) if low is not None and high is not None else (None, None)
    kind: BandKind = "band" if low is not None else "kept"
    name = f"{step}|current"
    yield Band(key, name, "current", step, kind, "A", band[0], band[1], gate=gate.letter)


def _winding(ohms: float) -> tuple[float, float]:
    """Between which a hand meter reads a winding of so many ohms. Beyond that it is another one, or
    open, or shorted.
    """
    return max(ohms / _TIMES - _DIGIT, 0.0), ohms * _TIMES + _OVER


def _of_measure(build: Build, step: WorkStep, anchor: str, i: int, m: Measure) -> Band:
    kind = wanted(m.expect) if m.unit != "g" and step.own is None else "kept"
    at_battery = kind == "joined" and _on_the_battery(build, tuple(m.label.split(" to ")))
    danger, shut = kind == "charges" or at_battery, kind in ("open", "alike")
    limits, near = _limits(kind), kind == "near"
    if m.ohms is not None:
        limits = _winding(m.ohms)
        kind = "near" if near else "band"
    count = m.count if near and step.id.startswith("spin ") else None
    key, name = f"{anchor}-{i}", f"{step.id}|{m.label}"
    return Band(
        *(key, name, m.label, step.id, kind, m.unit, *limits, _ratio(kind)),
        digit=_DIGIT if near else None,
        count=count,
        wrong=m.ohms is not None,
        danger=danger,
        hard=danger or shut,
    )


def _of_field(field: ExtraField) -> Band:
    return Band(
        *(field.key, f"{field.step}|{field.key}", field.label, field.step, "band", field.unit),
        *(field.low, field.high),
        weighed=field.weighed,
        parts=field.parts,
    )


def _of_steps(sheet: SheetInput, plan: Plan) -> Iterator[Band]:
    anchors = step_anchors(plan)
    for step in plan.steps:
        fields = fields_of(sheet, step)
        own = () if step.id == "balance" and fields else measures_of(sheet, step)
        for i, measure in enumerate(own):
            yield _of_measure(sheet.build, step, anchors[step.id], i, measure)
        for field in fields:
            yield _of_field(field)


def bands_of(sheet: SheetInput) -> tuple[Band, ...]:
    """A band for every field of the page; none where the work has no order."""
    plan = sheet.results.order
    if isinstance(plan, Cycle):
        return ()
    gates = [b for gate in sheet.results.gates for b in _of_gate(sheet, pair_gate(sheet, gate))]
    return (*_of_steps(sheet, plan), *gates)
