"""What a build says and nothing looks at: fields that a person wrote and that are only shown."""

from collections.abc import Iterator, Mapping

from builder.load.field_readers import readers
from builder.model.build import Build
from builder.model.source.part import Part
from builder.model.values.base import Frozen
from builder.rules.field_register import SHOWN_ONLY, owner_of
from builder.rules.judge import Verdict

_READ_HEAT = ("bench/iron-out-of-range", "bench/iron-too-weak", "bench/tool-missing")


def _said(value: object) -> Iterator[str]:
    """Fields that somebody wrote, of an object of the model and of what stands inside it."""
    if isinstance(value, Frozen):
        for name in value.model_fields_set:
            yield owner_of(type(value), name)
            yield from _said(getattr(value, name))
    elif isinstance(value, Mapping):
        for each in value.values():
            yield from _said(each)
    elif isinstance(value, tuple):
        for each in value:
            yield from _said(each)


def not_looked_at(build: Build) -> tuple[str, ...]:
    """Figures and settings of the build and its parts that no figure and no rule reads, each once:
    `esr of capacitor`.
    """
    parts: dict[str, Part] = {key: f.part for key, f in build.parts.items()}
    parts |= {key: pack.part for key, pack in build.packs.items()}
    found: dict[str, list[str]] = {}
    for key, part in parts.items():
        for field in _said(part):
            if field in SHOWN_ONLY:
                found.setdefault(field, []).append(key)
    own = [f for f in _said(build.source) if f in SHOWN_ONLY]
    out = [f"{_word(f)} of {', '.join(dict.fromkeys(keys))}" for f, keys in found.items()]
    return tuple(sorted({*out, *(_word(f) for f in own)}))


def resting_on_prints(build: Build, verdict: Verdict) -> tuple[str, ...]:
    """The rules that passed and read what this build took from prints; it may be that they would
    say otherwise if a print means something else.
    """
    pads = (pad for f in build.parts.values() for pad in f.part.pads.values())
    fields = {f"Pad.{name}" for pad in pads for name in pad.assumed}
    readers_of = {who for field in fields for who in readers().get(field, ())}
    passed = (a.rule.code for a in verdict.answers if a.answer == "passed")
    return tuple(code for code in passed if code in readers_of)


def resting_on_usual_pads(verdict: Verdict) -> tuple[str, ...]:
    """The rules that passed and read how much heat a joint takes: where size or copper of a contact
    is taken as usual for its kind, they rest on that.
    """
    passed = {a.rule.code for a in verdict.answers if a.answer == "passed"}
    return tuple(code for code in _READ_HEAT if code in passed)


def checks_in_words(build: Build, verdict: Verdict) -> str:
    """What passed, with what was not looked at beside it: checks, and fields that none uses."""
    unread = len(not_looked_at(build))
    if not unread:
        return verdict.summary()
    fields = "1 field is" if unread == 1 else f"{unread} fields are"
    return f"{verdict.summary()}; {fields} used by no check"


def _word(field: str) -> str:
    return field.partition(".")[2].replace("_", " ")
