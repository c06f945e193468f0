"""Brings the Nu HTML checker, which the tests put every kind of page to, into .venv/checker/vnu.jar.

Fetched with npm from whatever registry it is set up with, at one version, and taken only if its digest is the one
below. Usage: fetch_checker.py. Exit status 1 where it cannot be had, with the reason in one line.
"""

import base64
import hashlib
import subprocess
import sys
import tarfile
import tempfile
from pathlib import Path

VERSION = "26.9.27"
SHA512 = "TkQd5DFfOaWC9ebtvozTsrH2Vaod3jYg+vrOeREzIXxBexLz9+rS2DNtjn7+RPUiZhgli0SghgBX6RJRNea0KA=="
JAR = Path(".venv/checker/vnu.jar")
SECONDS = 300


def fetched(folder: Path) -> Path:
    """Let npm bring the package as it was published; nothing of it is run."""
    argv = [
        "npm",
        "pack",
        "--silent",
        "--ignore-scripts",
        f"vnu-jar@{VERSION}",
        "--pack-destination",
        str(folder),
    ]
    subprocess.run(argv, check=True, capture_output=True, timeout=SECONDS, cwd=folder)
    return next(folder.glob("*.tgz"))


def main() -> None:
    """Fetch it, unless it is there in this version."""
    stamp = JAR.with_name("version")
    if JAR.is_file() and stamp.is_file() and stamp.read_text("utf-8") == VERSION:
        return
    with tempfile.TemporaryDirectory() as name:
        try:
            package = fetched(Path(name))
        except (OSError, subprocess.SubprocessError, StopIteration) as error:
            sys.exit(f"npm pack vnu-jar@{VERSION} failed ({type(error).__name__})")
        if base64.b64encode(hashlib.sha512(package.read_bytes()).digest()).decode() != SHA512:
            sys.exit(f"vnu-jar {VERSION} is not the file whose digest is on record")
        with tarfile.open(package) as archive:
            member = archive.extractfile("package/build/dist/vnu.jar")
            if member is None:
                sys.exit(f"vnu-jar {VERSION} holds no vnu.jar")
            JAR.parent.mkdir(exist_ok=True)
            JAR.write_bytes(member.read())
    stamp.write_text(VERSION, "utf-8")


if __name__ == "__main__":
    main()
