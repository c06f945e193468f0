"""The corpora of tests/data/corpora, read."""

import json
from pathlib import Path
from typing import NamedTuple

FOLDER = Path(__file__).resolve().parent.parent / "data" / "corpora"


class YamlCase(NamedTuple):
    """A document of the YAML test suite: whether it is invalid YAML, and what it means as JSON
    where that can be said.
    """

    id: str
    yaml: str
    fails: bool
    json: str | None


def yaml_suite() -> tuple[YamlCase, ...]:
    """All documents of the YAML test suite."""
    cases = json.loads((FOLDER / "yaml_test_suite.json").read_text("utf-8"))
    return tuple(YamlCase(c["id"], c["yaml"], c["fails"], c["json"]) for c in cases)


def naughty_strings() -> tuple[str, ...]:
    """The list of naughty strings."""
    return tuple(json.loads((FOLDER / "naughty_strings.json").read_text("utf-8")))


def injections(canary: Path) -> dict[str, tuple[str, ...]]:
    """Injection payloads by class."""
    found: dict[str, list[str]] = {}
    name = ""
    for line in (FOLDER / "injections.txt").read_text("utf-8").splitlines():
        if line.startswith("[") and line.endswith("]") and line[1:-1].replace("_", "").isalpha():
            name = line[1:-1]
        elif name:
            text = line.replace("\\n", "\n").replace("\\t", "\t").replace("CANARY", str(canary))
            found.setdefault(name, []).append(text)
    return {name: tuple(lines) for name, lines in found.items()}
