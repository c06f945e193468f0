"""JSON Schema (draft 2020-12) of what a person writes, so that an editor completes and explains
every key.

The schema is a little wider than the reader: it cannot see references, limits of sense, or pads
that do not exist. A variant (`based_on`) may leave out what its base says, take a part out with
`none`, and edit a list by its items.
"""

from collections.abc import Iterator
from typing import Any

from builder.model.kinds import KINDS
from builder.model.read.shared_lines import AS_PRINTED, NUMBERS_IN_PRINTS
from builder.model.site import Site
from builder.model.source.build_source import BuildSource
from builder.model.source.describe import (
    Choice,
    Either,
    Group,
    Key,
    ListOf,
    MapOf,
    OneText,
    Value,
    group,
)
from builder.model.source.electrical import Pad
from builder.model.trees.variants import EDITED_BY_ITEM

SourceSchema = dict[str, Any]
_DIALECT = "https://json-schema.org/draft/2020-12/schema"
# A plain scalar of YAML may arrive in an editor as a number or a truth value; the reader takes it
# as text.
_KINDS = {
    "a whole number": ["string", "integer"],
    "a number without a unit": ["string", "number"],
    "yes or no": ["string", "boolean"],
    "text": ["string", "number", "boolean"],
}


def _text(value: OneText) -> SourceSchema:
    out: SourceSchema = {"type": _KINDS.get(value.what, "string")}
    if value.pattern:
        out["pattern"] = rf"^\s*(?:{value.pattern})\s*$"
    if value.example:
        out["examples"] = [value.example]
    return out


class _Defs:
    """The groups of one schema by name, each written once. Local to a call."""

    def __init__(self, variant: bool) -> None:
        self.variant = variant
        self.found: dict[str, SourceSchema] = {}

    def ref(self, value: Group) -> SourceSchema:
        name = value.name + ("InVariant" if self.variant else "")
        if name not in self.found:
            self.found[name] = {}  # before its keys, which may name it again
            self.found[name] = self.group(value)
        return {"$ref": f"#/$defs/{name}"}

    def group(self, value: Group) -> SourceSchema:
        of_key = self.pad_key if value.name == Pad.__name__ else self.key
        out: SourceSchema = {
            "type": "object",
            "description": value.about,
            "properties": {k.name: of_key(k) for k in value.keys},
            "additionalProperties": False,
        }
        required = [k.name for k in value.keys if k.required]
        if required and not self.variant:
            out["required"] = required
        return out

    def key(self, key: Key) -> SourceSchema:
        return {**self.value(key.value), "description": _words(key)}

    def pad_key(self, key: Key) -> SourceSchema:
        """Where contacts share a line, a number of each may be the one in its print."""
        if key.name not in NUMBERS_IN_PRINTS:
            return self.key(key)
        either = [self.value(key.value), {"const": AS_PRINTED}]
        return {"anyOf": either, "description": _words(key)}

    def value(self, value: Value) -> SourceSchema:
        if isinstance(value, OneText):
            return _text(value)
        if isinstance(value, Choice):
            return {"enum": list(value.words)}
        if isinstance(value, ListOf):
            item = self.value(value.item)
            many: SourceSchema = {"type": "array", "items": item}
            return {"anyOf": [item, many]} if value.or_one else many
        if isinstance(value, MapOf):
            return {"type": "object", "additionalProperties": self.value(value.item)}
        if isinstance(value, Either):
            return {"anyOf": [self.value(v) for v in value.values]}
        others = [self.value(value.short)] if value.short is not None else []
        if self.variant:
            others.append({"const": "none"})
        return {"anyOf": [self.ref(value), *others]} if others else self.ref(value)


def _bounds(value: Value) -> Iterator[tuple[str, str]]:
    """What is taken of the texts of a value that stand in no group of their own, and why."""
    if isinstance(value, OneText) and value.bounds:
        yield value.bounds, value.why
    elif isinstance(value, ListOf | MapOf):
        yield from _bounds(value.item)
    elif isinstance(value, Either):
        for each in value.values:
            yield from _bounds(each)


def _words(key: Key) -> str:
    """The key's words, what may stand there, and an example."""
    value = key.value
    words = key.words[:1].upper() + key.words[1:] + "."
    if isinstance(value, OneText) and value.example:
        words += f" Written as {value.what}, like '{value.example}'."
    for bounds, why in dict.fromkeys(_bounds(value)):
        words += f" Taken is {bounds}: {why}."
    return words + (" Required." if key.required else "")


def _schema(title: str, description: str, body: SourceSchema, *defs: _Defs) -> SourceSchema:
    found = {name: d for each in defs for name, d in sorted(each.found.items())}
    return {"$schema": _DIALECT, "title": title, "description": description, **body, "$defs": found}


def _edited(defs: _Defs) -> SourceSchema:
    """A whole build in a variant: lists may be edited by their items."""
    whole = defs.group(group(BuildSource))
    for name in EDITED_BY_ITEM:
        words = whole["properties"][name].pop("description")
        items = whole["properties"][name]
        edit = {
            "remove": {
                "type": "array",
                "description": "Items of the base that fall away, by what names them.",
            },
            "add": {**items, "description": "Items that come on top."},
        }
        either = [items, {"type": "object", "properties": edit, "additionalProperties": False}]
        whole["properties"][name] = {
            "anyOf": either,
            "description": f"{words} In a variant, or {{remove, add}}.",
        }
    return whole


def build_schema() -> SourceSchema:
    """Schema of build.yaml."""
    plain, variant = _Defs(variant=False), _Defs(variant=True)
    whole, varied = plain.group(group(BuildSource)), _edited(variant)
    body = {
        "if": {"type": "object", "required": ["based_on"]},
        "then": {"$ref": "#/$defs/Variant"},
        "else": {"$ref": "#/$defs/Build"},
    }
    plain.found["Build"], variant.found["Variant"] = whole, varied
    return _schema(
        "A build", "build.yaml: one aircraft, built from parts of the shelf.", body, plain, variant
    )


def shelf_schema() -> SourceSchema:
    """Schema of a shelf file: parts by name, each of a kind."""
    defs = _Defs(variant=False)
    cases = []
    for kind, cls in KINDS.items():
        defs.found[cls.__name__] = defs.group(group(cls))
        defs.found[cls.__name__]["properties"]["kind"]["const"] = kind
        matches = {"properties": {"kind": {"const": kind}}, "required": ["kind"]}
        cases.append({"if": matches, "then": {"$ref": f"#/$defs/{cls.__name__}"}})
    kinds = {
        "enum": list(KINDS),
        "description": "The kind of part, which decides what else it may say. Required.",
    }
    part = {
        "type": "object",
        "required": ["kind", "name"],
        "properties": {"kind": kinds},
        "allOf": cases,
    }
    body = {"type": "object", "additionalProperties": part}
    return _schema("A shelf file", "Parts by name, each described once.", body, defs)


def site_schema() -> SourceSchema:
    """Schema of site.yaml."""
    defs = _Defs(variant=False)
    return _schema(
        "Site settings", "site.yaml: who publishes, and what holds.", defs.group(group(Site)), defs
    )
