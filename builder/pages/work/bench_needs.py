"""Tools that have to lie on the bench: the builder's own, and what else the steps of the work ask
for.

A need follows from steps. One that a tool or consumable of the build answers to by its name is not
said twice. Needs are common practice, no source.
"""

import re
from collections.abc import Iterator

from builder.compute.order.steps.work_step import WorkStep
from builder.compute.order.work_order import Plan
from builder.compute.power_up.gate import Gate
from builder.model.build import Build, piece_names
from builder.model.kinds import Connector, Hardware, Propeller, Tool
from builder.pages.work.gate_lines import bleeder_words, limiter_rating
from builder.pages.work.need import (
    Asks,
    Need,
    asks_by_action,
    asks_by_name,
    asks_by_words,
    either,
    takes_iron,
)


def _is_gate(step: WorkStep) -> bool:
    return bool(step.gate)


def _gauges(build: Build) -> str:
    """The span of copper that is stripped."""
    gauges = {r.wire.gauge.label for r in build.wires if r.wire.gauge is not None}
    gauges |= {
        f.part.leads.gauge.label
        for f in build.parts.values()
        if f.part.leads and f.part.leads.gauge
    }
    sizes = sorted(int(g.split()[0]) for g in gauges if re.fullmatch(r"\d+ AWG", g))
    if not sizes:
        return ""
    return f"for {sizes[0]} AWG" if sizes[0] == sizes[-1] else f"for {sizes[0]} to {sizes[-1]} AWG"


def _threads(build: Build) -> str:
    """The threads of the screws that are driven; a nut has no length."""
    threads = {f.part.thread for f in build.of_kind(Hardware) if f.part.length is not None}
    return ", ".join(sorted(t for t in threads if t))


def _tips(plan: Plan) -> str:
    """Tip classes that the joints ask for, and the hottest setting."""
    tips = [t for t in ("fine", "medium", "broad") if any(s.tip == t for s in plan.steps)]
    hottest = max((s.iron for s in plan.steps), default=0)
    return f"{', '.join(tips)} tip, up to {hottest} °C" if tips else ""


def _has_supply(build: Build) -> bool:
    """Whether the build lists a bench supply of its own."""
    return any(re.search(r"\bsupply\b", f.part.name, re.IGNORECASE) for f in build.of_kind(Tool))


def _limiter(build: Build, gates: tuple[Gate, ...]) -> Need:
    """The limiters with their ratings: one for every gate, also where the build lists a bench supply,
    for whoever has none; with one, that of the first battery comes first.
    """
    alone = not _has_supply(build)
    by_rating: dict[str, list[str]] = {}
    volts = rating = ""
    for gate in gates:
        rating, _, said_volts = limiter_rating(gate).partition(", for ")
        volts = said_volts or volts
        by_rating.setdefault(rating, []).append(gate.letter)
    said = {r: f"gate {' and '.join(letters)}: {r}" for r, letters in by_rating.items()}
    if gates and not alone:  # the first battery takes that of the last gate
        first = f"first battery and {said.pop(rating)}"
        others = "; ".join(said.values())
        said = {rating: f"{first}; without a bench supply also {others}" if others else first}
    kind = "with plug and socket of the battery's kind"
    note = "; ".join((f"{kind}, for {volts}" if volts else kind, *said.values()))
    asks: Asks = _is_gate if alone else asks_by_name("first pack")
    return Need("limiter", False, "Series limiter for the battery lead", note, ("limiter",), asks)


def _supply_lead(build: Build, gates: tuple[Gate, ...]) -> Need:
    """The lead from the supply to the aircraft: where batteries are joined in series, its two ends
    go to two connectors.
    """
    plug = gates[0].plug if gates else ""
    plus, _, minus = plug.partition(" and ")
    note = "red to plus, black to minus"
    if minus:
        note = f"with two mates: red to {plus}, black to {minus}, nothing on the others"
    elif plug in {piece for f in build.of_kind(Connector) for piece in piece_names(f)}:
        note = f"with a mate: {note}"
    return Need("supply-lead", False, "Lead for the bench supply", note, ("lead",), _is_gate)


def _bleeder(gates: tuple[Gate, ...]) -> Need:
    """The resistor that empties the capacitors at the end of each gate."""
    rated = bleeder_words(gates[-1].discharge) if gates else "1 kΩ, 2 W"
    note = "insulated, with two clips or probes; empties the capacitor at the end of each gate"
    return Need("bleeder", False, f"Resistor {rated}", note, ("resistor",), _is_gate)


def _of_meter() -> Iterator[Need]:
    """What makes a reading safe between narrow pads, and a board safe from the hand."""
    sharp = "insulated to the tip, so that a slip bridges no two pads"
    yield Need("probes", False, "Needle probes for the meter", sharp, ("probes?",), _is_gate)
    clip = "insulated but for their tips; one stays on battery minus; clipped on with the power off"
    words = ("clip", "crocodile")
    yield Need("clip", False, "2 clips for the meter's leads", clip, words, _is_gate)
    hold = "holds a probe still on a narrow contact, as a weighted arm does"
    yield Need("holder", False, "Holder for a probe", hold, ("probe holder", "arm"), _is_gate)
    mat = "connected to earth; touch it before you touch a board"
    boards = either(asks_by_name("usb "), asks_by_action("tin", "solder"))
    words = ("mat", "wrist strap")
    yield Need("mat", False, "Earthed mat or wrist strap", mat, words, boards)


