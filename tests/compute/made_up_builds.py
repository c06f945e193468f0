"""Random builds as a person would write them, for tests of the order of work."""

from dataclasses import dataclass

from hypothesis import strategies as st

from builder.model.build import Build
from tests.compute.small_workspace import one_build

BATTERY = """
    BAT+: {role: draws, battery: yes, polarity: plus, pad_size: 4 x 4 mm, copper: power}
    BAT-: {role: ground, battery: yes, polarity: minus, pad_size: 4 x 4 mm, copper: plane}"""
PHASES = "".join(
    f"\n    M{m}{p}: {{role: phase, channel: {m}, copper: power}}"
    for m in range(1, 5)
    for p in "ABC"
)
SOCKETS = "\n  sockets:" + "".join(
    f"\n    K{m}: {{contacts: [M{m}A, M{m}B, M{m}C]}}" for m in range(1, 5)
)
SHELF = """
frame: {kind: frame, name: Frame}
motor: {kind: motor, name: Motor, leads: {count: 3, gauge: 24 AWG, length: 100 mm}, pads: {A: PHASE, B: PHASE, C: PHASE}}
plug-motor: {kind: motor, name: Motor, sockets: {P: {contacts: [A, B, C]}}, pads: {A: PHASE, B: PHASE, C: PHASE}}
propeller: {kind: propeller, name: Propeller}
pigtail: {kind: connector, name: Pigtail, pads: {PLUS: {role: supply, polarity: plus}, MINUS: {role: ground, polarity: minus}}}
capacitor: {kind: capacitor, name: Capacitor, leads: {count: 2}, pads: {PLUS: {role: draws}, MINUS: {role: ground}}}
camera: {kind: camera, name: Camera, pads: {G: {role: ground}, V: {role: draws}, S: {role: video-out}}}
video: {kind: video-transmitter, name: Video, coax: {type: small}, pads: {G: {role: ground}, V: {role: draws}, S: {role: video-in}}}
receiver: {kind: receiver, name: Receiver, coax: {type: tiny}, pads: {G: {role: ground}, V: {role: draws}, S: {role: sends, serial: 1}}}
lights: {kind: lights, name: Lights, pads: {G: {role: ground}, V: {role: draws}, S: {role: light-in}}}
sleeve: {kind: hardware, name: Shrink sleeve}
harness: {kind: cable, name: Harness, lies: straight}
antenna-small: {kind: antenna, name: Antenna, coax: {type: small}}
antenna-tiny: {kind: antenna, name: Antenna, coax: {type: tiny}}
""".replace("PHASE", "{role: phase}")
LOADS = ("receiver", "video", "camera", "lights")


@dataclass(frozen=True)
class Choice:
    """What a random build holds."""

    combined: bool
    plugged: bool
    motors: int
    capacitor: bool
    loads: tuple[str, ...]
    under: tuple[str, ...]
    own: tuple[tuple[str, str], ...]
    from_pack: bool = False


def _pads(loads: tuple[str, ...], under: tuple[str, ...]) -> str:
    out = ""
    for load in loads:
        side = "under" if load in under else "top"
        for pad, role, copper in (
            ("G", "ground", "plane"),
            ("V", "supply", "signal"),
            ("S", "listens", "signal"),
        ):
            out += f"\n    {load}-{pad}: {{role: {role}, side: {side}, copper: {copper}}}"
    return out


def _shelf(c: Choice) -> str:
    sockets = SOCKETS if c.plugged else ""
    if c.combined:
        pads = BATTERY + PHASES + _pads(c.loads, c.under)
        return f"{SHELF}\nboard:\n  kind: combined-board\n  name: Board{sockets}\n  pads:{pads}\n"
    plugs = sockets + ("" if sockets else "\n  sockets:") + "\n    J: {contacts: [JG, JB]}"
    esc = f"esc:\n  kind: speed-controller\n  name: Controller{plugs}\n  pads:{BATTERY}{PHASES}\n"
    esc += "    JG: {role: ground}\n    JB: {role: supply, battery: yes}\n"
    own = "\n    HG: {role: ground}\n    VIN: {role: draws, battery: yes}" + _pads(c.loads, c.under)
    board = (
        "board:\n  kind: flight-controller\n  name: Board\n  sockets:\n    J: {contacts: [HG,"
        f" VIN]}}\n  pads:{own}\n"
    )
    return f"{SHELF}\n{esc}{board}"


