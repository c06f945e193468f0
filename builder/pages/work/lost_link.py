"""What is seen when the link is lost: at the bench, where nothing flies, and in the air."""

from collections.abc import Mapping

from builder.model.source.setup_source import FailSafe
from builder.model.values.words import own_words
from builder.rounding import rounded

_AT_BENCH: Mapping[str, str] = {
    "motors stop": "all motors must stop",
    "lands": "the motors go on, slower",
    "comes home": "the motors go on, and may speed up",
    "holds throttle": "the motors go on as they were",
}
_IN_AIR: Mapping[str, str] = {
    "motors stop": "all motors stop and it falls",
    "lands": "it sinks and lands, motors turning",
    "comes home": "it flies back to its start by itself, motors turning",
    "holds throttle": "it flies on by itself, motors turning",
}


def _said(plan: FailSafe, words: Mapping[str, str]) -> str:
    own = own_words(plan.does)
    return words.get(plan.does, plan.does) if own is None else own


def at_bench(plan: FailSafe | None) -> str:
    """What somebody sees on the bench who switches the transmitter off."""
    return _AT_BENCH["motors stop"] if plan is None else _said(plan, _AT_BENCH)


def in_air(plan: FailSafe) -> str:
    """What it does in the air."""
    return _said(plan, _IN_AIR)


def soon(plan: FailSafe | None) -> str:
    """Within which time, as the end of a clause; '' where nobody says."""
    if plan is None or plan.within is None:
        return ""
    return f" within {rounded(plan.within.value, 1)} s"


def builder_note(plan: FailSafe) -> str:
    """What its builder remarks, as a sentence of its own; '' for nothing."""
    return f" Its builder notes: {plan.note.rstrip('.')}." if plan.note else ""
