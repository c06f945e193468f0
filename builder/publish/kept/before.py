"""The site as a publish finds it: what of it is believed, and which of its files may be taken away."""

from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

from builder.publish.kept.belief import Belief, read_belief
from builder.publish.kept.manifest import MANIFEST, Manifest, manifest_bytes, read_manifest
from builder.publish.kept.own_key import key_folder, own_key
from builder.publish.kept.stale import Lying
from builder.publish.swap import PublishError, files_of

_NOT_HERE = (
    "`site/` was not published by this account on this machine: every page was made again, and"
    " nothing of it was kept."
)
_ALTERED = (
    f"`site/{MANIFEST}` is not as it was written: every page was made again, and nothing of the old"
    " site was kept."
)
_NO_KEY = (
    "There is no key of your own in {}: every page was made again, and nothing of the old site was"
    " kept. Set XDG_STATE_HOME to a folder that only you may write, outside the workspace."
)
_HARMLESS = (MANIFEST, ".gitignore")


@dataclass(frozen=True, eq=False)
class Before:
    """What lay in `site/`: the manifest as it is believed, and its bytes; files that may be taken
    away, by address.

    `remarks` say why nothing is believed, where that is so.
    """

    old: Manifest
    content: bytes | None
    files: frozenset[str]
    lying: Lying
    belief: Belief
    remarks: tuple[str, ...]


def site_before(workspace: Path) -> Before:
    """Looks at the site. PublishError where it holds what a publish must not take away, or what
    cannot be told.
    """
    site = workspace / "site"
    sizes, links = files_of(site)
    content = manifest_bytes(site, len(sizes))
    claimed, belief = read_manifest(content), read_belief(workspace)
    if claimed is None and sizes and not belief.files:
        raise PublishError(
            f"`site/{MANIFEST}`, the list of what was published, is cut or altered.",
            "Take your own files out of `site/`, if it has any, delete it, and publish again: it is"
            " made again.",
        )
    files = belief.files | (claimed.files if claimed is not None else frozenset())
    _refuse_foreign({*sizes.keys() - files, *links})
    believed = belief.holds(content) and claimed is not None
    remarks = () if believed else _remarks(workspace, belief, bool(sizes))
    old = claimed if believed and claimed is not None else Manifest()
    return Before(
        old, content, files & sizes.keys(), Lying(site, sizes, belief.rows), belief, remarks
    )


def _refuse_foreign(found: Collection[str]) -> None:
    if not found:
        return
    foreign = sorted(found)
    shown = ", ".join(foreign[:3]) + (f" and {len(foreign) - 3} more" if len(foreign) > 3 else "")
    raise PublishError(
        f"The folder `site` holds files that are not ours: {shown}.",
        "Move them away; your own files belong in templates/static/.",
    )


def _remarks(workspace: Path, belief: Belief, anything: bool) -> tuple[str, ...]:
    """Why nothing is believed, a sentence each; nothing to say where nothing is there."""
    if not anything:
        return ()
    if belief.manifests:
        return (_ALTERED,)
    if own_key(workspace, make=True) is None:
        return (_NO_KEY.format(key_folder() or "the home of this account"),)
    names = sorted(p.name for p in (workspace / "site").iterdir() if p.name.startswith("."))
    came = [name for name in names if name not in _HARMLESS]
    along = (
        (
            "Of `site/` these came along unread; look at them before you upload them:"
            f" {', '.join(came)}."
        ),
    )
    return (_NOT_HERE, *(along if came else ()))
