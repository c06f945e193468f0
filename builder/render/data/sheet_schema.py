"""JSON Schema (draft 2020-12) of sheet.json, for people who read it with programs of their own."""

from typing import Any

SheetSchema = dict[str, Any]
_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def _of(kind: str, words: str) -> SheetSchema:
    return {"type": kind, "description": words}


def _group(words: str, **keys: SheetSchema) -> SheetSchema:
    """A group whose keys all stand there."""
    named = {k.rstrip("_"): v for k, v in keys.items()}
    return {
        "type": "object",
        "description": words,
        "properties": named,
        "required": list(named),
        "additionalProperties": False,
    }


def _by_key(words: str, item: SheetSchema) -> SheetSchema:
    return {"type": "object", "description": words, "additionalProperties": item}


def _list(words: str, item: SheetSchema) -> SheetSchema:
    return {"type": "array", "description": words, "items": item}


_TEXT, _NUMBER = {"type": "string"}, {"type": "number"}
_LABEL = _of("string", "what it is, in words")
_UNIT = _of("string", "SI unit of the value")
_SPREAD = _of("number", "one standard deviation, in the unit of the value")
_VALUE = {"label": _LABEL, "value": _of("number", "in SI"), "unit": _UNIT, "spread": _SPREAD}
_ERRORS = _by_key("slope times spread, by leaf: shared leaves cancel in a difference", _NUMBER)
_MISSING = _list("what has to be known first", _TEXT)
_MAYBE = {"type": ["number", "null"], "description": "in SI; null where it is not known"}
_MINOR = {"type": "integer", "description": "in minor units of the currency"}

_LEAF = _group(
    "What was weighed or measured, or what a maker said.",
    **_VALUE,
    basis=_of("string", "measured, maker, estimate, setting, defined"),
    from_={"type": ["string", "null"], "description": "file and keys, or a source in words"},
)
_FIGURE = _group(
    "A computed figure: the slope by a leaf is the sum over all ways of the product of the partials"
    " on the way.",
    **_VALUE,
    function=_of(
        "string", "the formula by its own name, which no other has; it stays when code moves"
    ),
    text=_of("string", "its formula"),
    source=_of("string", "where the formula comes from"),
    inputs=_list("keys of figures and leaves, in the order of the function's arguments", _TEXT),
    partials=_list("local slopes, in the order of the inputs", _NUMBER),
    lacks=_MISSING,
    shape=_of("string", "how its band is shaped: normal, or in logarithms"),
)
_HEADLINE = _group(
    "A figure that comparisons use.",
    key=_TEXT,
    value=_of("number", "in SI"),
    unit=_UNIT,
    lacks=_MISSING,
    errors=_ERRORS,
)
_WITH_ERRORS: dict[str, SheetSchema] = {
    "value": _MAYBE,
    "errors": _ERRORS,
    "lacks": _of("boolean", "whether something that belongs to it is not known"),
    "reads": _of("string", "what then stands before its value: at least, at most, about"),
    "anchor": _of("string", "its anchor on the page of numbers"),
}
_WEIGHT = _group(
    "Its weight.",
    **_WITH_ERRORS,
)
_COMPARED = _group(
    "A row of a comparison.",
    key=_of("string", "rows of two builds match by it"),
    label=_LABEL,
    group=_TEXT,
    shown=_of("string", "unit in which it is shown"),
    factor=_of("number", "from SI to that unit"),
    decimals=_of("integer", "places behind the point"),
    kept=_of("boolean", "whether it is a time to be kept: shown cut, never longer"),
    **_WITH_ERRORS,
)
_PLACE = _group(
    "A place in the build and what sits there.",
    key=_TEXT,
    kind=_TEXT,
    shelf=_TEXT,
    count=_of("integer", "pieces"),
    name=_TEXT,
    weight={"anyOf": [_WEIGHT, {"type": "null"}]},
    money={"type": ["integer", "null"], "description": "in minor units of the currency"},
    unpriced=_of("boolean", "whether it costs something that is not known"),
)


_USE = _group(
    "What a battery is for.",
    purpose=_of("string", "lightest, longest, or as flown"),
    pack=_of("string", "its name in the build, empty where none serves"),
    shelf=_of("string", "its name on the shelf"),
    label=_LABEL,
)
_PIECE = _group(
    "Pieces of one part of the shelf.",
    shelf=_TEXT,
    count=_of("integer", "pieces in the build and its batteries"),
    sold_in=_of("integer", "pieces in one purchase"),
    bag={"type": ["number", "null"], "description": "price of one purchase, in the currency"},
)
_AGAIN = _group(
    "What is gone through again after work on it.",
    gates=_of("integer", "gates"),
    powered=_of("integer", "steps under power"),
)
_WORDS = _list("words", _TEXT)
_TURNING = _group(
    "What turning another build into this one rests on.",
    pieces=_list("parts and batteries", _PIECE),
    joins=_list("two contacts, and what joins them", _WORDS),
    wires=_list("two contacts, and the parts that they are on", _WORDS),
    joints=_list("numbers of the wires that a joint heats", _list("wires", _of("integer", "one"))),
    again={"anyOf": [_AGAIN, {"type": "null"}]},
    times=_group(
        "Usual times in s, and by which share they differ.",
        joint=_of("number", "one joint"),
        step=_of("number", "one other step"),
        gate=_of("number", "one gate"),
        powered=_of("number", "one step under power"),
        spread=_of("number", "a share"),
    ),
)


def sheet_schema() -> SheetSchema:
    """Schema of sheet.json."""
    body = _group(
        "One build in SI units, money in whole minor units.",
        build=_of("string", "name of the build, which is its address"),
        title=_TEXT,
        leaves=_by_key("what figures rest on, by key", _LEAF),
        figures=_by_key("computed figures, by key", _FIGURE),
        unknown=_by_key(
            "figures that could not be computed", _group("And why.", label=_LABEL, missing=_MISSING)
        ),
        headline=_by_key(
            "figures that comparisons use, by a name that all builds share", _HEADLINE
        ),
        money=_group(
            "What it costs.",
            currency=_of("string", "ISO 4217"),
            this_build=_MINOR,
            at_the_till=_MINOR,
            packs=_MINOR,
            bought_once=_MINOR,
        ),
        compare=_group(
            "Rows for the page of any two builds.",
            figures=_list("figures", _COMPARED),
            places=_list("places", _PLACE),
            uses=_list("what batteries are for", _USE),
            notes=_list("what a comparison leaves out of this build", _TEXT),
            turning=_TURNING,
            money=_group(
                "Total.",
                minor=_MINOR,
                currency=_TEXT,
                digits=_of("integer", "places behind the point"),
                at_least=_of("boolean", "whether it leaves out a part that has no price"),
            ),
        ),
        parts=_list(
            "what it is made of",
            _group(
                "A part in its place.",
                key=_of("string", "its role in the build"),
                shelf=_of("string", "its name on the shelf"),
                name=_TEXT,
                count=_of("integer", "pieces"),
                spares=_of("integer", "pieces in the box"),
            ),
        ),
    )
    return {"$schema": _DIALECT, "title": "Data of a sheet", **body}
