"""parts.csv in a real spreadsheet: LibreOffice opens it with the right columns, and computes
nothing in it.
"""

import csv
import io
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest

from builder.pages.sheet_input import SheetInput
from builder.pipeline.check import Checked
from builder.render.data.csv_and_text import parts_csv
from tests.machine import own_environment

EVIL = (
    "=1+1",
    '=HYPERLINK("https://evil.example";"x")',
    "+1+1",
    "-1+1",
    "@SUM(1+1)",
    "\t=1+1",
    'say "1,2"\nand "é"',
)


def _opened(content: bytes, folder: Path) -> list[list[str]]:
    """What the spreadsheet reads, saved by it again as CSV.

    Without a window it has to be told comma, quote and UTF-8, which its window finds by the mark at
    the start.
    """
    program = shutil.which("soffice") or shutil.which("libreoffice")
    if program is None:
        pytest.skip(
            "no LibreOffice on this machine: `apt-get install libreoffice-calc-nogui` and run again"
        )
    (folder / "parts.csv").write_bytes(content)
    command = [
        program,
        f"-env:UserInstallation={(folder / 'profile').as_uri()}",
        "--headless",
        "--convert-to",
        "ods",
    ]
    command += ["--infilter=CSV:44,34,76,1"]
    command += ["--outdir", str(folder / "ods"), str(folder / "parts.csv")]
    subprocess.run(command, check=True, capture_output=True, timeout=180, env=own_environment())
    saved = (  # formulas would be saved as such
        "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,true"
    )
    command = [
        *command[:3],
        "--convert-to",
        saved,
        "--outdir",
        str(folder / "again"),
        str(folder / "ods" / "parts.ods"),
    ]
    subprocess.run(command, check=True, capture_output=True, timeout=180, env=own_environment())
    text = (folder / "again" / "parts.csv").read_text("utf-8-sig")
    return list(csv.reader(io.StringIO(text, newline="")))


def test_every_cell_is_where_it_belongs_and_none_is_a_formula(
    demo: Checked, tmp_path: Path
) -> None:
    sheet = demo.sheets["dipper"]
    parts = dict(sheet.build.parts)
    for name, evil in zip(list(parts), EVIL, strict=False):
        parts[name] = replace(parts[name], part=parts[name].part.model_copy(update={"name": evil}))
    content = parts_csv(SheetInput(replace(sheet.build, parts=parts), sheet.results, sheet.verdict))
    written = list(csv.reader(io.StringIO(content.decode("utf-8-sig"), newline="")))
    read = _opened(content, tmp_path)
    assert len(read) == len(written)
    assert read[0] == written[0]
    names = written[0].index("name")
    for was, now in zip(written[1:], read[1:], strict=True):
        assert len(now) == len(was)
        # As text, apostrophe and all: 2 would be a formula's answer. Tabs are dropped by the
        # spreadsheet.
        assert now[names].split() == was[names].replace("\t", "").split()
        for column, (a, b) in enumerate(zip(was, now, strict=True)):
            try:
                assert float(a) == float(b), (written[0][column], a, b)
            except ValueError:
                assert a.replace("\t", "").split() == b.split(), (written[0][column], a, b)
