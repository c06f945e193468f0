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


class NotEdited(Exception):
    """An edited text that does not say what was meant: it is not to be written anywhere."""


def appended(text: str, key: str, items: tuple[str, ...]) -> str:
    """A file with these items, each in one line of YAML, behind the others of a list at the left
    edge; the list is made at the end of the file where there is none.

    All else stays to the byte. NotEdited where the file is not in the common form, or where what is
    read afterwards is not the old and the new.
    """
    before = yaml.load(text, yaml.BaseLoader)
    whole = text if not text or text.endswith("\n") else text + "\n"
    lines = "".join(f"  - {item}\n" for item in items)
    node = _list_at(whole, key)
    if node is None:
        new = f"{whole}{key}:\n{lines}"
    elif not node.value:
        new = f"{whole[: node.start_mark.index].rstrip(' ')}\n{lines}"
        new += whole[node.end_mark.index :].lstrip(" ").removeprefix("\n")
    else:
        end = _end_of(whole, node.value[-1])
        indent = " " * node.start_mark.column
        set_in = "".join(f"{indent}- {item}\n" for item in items)
        new = whole[:end] + set_in + whole[end:]
    wanted = dict(before or {})
    wanted[key] = [*(wanted.get(key) or []), *map(_read, items)]
    _must_say(new, wanted)
    return new


def with_entries(text: str, block: str) -> str:
    """A file with further entries at its end, below a blank line; `block` is their text.

    All else stays to the byte. NotEdited where an entry of that name is there, or where what is
    read afterwards is not the old and the new.
    """
    before = yaml.load(text, yaml.BaseLoader) or {}
    new = yaml.load(block, yaml.BaseLoader)
    if not isinstance(before, dict) or not isinstance(new, dict) or before.keys() & new.keys():
        raise NotEdited("An entry of that name is there, or the file holds none.")
    gap = "\n" if text.strip() else ""
    whole = f"{text.rstrip()}\n{gap}{block}" if text.strip() else block
    _must_say(whole, {**before, **new})
    return whole


def appended_in(text: str, entry: str, key: str, item: str) -> str:
    """A file with one more item, in one line of YAML, in a list of one of its entries; the list is
    made as the entry's last key where there is none.

    All else stays to the byte. NotEdited where the entry is not one key a line, or where what is
    read afterwards is not the old and the new.
    """
    before = yaml.load(text, yaml.BaseLoader)
    whole = text if text.endswith("\n") else text + "\n"
    node = _compose(whole)
    pairs = node.value if isinstance(node, MappingNode) else []
    group = next((value for name, value in pairs if name.value == entry), None)
    if not isinstance(group, MappingNode) or group.flow_style or not group.value:
        raise NotEdited(f"{entry!r} is not one key a line.")
    listed = next((value for name, value in group.value if name.value == key), None)
    margin = " " * group.value[0][0].start_mark.column
    if listed is None:
        end, lines = _end_of(whole, group.value[-1][1]), f"{margin}{key}:\n{margin}  - {item}\n"
    elif isinstance(listed, SequenceNode) and listed.value and not listed.flow_style:
        end = _end_of(whole, listed.value[-1])
        lines = f"{' ' * listed.start_mark.column}- {item}\n"
    else:
        raise NotEdited(f"{key!r} is no list of one entry a line.")
    new = whole[:end] + lines + whole[end:]
    held = before[entry]
    _must_say(new, {**before, entry: {**held, key: [*held.get(key, []), _read(item)]}})
    return new


def _read(text: str) -> Any:
    try:
        return yaml.load(text, yaml.BaseLoader)
    except yaml.YAMLError as error:
        raise NotEdited("The new text would not be YAML.") from error


def _must_say(text: str, wanted: Any) -> None:
    """NotEdited unless this is what the text is read as, and nothing else."""
    if _read(text) != wanted:
        raise NotEdited("The new text would not say what was meant.")


def _list_at(text: str, key: str) -> SequenceNode | None:
    """The list under a key of the file. NotEdited for what is no list of the common form."""
    node = _compose(text)
    if node is None:
        return None
    if not isinstance(node, MappingNode) or node.flow_style:
        raise NotEdited("This file is not one key a line at the left edge.")
    for name, value in node.value:
        if name.value != key:
            continue
        if not isinstance(value, SequenceNode) or (value.flow_style and value.value):
            raise NotEdited(f"{key!r} is no list of one entry a line.")
        return value
    return None


def _end_of(text: str, last: Node) -> int:
    """Where the line of a list's last entry ends, with the comment behind it."""
    end = last.end_mark.index
    if end and text[end - 1] == "\n":  # a mapping in block style ends where the next line begins
        return _without_blank_lines(text, end)
    return text.find("\n", end) + 1 or len(text)


def _without_blank_lines(text: str, end: int) -> int:
    """The end of the last line before `end` that holds more than blanks or a comment at the edge."""
    lines = text[:end].splitlines(keepends=True)
    while lines and (not lines[-1].strip() or lines[-1].startswith("#")):
        end -= len(lines.pop())
    return end


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
    changed = text
    for start, end, instead in sorted(_Changes(text, gone, new, key).of(node, ()), reverse=True):
        changed = changed[:start] + instead + changed[end:]
    if changed != text and _LOADER(changed).get_single_node() is None:
        raise NotEdited("The new text would say nothing.")
    return changed
