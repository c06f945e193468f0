"""Who prints reads the list of fonts that is ours: one that is not there leaves the choice to the
machine.
"""

import os
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

from builder.render.paper.pdf_libraries import lacking


@pytest.mark.skipif(bool(lacking()), reason="this machine lacks what PDFs need")
def test_the_list_is_there_and_names_no_folder() -> None:
    script = "import builder.render.paper.printer, os; print(os.environ['FONTCONFIG_FILE'])"
    own = {k: v for k, v in os.environ.items() if k != "FONTCONFIG_FILE"}
    said = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, env=own
    )
    assert "Fontconfig error" not in said.stderr
    tree = ElementTree.parse(Path(said.stdout.strip())).getroot()
    assert tree.tag == "fontconfig"
    assert tree.findall("dir") == []
