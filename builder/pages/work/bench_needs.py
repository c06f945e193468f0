"""What has to lie on the bench: the builder's own tools and consumables, and what else the steps of
the work ask for.

A need follows from steps. One that a tool or consumable of the build answers to by its name is not
said twice. Needs are common practice, no source.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from builder.compute.joints.bench_pieces import sleeved
from builder.compute.order.steps.work_step import WorkStep
from builder.compute.order.work_order import Plan
from builder.compute.power_up.gate import Gate
from builder.model.build import Build, piece_names
from builder.model.kinds import Connector, Hardware, Propeller, Receiver, Tool
from builder.pages.told_words import told_words
from builder.pages.work.gate_lines import bleeder_words, limiter_rating

Asks = Callable[[WorkStep], bool]
_TINS = re.compile(r"\btin\b")


@dataclass(frozen=True)
class Need:
    """A thing that steps ask for: its name, what to look for, the first step, words by which an own
    part is known.
    """

    key: str
    consumable: bool
    name: str
    note: str
    words: tuple[str, ...]
    asks: Asks


def _does(*what: str) -> Asks:
    return lambda s: s.do in what


def _named(*beginnings: str) -> Asks:
    return lambda s: s.id.startswith(beginnings)


def _is_gate(step: WorkStep) -> bool:
    return bool(step.gate)


def _is_hot(step: WorkStep) -> bool:
    """Whether the iron is taken up: also where the ends of a wire are tinned as it is cut."""
    return step.do in ("tin", "solder") or bool(_TINS.search(told_words(step.text)))


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


def _sleeves(build: Build) -> str:
    """Where shrink sleeve goes that is no part of the build."""
    cups = [f"cups of {f.key}" for f in build.of_kind(Connector)]
    legs = [f"legs of {f.key}" for f in build.parts.values() if f.part.KIND == "capacitor"]
    radios = [f.part.name for f in build.of_kind(Receiver) if sleeved(build, f)]
    return ", ".join((*cups, *legs, *radios))


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
    note = "with plug and socket of the battery's kind"
    alone = not _has_supply(build)
    by_rating: dict[str, list[str]] = {}
    for gate in gates:
        by_rating.setdefault(limiter_rating(gate), []).append(gate.letter)
    if gates and not alone:
        note = f"{note}; {limiter_rating(gates[-1])}; without a bench supply"
    said = (f"gate {' and '.join(letters)}: {rating}" for rating, letters in by_rating.items())
    note = "; ".join((note, *said))
    asks: Asks = _is_gate if alone else _named("first pack")
    return Need("limiter", False, "Series limiter for the battery lead", note, ("limiter",), asks)


def _supply_lead(build: Build, gates: tuple[Gate, ...]) -> Need:
    """The lead from the supply to the aircraft: where batteries are joined in series, its two ends
    go to two connectors.
    """
    plug = gates[0].plug if gates else ""
    plus, _, minus = plug.partition(" and ")
    note = "red to plus, black to minus"
    if minus:
        two = f"red to {plus}, black to {minus}, nothing on the other contacts"
        note = f"with two mates of the battery's connector: {two}"
    elif plug in {piece for f in build.of_kind(Connector) for piece in piece_names(f)}:
        note = f"with a mate of the battery's connector: {note}"
    return Need("supply-lead", False, "Lead for the bench supply", note, ("lead",), _is_gate)


def _bleeder(gates: tuple[Gate, ...]) -> Need:
    """The resistor that empties the capacitors at the end of each gate."""
    rated = bleeder_words(gates[-1].discharge) if gates else "1 kΩ, 2 W"
    note = "insulated, with two clips or probes; empties the capacitor at the end of each gate"
    return Need("bleeder", False, f"Resistor {rated}", note, ("resistor",), _is_gate)


def _either(one: Asks, other: Asks) -> Asks:
    return lambda s: one(s) or other(s)


def _of_meter() -> Iterator[Need]:
    """What makes a reading safe between narrow pads, and a board safe from the hand."""
    sharp = "insulated to the tip, so that a slip bridges no two pads"
    yield Need("probes", False, "Needle probes for the meter", sharp, ("probes?",), _is_gate)
    clip = "stays on battery minus; clipped on with the power off"
    words = ("clip", "crocodile")
    yield Need("clip", False, "Clip for the minus probe", clip, words, _is_gate)
    mat = "connected to earth; touch it before you touch a board"
    boards = _either(_named("usb "), _does("tin", "solder"))
    words = ("mat", "wrist strap")
    yield Need("mat", False, "Earthed mat or wrist strap", mat, words, boards)


def tools_needed(build: Build, plan: Plan, gates: tuple[Gate, ...]) -> Iterator[Need]:
    """Tools that the steps of this build ask for."""
    soldered, cut = _is_hot, _named("cut ", "trim ", "legs ")
    shrunk = _named("sleeve ", "legs ", "cover ")
    mates = ", ".join(t for f in build.of_kind(Connector) if (t := f.part.type))
    nuts = any(
        f.part.mount is not None and f.part.mount.style == "shaft nut"
        for f in build.of_kind(Propeller)
    )
    yield Need("usb", False, "USB cable", "that carries data", ("usb",), _named("usb "))
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
    yield Need("mate", False, "Mate of the battery's connector", empty, ("mate",), _named("mate "))
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
    aired = _either(soldered, _is_gate)
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
        _named("inspect ", "look over "),
    )
    yield Need(
        "drivers", False, "Drivers for the screws", _threads(build), ("drivers?",), _does("mount")
    )
    if nuts:
        yield Need(
            "nut-key",
            False,
            "Key for the propeller nuts",
            "",
            ("key", "spanner"),
            _named("propellers"),
        )
    yield Need(
        "scale",
        False,
        "Scale",
        "for parts and for the whole",
        ("scale",),
        _named("weigh", "balance"),
    )


def consumables_needed(build: Build) -> Iterator[Need]:
    """Consumables that the steps of this build ask for."""
    soldered = _is_hot
    sleeves = _sleeves(build)
    locked = any(s.screw.lock for s in build.screws)
    yield Need("solder", True, "Solder wire with a flux core", "", ("solder",), soldered)
    yield Need("flux", True, "Flux", "", ("flux",), soldered)
    if sleeves:
        yield Need(
            "sleeve",
            True,
            "Shrink sleeve",
            sleeves,
            ("shrink", "sleeve"),
            _named("cut ", "legs ", "slide "),
        )
    tape = "insulating; heat does not lift it"
    yield Need("tape", True, "Tape", tape, ("tape",), _named("tape ", "lay "))
    if locked:
        yield Need("lock", True, "Thread lock", "", ("thread lock",), _named("mount motor"))
    clean = "for flux, before the boards are looked over"
    yield Need(
        "cleaner",
        True,
        "Cleaner and brush",
        clean,
        ("cleaner", "alcohol"),
        _named("inspect ", "look over "),
    )
    yield Need("ties", True, "Small cable ties", "", ("ties?",), _named("tie", "mount receiver"))
    coat = "optional; with a mask for what stays bare"
    yield Need(
        "coating",
        True,
        "Coating for boards",
        coat,
        ("coating", "lacquer", "varnish"),
        _named("coat"),
    )
    yield Need(
        "glue",
        True,
        "Glue that stays soft",
        "for what a tie does not hold",
        ("glue", "adhesive"),
        _named("coat"),
    )
