"""Every key that a person may write has words, and the words stand where the fields stand."""

from collections.abc import Iterator

import pytest

from builder.model.kinds import KINDS
from builder.model.kinds.drive import Motor
from builder.model.site import Site
from builder.model.source.build_source import BuildSource
from builder.model.source.describe import (
    Choice,
    Either,
    Group,
    ListOf,
    MapOf,
    OneText,
    Value,
    group,
)
from builder.model.values.base import Frozen

MODELS: tuple[type[Frozen], ...] = (Site, BuildSource, *KINDS.values())


def _keys(value: Value, path: str) -> Iterator[tuple[str, str]]:
    if isinstance(value, Group):
        for key in value.keys:
            yield f"{path}.{key.name}", key.words
            yield from _keys(key.value, f"{path}.{key.name}")
    elif isinstance(value, ListOf | MapOf):
        yield from _keys(value.item, path)
    elif isinstance(value, Either):
        for each in value.values:
            yield from _keys(each, path)


@pytest.mark.parametrize("model", MODELS, ids=[m.__name__ for m in MODELS])
def test_every_key_has_words(model: type[Frozen]) -> None:
    keys = dict(_keys(group(model), model.__name__))
    assert keys
    assert [path for path, words in keys.items() if not words] == []


def test_words_do_not_repeat_the_key_alone() -> None:
    """'mass: mass' helps nobody."""
    for model in MODELS:
        for path, words in _keys(group(model), model.__name__):
            assert words.casefold() != path.rsplit(".", 1)[1].replace("_", " ").casefold(), path


def test_what_a_motor_may_say() -> None:
    keys = {k.name: k for k in group(Motor).keys}
    assert keys["name"].required and not keys["kv"].required
    kv = keys["kv"].value
    assert isinstance(kv, OneText) and kv.example == "3800 rpm/V"
    mass = keys["mass"].value
    assert isinstance(mass, Group) and isinstance(mass.short, OneText), "a mass may be one text"
    bench = keys["bench"].value
    assert isinstance(bench, ListOf) and isinstance(bench.item, Group)
    peak = keys["peak"].value
    assert isinstance(peak, Group) and "for" in {k.name for k in peak.keys}, (
        "keys as they are written, not as fields"
    )


def test_choices_are_the_words_of_the_model() -> None:
    status = next(k.value for k in group(BuildSource).keys if k.name == "status")
    assert isinstance(status, Choice) and "flying" in status.words
