"""What is shipped is known: the licences stand in a file that is up to date, and the lock pins it
all by hash.
"""

import json
import os
import re
import subprocess
import sys
import zipfile
from importlib import metadata
from pathlib import Path

from tests.workspace_edits import ROOT


def _shipped(option: str) -> str:
    words = [sys.executable, str(ROOT / ".ci" / "shipped.py"), option]
    return subprocess.run(words, capture_output=True, text=True, check=True).stdout


def test_the_list_of_licences_is_up_to_date() -> None:
    text = _shipped("--licences")
    assert text == (ROOT / ".ci" / "licences.md").read_text("utf-8"), "run `make licences`"
    assert "not said" not in text and "| weasyprint | " in text and "| pytest |" not in text


def test_all_that_is_shipped_is_pinned_by_hash() -> None:
    blocks = [b for b in _shipped("--lock").replace(" \\\n", " ").split("\n") if b]
    names = {
        line.split(" | ")[0].strip("| ")
        for line in _shipped("--licences").split("\n")
        if line.startswith("| ")
    }
    assert {b.split("==")[0].split("[")[0] for b in blocks} == names - {"package"}
    assert all("==" in b and "--hash=sha256:" in b for b in blocks)


def _stand_in(about: metadata.Distribution, folder: Path) -> None:
    """A wheel that holds nothing but what an installed package says of itself."""
    name = re.sub(r"[-_.]+", "_", about.name)
    inside = f"{name}-{about.version}.dist-info"
    text = about.read_text("METADATA") or ""
    with zipfile.ZipFile(folder / f"{name}-{about.version}-py3-none-any.whl", "w") as wheel:
        wheel.writestr(f"{inside}/METADATA", text)
        wheel.writestr(
            f"{inside}/WHEEL",
            "Wheel-Version: 1.0\nGenerator: test\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
        )
        wheel.writestr(f"{inside}/RECORD", "")


def test_it_is_what_pip_would_install(tmp_path: Path) -> None:
    """pip itself resolves the wheel's requirements, extras and markers too, among stand-ins for
    what is installed here.
    """
    wheels = tmp_path / "wheels"
    wheels.mkdir()
    for about in metadata.distributions():
        if about.read_text("METADATA") is not None:  # a package of the system may say nothing
            _stand_in(about, wheels)
    words = [
        "install",
        "--dry-run",
        "--ignore-installed",
        "--no-index",
        "--no-cache-dir",
        "--quiet",
        "--report",
        "-",
    ]
    alone = {name: value for name, value in os.environ.items() if not name.startswith("PIP_")}
    done = subprocess.run(
        [
            sys.executable,
            "-m",
            "pip",
            "--isolated",
            *words,
            "--find-links",
            str(wheels),
            "benchleaf",
        ],
        env=alone,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    named = {entry["metadata"]["name"] for entry in json.loads(done.stdout)["install"]}
    installed = {re.sub(r"[-_.]+", "-", name).casefold() for name in named} - {"benchleaf"}
    listed = re.findall(r"^\| (\S+) \| ", _shipped("--licences"), re.M)
    assert set(listed) - {"package"} == installed
    assert {"brotli", "zopfli"} <= installed, "fonttools[woff] asks for them"
