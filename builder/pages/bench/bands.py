"""By what a typed reading is judged, as plain values for the page's script: it compares, and works
out nothing.

A reading is wrong only where it contradicts the nets, or lies outside what the board's maker states
and the meter's own error. What nobody states is doubtful at most.
"""

from collections.abc import Iterator, Mapping
from typing import Literal

from builder.compute.order.steps import Measure, WorkStep
from builder.compute.order.work_order import Cycle, Plan
from builder.compute.power_up.gate_readings import BEEP_BELOW, GateReading
from builder.compute.power_up.gate_volts import RailReading
from builder.compute.power_up.power_gates import Gate
from builder.frozen import value_class
from builder.model.build import Build, Contact
from builder.pages.bench.step_fields import ExtraField, fields_of
from builder.pages.sheet_input import SheetInput
from builder.pages.work.plan_items import step_anchors

Kind = Literal["open", "joined", "charges", "alike", "near", "own", "band", "kept"]
_JOINED = 0.5  # Ω that a sound joint reads with the leads of a hand meter (common practice)


@value_class(frozen=True, slots=True)
class Band:
    """A field: its lasting name, where its reading belongs in the build, and what is expected.

    `low` and `high` are in `unit`. `wrong` says that outside them is wrong, not only doubtful;
    `danger` that it is passed by measuring right alone. `soft` are contacts that read low by nature.
    """

    key: str
    name: str
    label: str
    step: str
    kind: Kind
    unit: str = ""
    low: float | None = None
    high: float | None = None
    wrong: bool = False
    danger: bool = False
    soft: bool = False
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
            "wrong": self.wrong,
            "danger": self.danger,
            "soft": self.soft,
        }
        return {k: v for k, v in said.items() if v not in (None, False, "")}


def wanted(expect: str) -> Kind:
    """What kind of reading words of compute expect. What is not known is kept, and not judged."""
    if "not measured" in expect:
        return "kept"
    if "short beep" in expect or "that stays" in expect or "rises" in expect:
        return "charges"
    if "to its own" in expect:
        return "own"
    if "equal" in expect:
        return "alike" if "no beep" in expect else "near"
    if "alike" in expect:
        return "near"
    if expect.startswith("beeps"):
        return "joined"
    return "open" if "no beep" in expect or expect.startswith("open") else "kept"


def _limits(kind: Kind) -> tuple[float | None, float | None]:
    """The ohms between which meters differ: below the first each beeps, above the second none."""
    if kind == "joined":
        return _JOINED, BEEP_BELOW[0]
    if kind in ("open", "charges", "alike"):
        return BEEP_BELOW[0], BEEP_BELOW[1]
    return None, None


def _on_the_battery(build: Build, names: tuple[str, ...]) -> bool:
    """Whether a contact of a reading is one of the battery's: there a fault burns."""
    known = {str(c): c for c in build.contacts}
    found = [known[name] for name in names if name in known]
    return any(build.pad(c).battery for c in found)


def _of_reading(build: Build, gate: Gate, i: int, r: GateReading) -> Band:
    kind = wanted(r.expect)
    low, high = _limits(kind)
    label = " to ".join(r.between)
    both = len(r.between) == 2 and r.between[1].count(" ") == 0
    rail = r.expect.startswith("no beep; write")  # a short of a rail burns as the battery's does
    danger = (
        rail
        or kind == "charges"
        or (both and kind == "joined" and _on_the_battery(build, r.between))
    )
    step, name = f"gate {gate.letter}", f"gate {gate.letter}|{label}"
    soft, key = bool(r.normal), f"gate-{gate.letter}-r{i}"
    unit = "" if kind == "own" else "Ω"
    return Band(
        *(key, name, label, step, kind, unit, low, high),
        danger=danger,
        soft=soft,
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
    known = {str(c): c for c in sheet.build.contacts}
    contact = known.get(v.contact)
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


def _of_gate(sheet: SheetInput, gate: Gate) -> Iterator[Band]:
    for i, r in enumerate(gate.readings):
        yield _of_reading(sheet.build, gate, i, r)
    for i, v in enumerate(gate.volts):
        if v.reach != "none":
            yield _of_volts(sheet, gate, i, v)
    low, high = gate.power.low, gate.power.high
    step, key = f"gate {gate.letter}", f"gate-{gate.letter}-amps"
    band = (low.value, high.value) if low is not None and high is not None else (None, None)
    kind: Kind = "band" if low is not None else "kept"
    name = f"{step}|current"
    yield Band(key, name, "current", step, kind, "A", *band, gate=gate.letter)


def _of_measure(step: WorkStep, anchor: str, i: int, m: Measure) -> Band:
    kind = wanted(m.expect) if m.unit != "g" and step.own is None else "kept"
    low, high = _limits(kind)
    name, danger = f"{step.id}|{m.label}", kind == "charges"
    key = f"{anchor}-{i}"
    return Band(key, name, m.label, step.id, kind, m.unit, low, high, danger=danger)


def _of_field(field: ExtraField) -> Band:
    low, high = (field.per * x for x in field.bounds)
    return Band(
        *(field.key, f"{field.step}|{field.key}", field.label, field.step, "band", field.unit),
        *(low, high),
        weighed=field.weighed,
        parts=field.parts,
    )


def _of_steps(sheet: SheetInput, plan: Plan) -> Iterator[Band]:
    anchors = step_anchors(plan)
    for step in plan.steps:
        fields = fields_of(sheet, step)
        own = () if step.id == "balance" and fields else step.measures
        for i, measure in enumerate(own):
            yield _of_measure(step, anchors[step.id], i, measure)
        for field in fields:
            yield _of_field(field)


def bands_of(sheet: SheetInput) -> tuple[Band, ...]:
    """A band for every field of the page; none where the work has no order."""
    plan = sheet.results.order
    if isinstance(plan, Cycle):
        return ()
    gates = [band for gate in sheet.results.gates for band in _of_gate(sheet, gate)]
    return (*_of_steps(sheet, plan), *gates)
