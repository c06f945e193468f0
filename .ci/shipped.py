"""What Benchleaf brings along when it is installed: its dependencies, and theirs, with their licences.

Prints `--licences` (a Markdown table, kept as .ci/licences.md) or `--lock` (their blocks of requirements.lock).
"""

import re
import sys
from importlib import metadata
from pathlib import Path

from packaging.requirements import Requirement

FOLDER = Path(__file__).resolve().parent
LOCK = FOLDER.parent / "requirements.lock"


def plain(name: str) -> str:
    """A package's name as the lock writes it (PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).casefold()


def wanted_by(about: metadata.Distribution, extra: str) -> list[tuple[str, str]]:
    """What a package requires on this machine for one of its extras ('' for itself): names, each with an extra."""
    wanted = []
    for line in about.requires or ():
        required = Requirement(line)
        if required.marker is None or required.marker.evaluate({"extra": extra}):
            wanted += [
                (plain(required.name), extra_of_it) for extra_of_it in ("", *required.extras)
            ]
    return wanted


def shipped() -> dict[str, metadata.Distribution]:
    """Everything that an installation needs, without what only tests and contributors need.

    A requirement that asks for extras (`fonttools[woff]`) brings along what those require.
    """
    found: dict[str, metadata.Distribution] = {}
    seen: set[tuple[str, str]] = set()
    waiting = [("benchleaf", "")]
    while waiting:
        name, extra = waiting.pop()
        if (name, extra) in seen:
            continue
        seen.add((name, extra))
        found[name] = metadata.distribution(name)
        waiting += wanted_by(found[name], extra)
    del found["benchleaf"]
    return dict(sorted(found.items()))


def licence(about: metadata.Distribution) -> str:
    """What the package says of its licence: an SPDX expression, else its own words, else its classifier."""
    said = about.metadata.get("License-Expression") or ""
    classifiers = [
        c.split(" :: ")[-1]
        for c in about.metadata.get_all("Classifier") or ()
        if c.startswith("License")
    ]
    own = (about.metadata.get("License") or "").strip().split("\n")[0]
    return said or (own if 0 < len(own) < 60 else "") or " or ".join(classifiers) or "not said"


def table() -> str:
    """All of it as a table."""
    rows = "".join(f"| {name} | {licence(about)} |\n" for name, about in shipped().items())
    return (
        "# Licences of what Benchleaf brings along\n\nMade by `make licences` from what the packages say of themselves. "
        f"The fonts are published with every site.\n\n| package | licence |\n|---|---|\n{rows}"
    )


def lock() -> str:
    """The blocks of the lock that belong to what is shipped, with their hashes."""
    names = set(shipped())
    blocks = re.split(r"\n(?=\S)", LOCK.read_text("utf-8").rstrip("\n"))
    return (
        "\n".join(b for b in blocks if plain(re.split(r"[\s=;\[]", b, maxsplit=1)[0]) in names)
        + "\n"
    )


if __name__ == "__main__":
    print({"--licences": table, "--lock": lock}[sys.argv[1]](), end="")
