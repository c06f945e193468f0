"""What differs on a variant: every value that its own file gives, by where it stands."""

from collections.abc import Mapping
from typing import Any

from builder.model.build import Build
from builder.pages.blocks import Block, Bullets, Inline, Paragraph, Section, Span

MOST = 20
# What belongs to the one aircraft differs always and says nothing about how it is built.
_OWN_PAPERS = (
    "title",
    "summary",
    "revised",
    "status",
    "based_on",
    "hero",
    "photos",
    "chapters",
    "guide_on_paper",
    "accept",
)
_OWN_LOGS = (
    "weighed",
    "flights",
    "changes",
    "incidents",
    "maintenance",
    "as_built",
    "author",
    "invented",
)


def _value(tree: Any, path: tuple[str | int, ...]) -> Any:
    for step in path:
        in_list = isinstance(tree, list) and isinstance(step, int) and step < len(tree)
        if not in_list and not (isinstance(tree, Mapping) and step in tree):
            return None
        tree = tree[step]
    return tree


def _said(value: Any) -> str:
    if isinstance(value, Mapping):
        return ", ".join(f"{k} {_said(v)}" for k, v in value.items())
    if isinstance(value, list):
        return ", ".join(_said(v) for v in value)
    return str(value)


def differences(build: Build) -> tuple[tuple[str, str], ...]:
    """(where it stands, what the variant says there) for every value of the variant's own file."""
    mine = f"{build.name}/build.yaml"
    out = []
    for path, where in build.origins.moved.items():
        if where.file != mine or path[0] in _OWN_PAPERS or path[0] in _OWN_LOGS:
            continue
        inner = any(
            path[:n] in build.origins.moved and build.origins.moved[path[:n]].file == mine
            for n in range(1, len(path))
        )
        value = _value(build.tree, path)
        if not inner and value is not None:
            out.append(
                (", ".join(str(s + 1) if isinstance(s, int) else s for s in path), _said(value))
            )
    return tuple(out)


def variant_section(build: Build) -> Section | None:
    """What differs from the base; None for a build that stands alone."""
    if len(build.chain) < 2:
        return None
    base = build.chain[1]
    lead: list[Inline] = [
        Span("A variant of "),
        Span(base, f"{base}/index.html"),
        *(Span(f", which is based on {b}") for b in build.chain[2:]),
        Span(
            ". Only what stands below differs; what was weighed or flown on the base stays there. "
        ),
        Span("Compare", f"compare/{base}/{build.name}/index.html"),
        Span("."),
    ]
    found = differences(build)
    items: list[tuple[Inline, ...]] = [(Span(f"{path}: {value}"),) for path, value in found[:MOST]]
    if len(found) > MOST:
        items.append((Span(f"and {len(found) - MOST} more"),))
    blocks: tuple[Block, ...] = (Paragraph(tuple(lead)),)
    if items:
        blocks = (*blocks, Bullets(tuple(items)))
    return Section("variant", f"What differs from {base}", blocks, level=3)
