"""Which system libraries printing needs, and which of them cannot be loaded here."""

import ctypes
import ctypes.util
from collections.abc import Mapping

# The Debian package, and the names under which its library is known: Linux, then other systems.
PDF_LIBRARIES: Mapping[str, tuple[str, ...]] = {
    "libglib2.0-0": ("libgobject-2.0.so.0", "libgobject-2.0.0.dylib", "gobject-2.0"),
    "libpango-1.0-0": ("libpango-1.0.so.0", "libpango-1.0.dylib", "pango-1.0"),
    "libpangoft2-1.0-0": ("libpangoft2-1.0.so.0", "libpangoft2-1.0.dylib", "pangoft2-1.0"),
    "libharfbuzz0b": ("libharfbuzz.so.0", "libharfbuzz.0.dylib", "harfbuzz"),
    # Without this one other code makes the fonts smaller, and the bytes are not the same any more.
    "libharfbuzz-subset0": (
        "libharfbuzz-subset.so.0",
        "libharfbuzz-subset.0.dylib",
        "harfbuzz-subset",
    ),
    "libfontconfig1": ("libfontconfig.so.1", "libfontconfig.1.dylib", "fontconfig"),
}


class LibrariesLacking(Exception):
    """Printing is not to be had on this machine; `names` are the packages that would bring what it
    lacks.
    """

    def __init__(self, names: tuple[str, ...]) -> None:
        self.names = names
        super().__init__(names)


def _loads(name: str) -> bool:
    try:
        ctypes.CDLL(name)
    except OSError:
        return False
    return True


def is_there(names: tuple[str, ...]) -> bool:
    """Whether one of these names loads; the slow search of the whole system comes last."""
    if any(_loads(name) for name in names):
        return True
    found = ctypes.util.find_library(names[-1])
    return found is not None and _loads(found)


def lacking(libraries: Mapping[str, tuple[str, ...]] = PDF_LIBRARIES) -> tuple[str, ...]:
    """The packages whose library cannot be loaded here."""
    return tuple(package for package, names in libraries.items() if not is_there(names))