def _mates(build: Build) -> str:
    """A mate for each connector of the battery: all of them are in while the cups are hot."""
    count = sum(f.count for f in build.of_kind(Connector))
    name = "ate of the battery's connector"
    return f"M{name}" if count < 2 else f"{count} × m{name}"


def _by_hand(build: Build, cut: Asks) -> Iterator[Need]:
    """What measures, marks, scrapes and turns."""
    rule = either(cut, asks_by_name("lay ", "mount "))
    yield Need("rule", False, "Rule", "in mm", ("rule", "ruler", "caliper"), rule)
    enamel = asks_by_words(r"\benamel\b")
    words = ("scraper", "blade", "emery")
    yield Need("scraper", False, "Blade or fine emery paper", "for enamel", words, enamel)
    into_nuts = (p.part for p in build.screws if re.search(r"\bnut\b", p.screw.into or ""))
    threads = {p.thread for p in into_nuts if isinstance(p, Hardware) and p.thread}
    for thread in sorted(threads):
        turns = asks_by_words(r"\b[Ii]nto the nut\b")
        name = f"Key for {thread} nuts"
        yield Need(f"key-{thread}", False, name, "", (rf"{thread} nuts?",), turns)
    soldered, heat = asks_by_action("solder"), "optional; shows its temperature"
    yield Need("plate", False, "Hot plate", heat, ("hot plate", "preheater"), soldered)


def tools_needed(build: Build, plan: Plan, gates: tuple[Gate, ...]) -> Iterator[Need]:
    """Tools that the steps of this build ask for."""
    soldered, cut = takes_iron, asks_by_name("cut ", "trim ", "legs ")
    shrunk = asks_by_name("sleeve ", "legs ", "cover ")
    mates = ", ".join(t for f in build.of_kind(Connector) if (t := f.part.type))
    nuts = any(
        f.part.mount is not None and f.part.mount.style == "shaft nut"
        for f in build.of_kind(Propeller)
    )
    yield Need("usb", False, "USB cable", "that carries data", ("usb",), asks_by_name("usb "))
    yield Need(
        "meter",
        False,
        "Hand meter",
        "with a beep test",
        ("meter",),
        lambda s: bool(s.measures or s.gate),
    )
    yield from _of_meter()
    yield Need("cutters", False, "Side cutters", "flush, for copper only", ("cutters",), cut)
    yield Need("strippers", False, "Wire strippers", _gauges(build), ("strippers?",), cut)
    yield Need(
        "eyes", False, "Eye protection", "cut ends fly, flux spits", ("eye", "safety glasses"), cut
    )
    empty = ", ".join(filter(None, (mates, "empty: no battery on it")))
    mate = asks_by_name("mate ")
    yield Need("mate", False, _mates(build), empty, ("mates?",), mate)
    yield from _by_hand(build, cut)
    yield Need("iron", False, "Soldering iron with a stand", _tips(plan), ("iron",), soldered)
    yield Need(
        "clamp",
        False,
        "Clamp that holds a board or a cup",
        "",
        ("clamp", "vice", "third hand"),
        soldered,
    )
    yield Need("tweezers", False, "Tweezers", "fine, that do not scratch", ("tweezers",), soldered)
    fan = "draws smoke away; later moves air over boards under power"
    aired = either(soldered, _is_gate)
    yield Need("fan", False, "Fan", fan, ("fan", "extractor"), aired)
    yield Need(
        "heat",
        False,
        "Hot air for shrink sleeves",
        "or another heat without flame",
        ("hot air", "heat gun"),
        shrunk,
    )
    yield Need(
        "supply",
        False,
        "Bench supply with a current limit",
        "or a series limiter",
        ("supply",),
        _is_gate,
    )
    yield _supply_lead(build, gates)
    yield _limiter(build, gates)
    yield _bleeder(gates)
    lens = "for bridges between pads"
    yield Need(
        "lens",
        False,
        "Lens or magnifier",
        lens,
        ("lens", "magnifier"),
        asks_by_name("inspect ", "look over "),
    )
    yield Need(
        "drivers",
        False,
        "Drivers for the screws",
        _threads(build),
        ("drivers?",),
        asks_by_action("mount"),
    )
    if nuts:
        yield Need(
            "nut-key",
            False,
            "Key for the propeller nuts",
            "",
            ("key", "spanner"),
            asks_by_name("propellers"),
        )
    yield Need(
        "scale",
        False,
        "Scale",
        "for parts and for the whole",
        ("scale",),
        asks_by_name("weigh", "balance"),
    )
