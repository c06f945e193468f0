"""What this account knows of the site that it published last: which manifest it wrote, and how each
file lay then.

A manifest and pages that came with somebody's folder are believed in nothing: their digests are
right, for whoever altered a page computed them anew. So a seal beside the site names the manifests
that were written here. A published file is taken over if it lies as it did (size, times, inode,
device, which no copy has), else if its bytes are those of such a manifest.
"""

import json
import os
from collections.abc import Collection
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from builder.publish.kept.shape import fits
from builder.publish.kept.stale import row, sha
from builder.publish.kept.state_file import keep_state, read_state

SEAL = ".site-seal"


@dataclass(frozen=True)
class Belief:
    """Digests of the manifests that were written here, and how the files of the last one lay."""

    manifests: frozenset[str] = frozenset()
    rows: frozenset[str] = frozenset()

    def holds(self, manifest: bytes | None) -> bool:
        """Whether a manifest was written here."""
        return manifest is not None and sha(manifest) in self.manifests

    @property
    def files(self) -> frozenset[str]:
        """The addresses of what was published here last."""
        return frozenset(text.split(" ", 5)[5] for text in self.rows)


NOTHING_BELIEVED = Belief()


def read_belief(workspace: Path) -> Belief:
    """What was kept; nothing where anything about it is in doubt."""
    body = read_state(workspace, SEAL)
    if body is None:
        return NOTHING_BELIEVED
    try:
        kept = json.loads(body)
    except (ValueError, RecursionError):
        return NOTHING_BELIEVED
    whole = fits(kept, {"manifests": [str], "rows": [str]}) and all(
        text.count(" ") >= 5 for text in kept["rows"]
    )
    return (
        Belief(frozenset(kept["manifests"]), frozenset(kept["rows"])) if whole else NOTHING_BELIEVED
    )


def keep_belief(workspace: Path, belief: Belief, *, durable: bool = False) -> bool:
    """Keeps it; False where this account has no key of its own. OSError where the disk refuses."""
    kept = {"manifests": sorted(belief.manifests), "rows": sorted(belief.rows)}
    return keep_state(workspace, SEAL, json.dumps(kept).encode(), durable=durable)


def rows_of(site: Path, files: Collection[str]) -> frozenset[str]:
    """How these files of a site lie now; those that do not are left out."""
    rows = set()
    for path in files:
        with suppress(OSError):
            rows.add(row(path, os.lstat(f"{site}/{path}")))
    return frozenset(rows)
