"""Made-up builds for property tests: a few boards with contacts on any edge, in sockets or on none,
wired at random.
"""

import json

from hypothesis import strategies as st

from builder.model.build import Build
from tests.compute.small_workspace import FRAME, one_build

KINDS = ("flight-controller", "speed-controller", "camera", "motor", "video-transmitter", "buzzer")


@st.composite
def _part(draw: st.DrawFn) -> dict[str, object]:
    count = draw(st.integers(1, 7))
    pads = [f"P{i}" for i in range(count)]
    edges: dict[str, object] = {}
    under: dict[str, list[str]] = {}
    socket: list[str] = []
    for pad in pads:
        place = draw(
            st.sampled_from(["left", "right", "front", "rear", "under", "socket", "nowhere"])
        )
        if place == "under":
            under.setdefault(draw(st.sampled_from(["left", "right", "front", "rear"])), []).append(
                pad
            )
        elif place == "socket":
            socket.append(pad)
        elif place != "nowhere":
            found = edges.setdefault(place, [])
            assert isinstance(found, list)
            found.append(pad)
    part: dict[str, object] = {
        "kind": draw(st.sampled_from(KINDS)),
        "name": "Made up",
        "mass": {"measured": "1 g", "scale": "0.1 g"},
        "pads": {p: {"role": "sense"} for p in pads},
        "edges": edges | ({"under": under} if under else {}),
    }
    if socket:
        on = draw(st.sampled_from(["left", "right", "front", "rear", None]))
        part["sockets"] = {
            "J": {
                "contacts": socket,
                "latch": draw(st.sampled_from(["top", "under"])),
                **({"edge": on} if on else {}),
            }
        }
    return part


@st.composite
def wirings(draw: st.DrawFn) -> Build:
    """A build of two to six boards with up to sixteen wires between different boards."""
    parts = draw(st.lists(_part(), min_size=2, max_size=6))
    shelf = FRAME + "".join(f"\nq{i}: {json.dumps(part)}" for i, part in enumerate(parts))
    contacts = [(i, pad) for i, part in enumerate(parts) for pad in part["pads"]]  # type: ignore[attr-defined]
    ends = st.tuples(st.sampled_from(contacts), st.sampled_from(contacts)).filter(
        lambda e: e[0][0] != e[1][0]
    )
    wires = draw(st.lists(ends, min_size=1, max_size=16, unique_by=lambda e: tuple(sorted(e))))
    colours = st.sampled_from(["red", "black", "white", "yellow", None])
    made = []
    for (a, pa), (b, pb) in wires:
        colour = draw(colours)
        made.append(
            {"from": f"b{a}.{pa}", "to": f"b{b}.{pb}"} | ({"colour": colour} if colour else {})
        )
    build = {
        "title": "Random",
        "parts": {"frame": "frame", **{f"b{i}": f"q{i}" for i in range(len(parts))}},
        "wires": made,
    }
    return one_build(shelf, json.dumps(build))
