"""A wire to a pad that does not exist: the hint names a soldering place that the wire can go to."""

from pathlib import Path

import pytest

from builder.model.follow.nearest_pad import which_pad
from builder.model.kinds import FlightController
from tests.workspace_edits import judged_after

BOARD = FlightController.model_validate(
    {
        "kind": "flight-controller",
        "name": "Invented board",
        "pads": {
            pad: {"role": "supply"} for pad in ("5V1", "5V2", "5V4", "GND", "VID-IN", "J5V", "RX3")
        },
        "sockets": {"J1": {"contacts": ["J5V", "RX3"]}},
        "edges": {"left": ["5V1", "POND"]},
    }
)


@pytest.mark.parametrize(
    ("asked", "taken", "hint"),
    [
        ("5V3", (), "Did you mean '5V2'? No wire goes there yet."),  # of two as near the lower one
        ("5V3", ("5V2",), "Did you mean '5V4'? No wire goes there yet."),
        ("5V9", ("5V4", "5V2"), "Did you mean '5V1'? No wire goes there yet."),
        (
            "5V3",
            ("5V1", "5V2", "5V4"),
            "Did you mean '5V2'?",
        ),  # all have a wire; it may be meant all the same
        ("5V", ("5V1",), "Did you mean '5V2'? No wire goes there yet."),
        ("gnd2", (), "Did you mean 'GND'? No wire goes there yet."),
        ("VIDIN", (), "Did you mean 'VID-IN'?"),
        ("POND", (), "'POND' is printed there. Write what it is for: pads: {POND: {role: ...}}."),
        (
            "RX4",
            (),
            "Did you mean 'RX3'?",
        ),  # a contact of a socket, where no soldering place is named alike
        ("ZZZ", (), "Known here: 5V1, 5V2, 5V4, GND, J5V, RX3, VID-IN."),
    ],
)
def test_a_free_soldering_place_is_named_first(
    asked: str, taken: tuple[str, ...], hint: str
) -> None:
    assert which_pad(asked, BOARD, taken) == hint


def test_wires_of_other_pieces_take_nothing(tmp_path: Path) -> None:
    """motor.2.A has its wire; on motor 1 the pad is still free once its own wire names another."""
    found = judged_after(
        tmp_path, "dipper", "dipper/build.yaml", "from: motor.1.A,", "from: motor.1.A2,"
    )
    hints = {
        f.hint for f in found.findings if f.code == "data/no-such-contact"
    }  # the variant inherits it
    assert hints == {"Did you mean 'A'? No wire goes there yet."}
