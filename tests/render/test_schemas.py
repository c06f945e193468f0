"""The JSON Schemas (draft 2020-12, json-schema.org) take what the reader takes and refuse what a
schema can see.
"""

import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from builder.pages.blocks import Section, Table
from builder.pages.site.field_page import field_page
from builder.pages.site.figures_data import figures_data
from builder.pipeline import Checked
from builder.render.data.schemas import SCHEMAS, schema_files

pytestmark = pytest.mark.slow  # takes long

ROOT = Path(__file__).resolve().parents[2]
BROKEN = ROOT / "tests" / "broken"
SOURCES = sorted((ROOT / "builds").glob("**/*.yaml"))

# What no schema can see, by the code of the mistake: only the reader knows.
UNSEEN = {
    "data/not-on-shelf": "refers to another file",
    "data/no-such-build": "refers to another file",
    "data/circle-of-bases": "refers to other files",
    "data/no-such-pack": "refers to another place",
    "data/no-such-part": "refers to another place",
    "data/no-such-contact": "refers to another file",
    "data/no-such-socket": "refers to another file",
    "data/wrong-kind": "refers to another file",
    "data/nothing-to-remove": "refers to another file",
    "data/bad-name": "the name of a folder, or of a role",
    "data/broken-part": "refers to another file",
    "data/two-readings": "which of two readings is meant is no matter of form",
    "data/picture": "refers to another file",
    "data/too-large": "a limit that site.yaml may move",
    "data/absurd": "the bounds of a field, whatever the unit",
    "data/contradiction": "two values that each are possible alone",
    "data/twice": "lost when the YAML is read",
    "data/yaml-feature": "lost when the YAML is read",
    "data/syntax": "not YAML",
    "data/unreadable": "not YAML",
    "data/not-text": "a control character",
    "data/not-a-date": "a day that the calendar lacks",
    "data/not-cells": "a span that runs backwards",
    "data/not-a-quantity": "a span that runs backwards",
    "data/not-a-price": "finer than the currency's smallest unit",
}


@cache
def validator(name: str) -> Draft202012Validator:
    return Draft202012Validator(SCHEMAS[name]())


def which(path: Path) -> str:
    return (
        "site" if path.name == "site.yaml" else "shelf" if path.parent.name == "shelf" else "build"
    )


class _Core(yaml.SafeLoader):
    """Scalars as an editor sees them: the core schema of YAML 1.2.2, chapter 10.3.2."""


_Core.yaml_implicit_resolvers = {}
_Core.add_implicit_resolver(
    "tag:yaml.org,2002:bool", re.compile("true|True|TRUE|false|False|FALSE"), list("tTfF")
)
_Core.add_implicit_resolver(
    "tag:yaml.org,2002:int", re.compile(r"[-+]?[0-9]+$"), list("-+0123456789")
)
_Core.add_implicit_resolver(
    "tag:yaml.org,2002:float", re.compile(r"[-+]?[0-9]+\.[0-9]*$"), list("-+0123456789")
)


@pytest.mark.parametrize("name", SCHEMAS)
def test_each_is_a_schema(name: str) -> None:
    Draft202012Validator.check_schema(SCHEMAS[name]())


@pytest.mark.parametrize("loader", [yaml.BaseLoader, _Core], ids=["all text", "core schema"])
@pytest.mark.parametrize("path", SOURCES, ids=lambda p: str(p.relative_to(ROOT / "builds")))
def test_the_demo_files_are_taken(path: Path, loader: Any) -> None:
    tree = yaml.load(path.read_text("utf-8"), loader)
    found = [
        f"{list(e.absolute_path)}: {e.message[:120]}"
        for e in validator(which(path)).iter_errors(tree)
    ]
    assert found == []


def _refused(folder: Path) -> bool:
    for path in folder.glob("builds/**/*.yaml"):
        try:
            tree = yaml.load(path.read_bytes(), yaml.BaseLoader)
        except (yaml.YAMLError, UnicodeDecodeError, ValueError):
            return True
        if next(iter(validator(which(path)).iter_errors(tree)), None) is not None:
            return True
    return False


@pytest.mark.parametrize("name", sorted(p.name for p in BROKEN.iterdir() if p.is_dir()))
def test_broken_files_are_refused_or_beyond_a_schema(name: str) -> None:
    expected = (BROKEN / name / "expected.txt").read_text("utf-8")
    codes = re.findall(r"\[(data/[a-z0-9-]+)\]", expected)
    assert codes
    assert _refused(BROKEN / name) or all(c in UNSEEN for c in codes), (
        f"the schema could see {codes}"
    )


def _only_compares(folder: Path) -> bool:
    codes = set(re.findall(r"\[(data/[a-z0-9-]+)\]", (folder / "expected.txt").read_text("utf-8")))
    return codes <= {"data/absurd", "data/contradiction", "data/broken-part"}


def test_most_broken_files_are_refused() -> None:
    """Of those with another mistake than a number that cannot be: a pattern of text does not
    compare numbers.
    """
    folders = [p for p in BROKEN.iterdir() if p.is_dir() and not _only_compares(p)]
    refused = [p.name for p in folders if _refused(p)]
    assert len(refused) >= len(folders) / 2, f"{len(refused)} of {len(folders)}"


def _described(schema: Any, path: str = "") -> Iterator[tuple[str, str]]:
    if isinstance(schema, dict):
        for name, inside in schema.get("properties", {}).items():
            if isinstance(inside, dict) and not path.endswith("/if"):
                yield f"{path}/{name}", inside.get("description", "")
        for key, inside in schema.items():
            yield from _described(inside, f"{path}/{key}")
    elif isinstance(schema, list):
        for i, inside in enumerate(schema):
            yield from _described(inside, f"{path}/{i}")


@pytest.mark.parametrize("name", ["build", "shelf", "site"])
def test_an_editor_can_explain_every_key(name: str) -> None:
    found = dict(_described(SCHEMAS[name]()))
    assert len(found) > 40
    assert [path for path, words in found.items() if not words and "/then/" not in path] == []


def test_sheets_keep_to_their_schema(demo: Checked) -> None:
    for name, sheet in demo.sheets.items():
        data = figures_data(sheet, sheet.figures)
        plain = json.loads(json.dumps(data))
        found = [
            f"{list(e.absolute_path)}: {e.message[:120]}"
            for e in validator("sheet").iter_errors(plain)
        ]
        assert found == [], name
        plain["figures"][next(iter(plain["figures"]))]["value"] = "much"
        assert not validator("sheet").is_valid(plain), "it refuses what is wrong"


def test_the_site_carries_them() -> None:
    files = schema_files()
    assert set(files) == {f"schema/{n}.json" for n in ("build", "shelf", "site", "sheet")}
    assert all(
        json.loads(content)["$schema"].startswith("https://json-schema.org/")
        for content in files.values()
    )


def test_the_field_page_has_a_row_for_every_key_of_the_schemas() -> None:
    def rows(section: Section) -> Iterator[str]:
        for block in section.blocks:
            if isinstance(block, Section):
                yield from rows(block)
            elif isinstance(block, Table):
                yield from (row.anchor for row in block.rows)

    found = (a for s in field_page().sections for a in rows(s))
    anchors = [a for a in found if a.startswith("field-")]  # not those of pages and old forms
    assert len(anchors) == len(set(anchors))
    for wanted in (
        "field-motor-kv",
        "field-pad-role",
        "field-build-source-wires",
        "field-site-bands",
    ):
        assert wanted in anchors
