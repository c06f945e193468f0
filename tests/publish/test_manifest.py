"""The manifest: what is written is read back, a record is not written out anew, and a strange file
counts for nothing.
"""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.publish.kept.manifest import (
    MANIFEST,
    JobRecord,
    Manifest,
    Output,
    as_bytes,
    manifest_bytes,
    read_manifest,
)

MADE = Manifest(
    {
        'build:a"b': JobRecord(
            "d1", {"a/index.html": Output("s1", 3)}, {"summary": {"title": "A\nB, {x},"}}
        ),
        "build:ü": JobRecord(
            "d2", {"ü/index.html": Output("s2", 4), "ü/work": Output("s3", 0)}, {}, kept=True
        ),
        "tables": JobRecord("d3", {}, {"findings": [["x/y", "remark", "Text"]]}),
    }
)


def _written(site: Path, content: bytes) -> Manifest | None:
    (site / MANIFEST).write_bytes(content)
    return read_manifest(manifest_bytes(site))


def test_what_is_written_is_read_back(tmp_path: Path) -> None:
    read = _written(tmp_path, as_bytes(MADE))
    assert read is not None and read == MADE and as_bytes(read) == as_bytes(MADE)
    assert sorted(json.loads(as_bytes(MADE))["jobs"]) == sorted(MADE.jobs), (
        "it is plain JSON, on any number of lines"
    )


def test_nothing_comes_back_as_nothing(tmp_path: Path) -> None:
    assert (
        _written(tmp_path, as_bytes(Manifest()))
        == Manifest()
        == read_manifest(manifest_bytes(tmp_path / "nowhere"))
    )


@pytest.mark.parametrize(
    "change",
    [
        pytest.param(lambda text: text.replace(",\n", ","), id="other lines"),
        pytest.param(lambda text: text.replace('"tables":', '"tables" :'), id="another hand"),
        pytest.param(
            lambda text: json.dumps(json.loads(text) | {"version": 1}, indent=1),
            id="an older version",
        ),
    ],
)
def test_what_is_ours_is_known_however_it_was_written(
    tmp_path: Path, change: Callable[[str], str]
) -> None:
    text = as_bytes(MADE).decode()
    read = _written(tmp_path, change(text).encode())
    assert (
        change(text) != text
        and read is not None
        and read == MADE
        and as_bytes(read) == as_bytes(MADE)
    )


@pytest.mark.parametrize(
    "change",
    [
        pytest.param(
            lambda text: text.replace('"a/index', '"../index'), id="an address that leads out"
        ),
        pytest.param(
            lambda text: text.replace('"a/index', '"/index'), id="an address from the top"
        ),
        pytest.param(lambda text: text[:-3], id="cut"),
        pytest.param(lambda text: "[]", id="a list"),
        pytest.param(lambda text: "", id="nothing"),
        pytest.param(lambda text: "[" * 100_000, id="100,000 lists"),
        pytest.param(lambda text: '{"version":2,"jobs":' + '{"a":' * 100_000, id="100,000 objects"),
        pytest.param(lambda text: "9" * 10_000, id="a number that Python reads not"),
        pytest.param(lambda text: text.replace(",3]", ",true]"), id="a truth in place of a number"),
        pytest.param(lambda text: text.replace(",3]", ",NaN]"), id="no number"),
        pytest.param(lambda text: text.replace(",3]", ",3,3]"), id="one more value"),
        pytest.param(
            lambda text: text.replace('"kept":false', '"kept":"no"'), id="text in place of a truth"
        ),
        pytest.param(lambda text: text.replace('"d1"', "{}"), id="a digest that is no text"),
        pytest.param(lambda text: text + " " * 20_000_000, id="larger than any"),
        pytest.param(
            lambda text: text.replace('"outputs":{}', '"outputs":[1]'), id="another shape"
        ),
    ],
)
def test_a_strange_file_counts_for_nothing(tmp_path: Path, change: Callable[[str], str]) -> None:
    text = as_bytes(MADE).decode()
    assert change(text) != text
    assert _written(tmp_path, change(text).encode()) is None
