"""Says which Debian packages would bring the system libraries that cannot be loaded here, one a line.

Libraries are looked for by loading them, under the names that WeasyPrint and pyzbar try, and not by asking a
package manager: what counts is whether they load. Usage: find_libraries.py pdf|barcode ...
"""

import ctypes
import ctypes.util
import sys

# Group of libraries -> Debian package -> names under which its library is known (Linux, then other systems).
LIBRARIES = {
    "pdf": {
        "libglib2.0-0": ("libgobject-2.0.so.0", "libgobject-2.0.0.dylib", "gobject-2.0"),
        "libpango-1.0-0": ("libpango-1.0.so.0", "libpango-1.0.dylib", "pango-1.0"),
        "libpangoft2-1.0-0": ("libpangoft2-1.0.so.0", "libpangoft2-1.0.dylib", "pangoft2-1.0"),
        "libharfbuzz0b": ("libharfbuzz.so.0", "libharfbuzz.0.dylib", "harfbuzz"),
        "libharfbuzz-subset0": ("libharfbuzz-subset.so.0", "libharfbuzz-subset.0.dylib", "harfbuzz-subset"),
        "libfontconfig1": ("libfontconfig.so.1", "libfontconfig.1.dylib", "fontconfig"),
    },
    "barcode": {"libzbar0": ("libzbar.so.0", "libzbar.0.dylib", "zbar")},
}


def loads(name: str) -> bool:
    """Tell whether the dynamic linker finds a library under this name."""
    try:
        ctypes.CDLL(name)
    except OSError:
        return False
    return True


def is_there(names: tuple[str, ...]) -> bool:
    """Tell whether one of the names loads; the slow search of the whole system comes last."""
    if any(loads(name) for name in names):
        return True
    found = ctypes.util.find_library(names[-1])
    return found is not None and loads(found)


def main(groups: list[str]) -> None:
    """Print the package of each library of these groups that does not load."""
    for group in groups:
        for package, names in LIBRARIES[group].items():
            if not is_there(names):
                print(package)


if __name__ == "__main__":
    main(sys.argv[1:])
