"""What a stranger gives as YAML, read as data; and what the sources would lose by taking it in."""

from typing import Any

from builder.diagnostics.finding import Finding
from builder.load.archive import NotTaken
from builder.load.files import Loaded
from builder.load.limits import DEFAULT_LIMITS
from builder.load.yaml_nodes import read_yaml
from builder.model.read.workspace import Workspace, read_workspace


def given_tree(what: str, file: str, content: bytes) -> Any:
    """The tree of a file that is given. NotTaken says in a sentence that begins with `what` why it
    has none.
    """
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError:
        raise NotTaken(f"{what} is not UTF-8.") from None
    document, wrong = read_yaml(file, text, "", DEFAULT_LIMITS)
    if wrong:
        raise NotTaken(f"{what} cannot be read: {wrong[0].message}")
    return document.tree


def new_mistakes(before: Workspace, after: Loaded) -> tuple[Finding, ...]:
    """What could not be read any more, such as a build with a wire to a contact that is gone."""
    known = {finding.message for finding in before.findings}
    return tuple(f for f in read_workspace(after).findings if f.message not in known)
