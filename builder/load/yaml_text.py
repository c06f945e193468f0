"""Changes a YAML text where it stands, so that a person's comments and layout stay."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import yaml
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

TreePath = tuple[Any, ...]


Edit = tuple[int, int, str]  # from this character, up to that one, this instead
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def _compose(text: str) -> Node | None:
    node: Node | None = _LOADER(text).get_single_node()
    return node


def top_blocks(text: str) -> tuple[str, tuple[tuple[str, str], ...]]:
    """What stands before the first key, and each key of the file with its lines and the comment
    right above it.

    Joined they are the text again. For files in the common form, one key a line at the left edge.
    """
    node = _compose(text)
    if not isinstance(node, MappingNode):
        return text, ()
    lines = text.splitlines(keepends=True)
    starts: list[int] = []
    for key, _ in node.value:
        line = key.start_mark.line
        while line > (starts[-1] + 1 if starts else 0) and lines[line - 1].startswith("#"):
            line -= 1
        starts.append(line)
    ends = [*starts[1:], len(lines)]
    keys = [key.value for key, _ in node.value]
    texts = ["".join(lines[a:b]) for a, b in zip(starts, ends, strict=True)]
    found = list(zip(keys, texts, strict=True))
    return "".join(lines[: starts[0]]), tuple(found)


def _removal(text: str, node: MappingNode, gone: list[bool]) -> Iterator[Edit]:
    """Takes pairs out of a mapping, in either of YAML's two styles, with the comma or line that
    held them.
    """
    pairs = node.value
    kept = [i for i, doomed in enumerate(gone) if not doomed]
    end = pairs[-1][1].end_mark.index
    end -= text[end - 1] == "\n"  # a folded text ends where the next line begins
    if not kept:
        yield pairs[0][0].start_mark.index, end, "" if node.flow_style else "{}"
        return
    for i in range(kept[-1]):
        if gone[i]:
            yield pairs[i][0].start_mark.index, pairs[i + 1][0].start_mark.index, ""
    if kept[-1] < len(pairs) - 1:
        yield pairs[kept[-1]][1].end_mark.index, end, ""


@dataclass(frozen=True)
class _Changes:
    """What is to be changed in one text; local to a call."""

    text: str
    gone: Callable[[TreePath], bool]
    new: Callable[[TreePath, str], str]
    key: Callable[[TreePath], str]

    def of(self, node: Node, path: TreePath) -> Iterator[Edit]:
        """Every change in a node and below it."""
        if isinstance(node, ScalarNode):
            changed = self.new(path, node.value)
            if changed != node.value:
                after = (
                    "\n" if node.style in ("|", ">") else ""
                )  # such a text ends where the next line begins
                yield node.start_mark.index, node.end_mark.index, yaml_quoted(changed) + after
        elif isinstance(node, SequenceNode):
            for i, child in enumerate(node.value):
                yield from self.of(child, (*path, i))
        elif isinstance(node, MappingNode):
            doomed = [self.gone((*path, key.value)) for key, _ in node.value]
            if any(doomed):
                yield from _removal(self.text, node, doomed)
            for (key, value), out in zip(node.value, doomed, strict=True):
                if not out:
                    name = self.key((*path, key.value))
                    if name != key.value:
                        yield key.start_mark.index, key.end_mark.index, name
                    yield from self.of(value, (*path, key.value))


def yaml_quoted(text: str) -> str:
    """A text as YAML, in quotes that need no escapes but their own."""
    return "'" + " ".join(text.split()).replace("'", "''") + "'"


def edited(
    text: str,
    gone: Callable[[TreePath], bool] = lambda path: False,
    new: Callable[[TreePath, str], str] = lambda path, old: old,
    key: Callable[[TreePath], str] = lambda path: str(path[-1]),
) -> str:
    """The text without the pairs whose path is `gone`, with each plain value as `new` and each key
    as `key` gives it.
    """
    node = _compose(text)
    if node is None:
        return text
    for start, end, instead in sorted(_Changes(text, gone, new, key).of(node, ()), reverse=True):
        text = text[:start] + instead + text[end:]
    return text
