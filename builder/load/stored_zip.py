"""ZIP archives that are the same bytes everywhere: stored, sorted, one date, one mode.

The form is that of the ZIP specification (APPNOTE 6.3, from memory), written by the standard
library.
"""

import hashlib
import io
import unicodedata
import zipfile
from collections.abc import Mapping

_DAY = (1980, 1, 1, 0, 0, 0)  # the first that the form can say
_MODE = 0o100644 << 16  # a plain file that its owner may write
_UNIX = 3


def stored_zip(files: Mapping[str, bytes]) -> bytes:
    """The archive of these files, by their path in it. ValueError for two that would be one."""
    named = {unicodedata.normalize("NFC", path): content for path, content in files.items()}
    if len(named) != len(files):
        raise ValueError("two paths of an archive differ in their form of Unicode only")
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive:
        for path in sorted(named):
            entry = zipfile.ZipInfo(path, _DAY)
            entry.create_system, entry.external_attr = _UNIX, _MODE
            archive.writestr(entry, named[path], zipfile.ZIP_STORED)
    return out.getvalue()


def digest_of_files(files: Mapping[str, bytes]) -> str:
    """SHA-256 over paths, lengths and bytes, in the order of the paths."""
    digest = hashlib.sha256()
    for path in sorted(files):
        digest.update(f"{path}\0{len(files[path])}\0".encode())
        digest.update(files[path])
    return digest.hexdigest()
