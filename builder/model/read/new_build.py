"""The text of a new build: copied from another one, comments kept, without what is true of that one
aircraft only.
"""

from collections.abc import Mapping

from builder.load.yaml_text import TreePath, edited, top_blocks, yaml_quoted
from builder.model.trees.variants import NOT_INHERITED

# Kept of what a variant would not inherit: the base itself.
_LEFT_OUT = (
    *(k for k in NOT_INHERITED if k != "based_on"),
    "revised",
    "questions",
    "title",
    "summary",
)
_HEAD = """\
# {title}, begun as a copy of {base}. Written by `benchleaf start`.
# Left out, since it is true of {base} only: pictures, weighings, flights, incidents, upkeep,
# changes, questions, accepted faults, what is owned or tested, and what came back from its bench.
# Weigh your own: its margins are not those of {base}. Whatever else stands below is {base}'s until
# you change it.


"""


def title_of(name: str) -> str:
    """`my-build` as a title: `My build`."""
    words = name.replace("-", " ").strip()
    return words[:1].upper() + words[1:]


_OF_ONE_PART = ("each_weighed", "owned")


def _is_of_one_aircraft(path: TreePath) -> bool:
    """A picture of a step, a test that somebody made, a reading of one piece, what somebody owns."""
    in_step = path[:1] == ("steps",) and path[-1] in ("photo", "alt")
    of_part = path[:1] == ("parts",) and len(path) == 3 and path[-1] in _OF_ONE_PART
    return in_step or of_part or path[-1] == "tested"


def copied(text: str, base: str, name: str) -> str:
    """The build file `base` as the file of a new, planned build. `text` must be a build file
    without mistakes.
    """
    _, found = top_blocks(text)
    revised = "".join(block.strip() + "\n" for key, block in found if key == "revised")
    top = [
        f"title: {title_of(name)}\n",
        (
            "summary:"
            f" {yaml_quoted(f'Planned after {base}; nothing of it is built, weighed or flown yet.')}\n"
        ),
        revised,
        "status: planned\n",
        *(["own_aircraft: yes\n"] if any(key == "based_on" for key, _ in found) else []),
    ]
    rest = [block for key, block in found if key not in _LEFT_OUT]
    head = _HEAD.format(title=title_of(name), base=base)
    return edited(head + "".join(top) + "\n" + "".join(rest), _is_of_one_aircraft)


_ONES_OWN = ("scale", "weighed_together", "bought", "cycles", "serial_number")


def unmeasured(text: str, tree: Mapping[str, object]) -> str:
    """Shelf entries without what somebody measured: of a part that is only made up, nobody did.

    A maker's figure stays, a reading that stands alone becomes an estimate, and a bench table says
    that it is invented. `tree` is what the text says.
    """

    def beside(path: TreePath) -> Mapping[str, object]:
        found: object = tree
        for step in path[:-1]:
            found = found[step] if isinstance(found, Mapping | list) else {}
        return found if isinstance(found, Mapping) else {}

    def gone(path: TreePath) -> bool:
        if path[-1] == "measured":
            return "maker" in beside(path)
        return path[-1] in _ONES_OWN and len(path) in (2, 3)

    def new(path: TreePath, old: str) -> str:
        if path[-1] == "source" and "bench" in path:
            return "invented; take the table of your own stand or of the maker"
        return (
            "printed (invented)" if path[-1] == "maker" and old.startswith("printed by ") else old
        )

    return edited(
        text, gone, new, lambda path: "estimate" if path[-1] == "measured" else str(path[-1])
    )


def titled(text: str, name: str) -> str:
    """A build file with the title that its name gives."""
    return edited(text, new=lambda path, old: title_of(name) if path == ("title",) else old)