def _wires(c: Choice, esc: str) -> list[str]:
    out = [
        f"{{from: pigtail.PLUS, to: {esc}.BAT+, gauge: 18 AWG, length: 80 mm}}",
        f"{{from: pigtail.MINUS, to: {esc}.BAT-, gauge: 18 AWG, length: 80 mm}}",
    ]
    if c.capacitor:
        out += [
            f"{{from: capacitor.{p}, to: {esc}.BAT{s}, lead: fitted}}"
            for p, s in (("PLUS", "+"), ("MINUS", "-"))
        ]
    if not c.plugged:
        for m in range(1, c.motors + 1):
            piece = f"motor.{m}" if c.motors > 1 else "motor"
            out += [f"{{from: {piece}.{p}, to: {esc}.M{m}{p}, lead: fitted}}" for p in "ABC"]
    for load in c.loads:
        ends = {p: f"board.{load}-{p}" for p in "GVS"}
        if c.from_pack and load == "video":
            ends["V"] = f"{esc}.BAT+"
        out += [
            f"{{from: {load}.{p}, to: {end}, gauge: 28 AWG, length: 60 mm}}"
            for p, end in ends.items()
        ]
    return out


def _with_edges(shelf: str, c: Choice) -> str:
    """The shelf with pads that lie beside each other, so that solder can bridge them."""
    top = [f"{load}-{pad}" for load in c.loads if load not in c.under for pad in "GVS"]
    under = [f"{load}-{pad}" for load in c.loads if load in c.under for pad in "GVS"]
    board = f"edges: {{left: [{', '.join(top)}], under: {{right: [{', '.join(under)}]}}}}"
    made = shelf.replace("pads: {G:", "edges: {left: [G, V, S]}, pads: {G:")
    return made.replace("\n  name: Board\n", f"\n  name: Board\n  {board}\n")


def build_of(c: Choice, *, edges: bool = False) -> Build:
    """The build of a choice; with `edges` the pads of its loads and boards have neighbours."""
    esc = "board" if c.combined else "esc"
    parts = [
        "frame: frame",
        f"motor: {{use: {'plug-motor' if c.plugged else 'motor'}, count: {c.motors}}}",
    ]
    parts += ["propeller: {use: propeller, count: 4}", "pigtail: pigtail", "board: board"]
    parts += [] if c.combined else ["esc: esc", "harness: harness"]
    parts += ["capacitor: capacitor"] if c.capacitor else []
    parts += [f"{load}: {load}" for load in c.loads]
    parts += ["video-antenna: antenna-small", "sleeve: sleeve"] if "video" in c.loads else []
    parts += ["rx-antenna: antenna-tiny"] if "receiver" in c.loads else []
    plugs = [] if c.combined else ["{from: esc.J, to: board.J, use: harness}"]
    if c.plugged:
        names = [f"motor.{m}" if c.motors > 1 else "motor" for m in range(1, c.motors + 1)]
        plugs += [
            f"{{from: {n}.P, to: {esc}.K{m}, cable: straight}}" for m, n in enumerate(names, 1)
        ]
    steps = [
        f"{{id: own-{i}, do: fit, text: Own, {field}: {name}}}"
        for i, (field, name) in enumerate(c.own)
    ]
    text = (
        "title: T\nparts: {"
        + ", ".join(parts)
        + "}\nwires:\n"
        + "".join(f"  - {w}\n" for w in _wires(c, esc))
    )
    text += ("plugs:\n" + "".join(f"  - {p}\n" for p in plugs)) if plugs else ""
    text += ("steps:\n" + "".join(f"  - {s}\n" for s in steps)) if steps else ""
    return one_build(_with_edges(_shelf(c), c) if edges else _shelf(c), text)


OWN = st.tuples(
    st.sampled_from(["before", "after"]),
    st.sampled_from(
        [
            "dry fit",
            "gate A",
            "mount board",
            "solder pigtail",
            "coat",
            "rotation",
            "tie",
            "setup",
            "last gate",
        ]
    ),
)
CHOICES = st.builds(
    Choice,
    st.booleans(),
    st.booleans(),
    st.sampled_from([1, 2, 4]),
    st.booleans(),
    st.lists(st.sampled_from(LOADS), unique=True).map(tuple),
    st.lists(st.sampled_from(LOADS), unique=True, max_size=2).map(tuple),
    st.lists(OWN, max_size=2).map(tuple),
    st.booleans(),
)
