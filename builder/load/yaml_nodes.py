"""YAML text to plain nodes: dicts, lists, text and None, with the place of every value.

Composed by PyYAML and built here, so that no scalar is resolved: `on`, `12:30`, `010` and
`2026-10-04` stay text and the field decides. Anchors, aliases, tags and merge keys are mistakes,
not features.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import islice
from typing import Any

import yaml
from yaml.nodes import Node

from builder.diagnostics.finding import Finding, Stopped, mistake
from builder.diagnostics.where import KeyPath, SourcePlace, Where
from builder.load.limits import Limits
from builder.load.yaml_walk import FEATURE_HINT, SPLIT_HINT, Spot, Tree, YamlWalk


class _Composer(getattr(yaml, "CSafeLoader", yaml.SafeLoader)):  # type: ignore[misc]  # which of the two is seen at run time
    """Composes nodes; every scalar is text, so that nothing is looked up for it."""

    def resolve(self, kind: type[Node], value: Any, implicit: Any) -> str:
        """The tag of a node that has none."""
        return "tag:yaml.org,2002:str"


@dataclass(frozen=True)
class Document:
    """One source file, read: its tree, the place of every value, its lines and the digest of its
    bytes.
    """

    file: str
    tree: Tree
    places: dict[KeyPath, Spot]
    text: str
    digest: str

    @cached_property
    def lines(self) -> list[str]:
        """The text line by line: split once, for a file may hold thousands of mistakes."""
        return self.text.split("\n")

    def locate(self, where: Where) -> SourcePlace | None:
        """The place of a value, or of the nearest one above it that is written down."""
        for length in range(len(where.path), -1, -1):
            spot = self.places.get(where.path[:length])
            if spot is not None:
                name = where.path[-1] if where.path else None
                if length < len(where.path):
                    return self._place(spot, name, key=False, offset=0)
                return self._place(spot, name, key=where.key, offset=where.offset)
        return SourcePlace(self.file, 1, 1, self.text.split("\n", 1)[0].rstrip("\r"))

    def _place(self, spot: Spot, name: object, *, key: bool, offset: int) -> SourcePlace:
        line, column = (spot[2], spot[3]) if key else (spot[0], spot[1] + offset)
        text = self.lines[line - 1].rstrip("\r") if line <= len(self.lines) else ""
        width = 1 if offset else spot[4]
        if key and name is not None:
            width = len(str(name))
        return SourcePlace(self.file, line, column, text, width)


_MOST_FEATURES = 20  # said of one file; who has so many wrote for another program
_DEEPER = {
    yaml.MappingStartEvent: 1,
    yaml.SequenceStartEvent: 1,
    yaml.MappingEndEvent: -1,
    yaml.SequenceEndEvent: -1,
}


def _features(text: str, walk: YamlWalk) -> Iterator[Finding]:
    """Anchors, aliases and tags, found in the event stream before anything is composed."""
    events: Iterator[Any] = yaml.parse(text, Loader=_Composer)  # PyYAML types no anchor and no tag
    depth = 0
    for count, event in enumerate(events):
        depth += _DEEPER.get(type(event), 0)
        if depth > walk.limits.depth + 1:  # composing it would go that deep as well
            mark = event.start_mark
            walk.places[()] = (mark.line + 1, mark.column + 1, mark.line + 1, mark.column + 1, 1)
            raise Stopped(
                [
                    mistake(
                        "data/too-large",
                        "This file is nested too deep.",
                        SPLIT_HINT,
                        walk.where(()),
                    )
                ]
            )
        if count > 3 * walk.limits.values:
            walk.places[()] = (1, 1, 1, 1, 1)
            raise Stopped(
                [
                    mistake(
                        "data/too-large",
                        "This file holds too many values.",
                        SPLIT_HINT,
                        walk.where(()),
                    )
                ]
            )
        name = type(event).__name__
        mark = event.start_mark
        if name == "DocumentStartEvent" and walk.places.get(("\0document",)):
            what = "a second document (---)"
        elif name == "DocumentStartEvent":
            walk.places[("\0document",)] = (1, 1, 1, 1, 1)
            continue
        elif name == "AliasEvent":
            what = f"an alias (*{event.anchor})"
        elif getattr(event, "anchor", None):
            what = f"an anchor (&{event.anchor})"
        elif getattr(event, "tag", None):
            what = f"a tag ({str(event.tag).replace('tag:yaml.org,2002:', '!!')})"
        else:
            continue
        at = ("\0feature", count)
        walk.places[at] = (mark.line + 1, mark.column + 1, mark.line + 1, mark.column + 1, 1)
        yield mistake(
            "data/yaml-feature",
            f"This file uses {what}, which build files do without.",
            FEATURE_HINT,
            walk.where(at),
        )


def _syntax_mistake(error: yaml.YAMLError, text: str, walk: YamlWalk) -> Finding:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    line, column = (mark.line + 1, mark.column + 1) if mark is not None else (1, 1)
    hint = "Check indentation, a missing colon or quote; text that holds ': ' or ' #' wants quotes."
    if isinstance(
        error, yaml.reader.ReaderError
    ):  # a character that no YAML file holds; it has no mark
        before = text.encode()[: error.position].decode("utf-8", "ignore")
        line, column, hint = (
            before.count("\n") + 1,
            len(before) - before.rfind("\n"),
            "Take the character out.",
        )
    elif mark is not None and "\t" in "".join(text.split("\n")[mark.line : line])[:column]:
        hint = "There is a tab before it: indent with spaces."
    walk.places[("\0syntax",)] = (line, column, line, column, 1)
    problem = (
        getattr(error, "problem", None) or getattr(error, "reason", None) or "it cannot be read"
    )
    if "nesting depth" in problem:  # the library's own bound, met before ours
        return mistake(
            "data/too-large",
            "This file is nested too deep.",
            SPLIT_HINT,
            walk.where(("\0syntax",)),
        )
    return mistake("data/syntax", f"This is not YAML: {problem}.", hint, walk.where(("\0syntax",)))


def read_yaml(
    file: str, text: str, digest: str, limits: Limits, *, looked_at: bool = False
) -> tuple[Document, tuple[Finding, ...]]:
    """One file's text as a document and what is wrong with it. With a mistake the tree may be
    partial or None.

    The features of one that was `looked_at` before, under the same limits, are not looked for
    again.
    """
    walk = YamlWalk(file, limits)
    tree: Tree = None
    try:
        for finding in islice(_features(text, walk), 0 if looked_at else _MOST_FEATURES):
            walk.found.add(finding)
        if not walk.found.findings:
            node = _Composer(text).get_single_node()
            tree = walk.walk(node, (), None) if node is not None else None
    except yaml.YAMLError as error:
        walk.found.add(_syntax_mistake(error, text, walk))
    except Stopped as stop:
        walk.found.add(*stop.findings)
    except RecursionError:
        walk.places[()] = (1, 1, 1, 1, 1)
        walk.found.add(
            mistake("data/too-large", "This file is nested too deep.", SPLIT_HINT, walk.where(()))
        )
    return Document(file, tree, walk.places, text, digest), walk.found.take()
