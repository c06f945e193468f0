"""The documents of the YAML test suite: read as it says they are read, or refused with a message;
as any of our files.

Source: the YAML test suite, https://github.com/yaml/yaml-test-suite, as
tests/data/corpora/README.md says.
"""

import json
from collections import Counter
from typing import Any

import pytest

from builder.diagnostics.finding import Severity
from builder.load.limits import DEFAULT_LIMITS
from builder.load.yaml_nodes import read_yaml
from tests.hostile.corpora import yaml_suite
from tests.hostile.in_memory import said

pytestmark = pytest.mark.slow  # takes long

CASES = yaml_suite()
# Where the library below us (libyaml, for YAML 1.1) reads otherwise than YAML 1.2 says; none of it
# matters to a build.
LAX = "9C9N 9JBA CVW2 DK95/1 G5U8 MUS6/0 QB6E S98Z SU5Z X4QW Y79Y/3 YJV2".split()  # noqa: SIM905 - names, as the suite has them
OTHER = "652Z HM87/1 L24T/1".split()  # noqa: SIM905 - as above
STRICT = (
    49  # valid documents that it refuses: tabs, `? ` keys and flow keys that only YAML 1.2 allows
)


def same(tree: Any, wanted: Any) -> bool:
    """Whether a tree of texts says what JSON says; numbers, booleans and nulls stay text or nothing
    with us.
    """
    if isinstance(wanted, dict):
        return (
            isinstance(tree, dict)
            and set(tree) == set(wanted)
            and all(same(tree[k], wanted[k]) for k in wanted)
        )
    if isinstance(wanted, list):
        return isinstance(tree, list) and len(tree) == len(wanted) and all(map(same, tree, wanted))
    if isinstance(wanted, str):
        return tree == wanted or (wanted == "" and tree is None)
    return tree is None or isinstance(tree, str)


def test_documents_are_read_as_the_suite_says_or_refused() -> None:
    count: Counter[str] = Counter()
    lax, other = [], []
    for case in CASES:
        document, found = read_yaml("x.yaml", case.yaml, "", DEFAULT_LIMITS)
        codes = {f.code for f in found}
        if case.fails:
            count["invalid"] += 1
            lax += [] if found else [case.id]
        elif codes == {"data/syntax"}:
            count["valid, refused"] += 1
        elif (
            not found and case.json is not None and case.json.strip() and "\n}\n{" not in case.json
        ):
            count["read"] += 1
            try:
                wanted = json.loads(case.json)
            except json.JSONDecodeError:
                continue  # several documents in one
            other += [] if same(document.tree, wanted) else [case.id]
        elif found:
            count["features"] += 1
            assert codes <= {"data/yaml-feature", "data/unreadable", "data/twice", "data/syntax"}, (
                case.id,
                codes,
            )
    assert (
        len(CASES) == 402
        and count["read"] > 160
        and count["features"] > 70
        and count["invalid"] == 94
    )
    assert lax == LAX and other == OTHER and count["valid, refused"] == STRICT


FRAME = "frame-a: {kind: frame, name: A frame, mass: 60 g}\n"
GOOD = {
    "site.yaml": "title: T\n",
    "shelf/parts.yaml": FRAME,
    "good/build.yaml": "title: G\nparts: {frame: frame-a}\n",
}


@pytest.mark.parametrize("file", ["odd/build.yaml", "shelf/odd.yaml", "site.yaml"])
def test_each_document_as_a_source_file_is_a_message_and_no_more(file: str) -> None:
    for case in CASES:
        model = said({**GOOD, file: case.yaml})
        assert all(f.severity == Severity.MISTAKE for f in model.findings)
        assert "good" in model.builds, case.id
        assert (file == "odd/build.yaml") <= ("odd" not in model.builds), case.id


@pytest.mark.parametrize("at", ["  ", "    "])
def test_each_document_inside_a_build(at: str) -> None:
    """Indented below a key, as somebody pastes it."""
    for case in CASES:
        text = "\n".join(at + line for line in case.yaml.split("\n"))
        model = said(
            {**GOOD, "odd/build.yaml": f"title: O\nparts: {{frame: frame-a}}\nsetup:\n{text}\n"}
        )
        assert "good" in model.builds, case.id
