"""Brings a checker that only the tests use into .venv/checker: `html`, the Nu HTML checker, which they
put every kind of page to, or `types`, TypeScript, which reads the types of the pages' scripts.

Fetched with npm from whatever registry it is set up with, at one version, and taken only if its
digest is the one below. Usage: fetch_checkers.py html|types. Exit status 1 where it cannot be had,
with the reason in one line.
"""

import base64
import hashlib
import re
import shutil
import subprocess
import sys
import tarfile
import tempfile
from dataclasses import dataclass
from pathlib import Path

FOLDER = Path(".venv/checker")
SECONDS = 300


@dataclass(frozen=True)
class Package:
    """A package of one version, what is taken out of it, and the folder that this goes into."""

    name: str
    version: str
    sha512: str
    wanted: str
    folder: Path


PACKAGES = {
    "html": Package(
        "vnu-jar",
        "26.9.27",
        "TkQd5DFfOaWC9ebtvozTsrH2Vaod3jYg+vrOeREzIXxBexLz9+rS2DNtjn7+RPUiZhgli0SghgBX6RJRNea0KA==",
        r"package/build/dist/vnu\.jar",
        FOLDER / "html",
    ),
    "types": Package(
        "typescript",
        "5.9.3",
        "jl1vZzPDinLr9eUt3J/t7V6FgNEw9QjvBPdysz9KfQDD41fQrC2Y4vKQdiaUpFT4bXlb1RHhLpp8wtm6M5TgSw==",
        r"package/lib/(_?tsc\.js|lib\.[\w.]+\.d\.ts)",
        FOLDER / "types",
    ),
}


def fetched(package: Package, folder: Path) -> Path:
    """Let npm bring the package as it was published; nothing of it is run."""
    wanted = f"{package.name}@{package.version}"
    argv = ["npm", "pack", "--silent", "--ignore-scripts", wanted]
    argv += ["--pack-destination", str(folder)]
    subprocess.run(argv, check=True, capture_output=True, timeout=SECONDS, cwd=folder)
    return next(folder.glob("*.tgz"))


def take(package: Package, file: Path) -> None:
    """What is wanted out of a package, into its folder. The stamp comes last."""
    if base64.b64encode(hashlib.sha512(file.read_bytes()).digest()).decode() != package.sha512:
        sys.exit(f"{package.name} {package.version} is not the file whose digest is on record")
    shutil.rmtree(package.folder, ignore_errors=True)
    package.folder.mkdir(parents=True)
    with tarfile.open(file) as archive:
        for member in archive:
            content = archive.extractfile(member)
            if content is not None and re.fullmatch(package.wanted, member.name):
                (package.folder / Path(member.name).name).write_bytes(content.read())
    (package.folder / "version").write_text(package.version, "utf-8")


def main(kind: str) -> None:
    """Fetch it, unless it is there in this version."""
    package = PACKAGES[kind]
    stamp = package.folder / "version"
    if stamp.is_file() and stamp.read_text("utf-8") == package.version:
        return
    with tempfile.TemporaryDirectory() as name:
        try:
            file = fetched(package, Path(name))
        except (OSError, subprocess.SubprocessError, StopIteration) as error:
            wanted = f"{package.name}@{package.version}"
            sys.exit(f"npm pack {wanted} failed ({type(error).__name__})")
        take(package, file)


if __name__ == "__main__":
    main(sys.argv[1])
