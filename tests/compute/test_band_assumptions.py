"""Every band says on what it rests: each leaf that widens it was read somewhere or states its
assumption.
"""

import re

import pytest

from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.flight.flight import PackFlight
from builder.pages.derivations.derivation import origin
from builder.pages.told_words import note_words
from builder.pipeline.check import Checked

NAMES = ("curlew", "dipper", "dipper-light", "pipit", "redshank", "turnstone")


def banded(pack: PackFlight) -> dict[str, MaybeFigure]:
    """The figures of one pack that the sheet shows with a band."""
    return {
        "theory": pack.hover.theory_power,
        "bench": pack.hover.bench_power,
        "power": pack.hover_power,
        "current": pack.hover_current,
        "throttle": pack.throttle,
        "thrust": pack.thrust_to_weight,
        "hovering": pack.endurance_hover,
        "time": pack.endurance_styled,
        "mean": pack.styled_current,
        "peak": pack.peak_current,
    }


@pytest.mark.parametrize("name", NAMES)
def test_every_leaf_of_a_band_says_where_it_is_from(demo: Checked, name: str) -> None:
    for key, pack in demo.sheets[name].results.flight.packs.items():
        for what, figure in banded(pack).items():
            assert isinstance(figure, Figure), (key, what)
            assert figure.spread > 0
            for leaf, share in figure.contributions():
                if share > 0:
                    said = leaf.note or (leaf.where is not None and origin(leaf))
                    assert said, (
                        f"{name}, {key}, {what}: {leaf.key} ({share:.1%}) names neither source nor"
                        " assumption"
                    )


@pytest.mark.parametrize("name", NAMES)
def test_every_band_states_how_it_was_reckoned(demo: Checked, name: str) -> None:
    """Theory names its theory, a bench its scalings, time whose way of flying it is and how far it
    is flown down, throttle its volts.
    """
    wanted = {
        "theory": "momentum theory",
        "bench": "same thrust takes the same power",
        "throttle": "scales as volts",
        "thrust": "thrust by an exponent of the volts",
        "time": r"(as the builder states it|as pilots usually fly; no flight counted|from \d+ logged flights?); .*down to ",
        "peak": "solved together",
        "current": "solved together",
    }
    for pack in demo.sheets[name].results.flight.packs.values():
        for what, words in wanted.items():
            figure = banded(pack)[what]
            assert isinstance(figure, Figure)
            assert re.search(words, note_words(figure)), (what, figure.note)
            assert any("common practice" in note_words(f) for f in figure.derivation) or what in (
                "bench",
                "thrust",
            ), what
