"""Says which Debian packages would bring the system libraries that cannot be loaded here, one a line.

Libraries are looked for by loading them, under the names that WeasyPrint and pyzbar try, and not by asking a
package manager: what counts is whether they load. Usage: find_libraries.py pdf|barcode|browser ...
"""

import sys
from pathlib import Path

from builder.render.paper.pdf_libraries import PDF_LIBRARIES, lacking

LIBRARIES = {
    "pdf": PDF_LIBRARIES,
    "browser": {  # what the tests steer a browser with brings its own program, which is linked against these
        "libatomic1": ("libatomic.so.1", "atomic"),
        "libstdc++6": ("libstdc++.so.6", "stdc++"),
    },
    "barcode": {"libzbar0": ("libzbar.so.0", "libzbar.0.dylib", "zbar")},
}


FONT_FOLDERS = (Path("/usr/share/fonts"), Path("/usr/local/share/fonts"))
FONT = "fonts-dejavu-core"


def has_a_font() -> bool:
    """Whether the system has any font: without one the browser ends while it sets its first page."""
    return any(
        p.suffix in (".ttf", ".otf", ".ttc", ".pfb")
        for f in FONT_FOLDERS
        if f.is_dir()
        for p in f.rglob("*")
    )


def main(groups: list[str]) -> None:
    """Print the package of each library of these groups that does not load."""
    for group in groups:
        for package in lacking(LIBRARIES[group]):
            print(package)
        if group == "browser" and not has_a_font():
            print(FONT)


if __name__ == "__main__":
    main(sys.argv[1:])
