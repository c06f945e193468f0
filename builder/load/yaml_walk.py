"""Composed YAML nodes walked to plain trees, with the place of every value."""

from dataclasses import dataclass, field

from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from builder.diagnostics.finding import Collector, Stopped, mistake
from builder.diagnostics.where import KeyPath, Where
from builder.load.characters import unfit
from builder.load.limits import Limits

Tree = dict[str, "Tree"] | list["Tree"] | str | None
Spot = tuple[int, int, int, int, int]  # line, column, key line, key column, width; from 1


@dataclass
class YamlWalk:
    """One walk over composed nodes; local to a call."""

    file: str
    limits: Limits
    places: dict[KeyPath, Spot] = field(default_factory=dict)
    found: Collector = field(default_factory=Collector)
    values: int = 0

    def where(self, path: KeyPath, *, key: bool = False) -> Where:
        """The place of a value, or of its key."""
        return Where(self.file, path, key)

    def walk(self, node: Node, path: KeyPath, key_node: Node | None) -> Tree:
        """The tree below a node; its place is kept. Stopped beyond the limits."""
        self.values += 1
        if self.values > self.limits.values or len(path) > self.limits.depth:
            what = (
                f"over {self.limits.values} values"
                if len(path) <= self.limits.depth
                else "nested too deep"
            )
            raise Stopped(
                [mistake("data/too-large", f"This file is {what}.", SPLIT_HINT, self.where(path))]
            )
        mark = node.start_mark
        key_mark = key_node.start_mark if key_node is not None else mark
        width = node.end_mark.column - mark.column if node.end_mark.line == mark.line else 1
        at, of_key = ((m.line + 1, m.column + 1) for m in (mark, key_mark))
        self.places[path] = (*at, *of_key, max(1, width))
        if isinstance(node, ScalarNode):
            return self.scalar(node, path)
        if isinstance(node, SequenceNode):
            return [self.walk(child, (*path, i), None) for i, child in enumerate(node.value)]
        if isinstance(node, MappingNode):
            return self.mapping(node, path)
        raise TypeError(f"PyYAML gave a node of an unknown kind: {type(node).__name__}")

    def scalar(self, node: ScalarNode, path: KeyPath) -> Tree:
        """A text; None for nothing and for one that is too long, which is said."""
        text: str = node.value
        if len(text) > self.limits.text:
            problem = f"A text of {len(text)} characters; at most {self.limits.text} are taken."
            self.found.add(mistake("data/too-large", problem, "Shorten it.", self.where(path)))
            return None
        return None if node.style is None and text in ("", "~") else text

    def mapping(self, node: MappingNode, path: KeyPath) -> Tree:
        """A mapping; keys that are no plain words, or stand twice, are said and left out."""
        out: dict[str, Tree] = {}
        for key_node, value_node in node.value:
            if not isinstance(key_node, ScalarNode):
                self.places[(*path, "?")] = _spot_of(key_node)
                at = self.where((*path, "?"))
                self.found.add(
                    mistake("data/unreadable", "A key that is not plain text.", "Write a word.", at)
                )
                continue
            key: str = key_node.value
            odd = unfit(key) or ((0, f"{len(key)} characters") if len(key) > _LONGEST_KEY else None)
            if odd is not None:
                self.places[(*path, "?")] = _spot_of(key_node)
                at = self.where((*path, "?"))
                self.found.add(
                    mistake("data/not-text", f"This key holds {odd[1]}.", "Write a word.", at)
                )
                continue
            at = self.where((*path, key), key=True)
            if key in out:
                first = self.places[(*path, key)]
                self.places[(*path, key, "again")] = _spot_of(key_node)
                again = self.where((*path, key, "again"))
                problem = f"{key!r} stands twice; the first is on line {first[2]}."
                self.found.add(mistake("data/twice", problem, "Keep one of the two.", again))
                continue
            if key == "<<":
                self.places[(*path, key)] = _spot_of(key_node)
                self.found.add(mistake("data/yaml-feature", "A merge key (<<).", FEATURE_HINT, at))
                continue
            out[key] = self.walk(value_node, (*path, key), key_node)
        return out


_LONGEST_KEY = 200
SPLIT_HINT = "Split it, or see whether something was pasted in by accident."
FEATURE_HINT = "Write the values out; a variant (based_on) holds only what differs."


def _spot_of(node: Node) -> Spot:
    mark = node.start_mark
    return (mark.line + 1, mark.column + 1, mark.line + 1, mark.column + 1, 1)
