"""Reads a ZIP archive that a stranger may have made: into memory, by name, within bounds, or not at
all.

Nothing is unpacked to the disk. Which names are sound is the caller's word; what an archive says of
itself is held against its bytes.
"""

import io
import stat
import struct
import zipfile
import zlib
from collections.abc import Callable, Iterator, Sequence

MOST_PACKED = 64 * 2**20  # bytes of an archive
MOST_UNPACKED = 128 * 2**20  # bytes of all that is in it
MOST_ENTRIES = 2_000
_STORED_OR_DEFLATED = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
_ENCRYPTED = 0x1 | 0x40 | 0x2000  # flags, of the directory's too
_RUN_AS_OWNER = stat.S_ISUID | stat.S_ISGID | stat.S_ISVTX
_SIZES_BEHIND = 0x8  # flag: an entry's sizes stand behind its bytes
_DESCRIPTOR = 24  # bytes of these sizes, at most
_IN_EXTRA = 0xFFFFFFFF  # a size that stands elsewhere
_OTHER_NAME = 0x7075  # a field that gives an entry another name
_END, _END_LENGTH = b"PK\x05\x06", 22  # without a comment
_LOCAL, _DIRECTORY = b"PK\x03\x04", b"PK\x01\x02"
# What zipfile lets through where bytes are not as they should be, beside its own error.
_BROKEN = (
    zipfile.BadZipFile,
    zlib.error,
    struct.error,
    EOFError,
    LookupError,
    OverflowError,
    RuntimeError,
    ValueError,
)
Entries = Sequence[zipfile.ZipInfo]


class NotTaken(Exception):
    """Why something that was given is not taken, in one sentence, and what to do."""

    def __init__(self, message: str, hint: str = "Nothing was written.") -> None:
        self.message, self.hint = message, hint
        super().__init__(message)


def archive_files(content: bytes, name_mistake: Callable[[str], str]) -> dict[str, bytes]:
    """The files of an archive by their path in it. NotTaken for one that is not sound in any way."""
    if len(content) > MOST_PACKED:
        raise NotTaken(f"The archive is larger than {MOST_PACKED // 2**20} MB.")
    if content.count(_DIRECTORY) > MOST_ENTRIES:  # before any is read; each begins with it
        raise NotTaken(f"The archive holds over {MOST_ENTRIES} entries.")
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            entries = archive.infolist()
            _sound(content, entries, name_mistake)
            files = [entry for entry in entries if not entry.is_dir()]
            return {entry.filename: _read(archive, entry) for entry in files}
    except _BROKEN as error:
        raise NotTaken("This is no ZIP archive that can be read.") from error


def _sound(content: bytes, entries: Entries, name_mistake: Callable[[str], str]) -> None:
    """NotTaken for entries that are not plain files under sound names, each with bytes of its own."""
    if sum(entry.file_size for entry in entries) > MOST_UNPACKED:
        raise NotTaken(f"Unpacked, the archive is larger than {MOST_UNPACKED // 2**20} MB.")
    for entry in entries:
        wrong = name_mistake(entry.orig_filename.removesuffix("/")) or _odd(entry)
        if wrong:
            raise NotTaken(f"The archive's entry {entry.orig_filename[:100]!r} {wrong}.")
    wrongs = (
        *_misplaced(content, entries),
        *_two_faced(content, entries),
        *_badly_ended(content, entries),
    )
    for wrong in wrongs:
        raise NotTaken(f"The archive {wrong}.")


def _odd(entry: zipfile.ZipInfo) -> str:
    """Why an entry is no plain file or folder that anybody may read."""
    if entry.flag_bits & _ENCRYPTED:
        return "is encrypted"
    if entry.compress_type not in _STORED_OR_DEFLATED:
        return "is packed in a way that is not read"
    kind = stat.S_IFMT(entry.external_attr >> 16)
    if kind == stat.S_IFLNK:
        return "is a link"
    special = (entry.external_attr >> 16) & _RUN_AS_OWNER
    if special or kind not in (0, stat.S_IFREG, stat.S_IFDIR):
        return "is no plain file"
    if entry.is_dir() and entry.file_size:
        return "is a folder that holds bytes"
    return ""


def _misplaced(content: bytes, entries: Entries) -> Iterator[str]:
    """What is wrong with where entries lie: each has bytes of its own, right behind a header that
    says the same name.
    """
    end, room = 0, 0
    if entries and not content.startswith(_LOCAL):
        yield "has something in front of its first entry"
    for entry in sorted(entries, key=lambda one: one.header_offset):
        at = entry.header_offset
        if at < end:
            yield "has entries that lie over each other"
        if at > end + room:
            yield "holds bytes that belong to no entry"
        head = content[at : at + 30]
        if len(head) < 30 or not head.startswith(_LOCAL):
            yield "has an entry without a header"
            return
        named, extra = struct.unpack("<HH", head[26:30])
        name = content[at + 30 : at + 30 + named]
        coding = "utf-8" if entry.flag_bits & 0x800 else "cp437"
        if name != entry.orig_filename.encode(coding):
            yield "calls an entry by two names"
        end = at + 30 + named + extra + entry.compress_size
        room = _DESCRIPTOR if entry.flag_bits & _SIZES_BEHIND else 0
        if end > len(content):
            yield "ends before its entries do"


def _two_faced(content: bytes, entries: Entries) -> Iterator[str]:
    """What an entry's own header says otherwise than the directory, so that two programs would read
    two things.
    """
    for entry in entries:
        at = entry.header_offset
        flags, method = struct.unpack("<HH", content[at + 6 : at + 10])
        sizes = struct.unpack("<II", content[at + 18 : at + 26])
        if method != entry.compress_type or flags & _ENCRYPTED:
            yield "says of an entry two ways of packing"
        said = (entry.compress_size, entry.file_size)
        unsaid = bool(entry.flag_bits & _SIZES_BEHIND) or _IN_EXTRA in sizes
        if sizes != said and not unsaid:
            yield "says two sizes of an entry"
        if _OTHER_NAME in _extra_ids(entry.extra):
            yield "calls an entry by two names"


def _badly_ended(content: bytes, entries: Entries) -> Iterator[str]:
    """What is wrong with the end of the archive, by which programs find the directory: it is the
    last of all, and the directory that it names lies right before it and holds each entry once.
    """
    names = [entry.orig_filename for entry in entries]
    if len(set(names)) < len(names):
        yield "holds an entry twice"
    if len(content) < _END_LENGTH or content[-_END_LENGTH:][:4] != _END:
        yield "has something behind its end"
        return
    end = struct.unpack("<HHHHIIH", content[-_END_LENGTH + 4 :])
    disk, disk_of_directory, here, count, size, at, _ = end
    if (disk, disk_of_directory) != (0, 0) or (here, count) != (len(names), len(names)):
        yield "does not say rightly how many entries it holds"
    if at + size + _END_LENGTH != len(content):
        yield "does not say rightly where its directory lies"


def _extra_ids(extra: bytes) -> Iterator[int]:
    """The kinds of what stands behind an entry's name in the directory."""
    at = 0
    while at + 4 <= len(extra):
        kind, size = struct.unpack("<HH", extra[at : at + 4])
        yield kind
        at += 4 + size


def _read(archive: zipfile.ZipFile, entry: zipfile.ZipInfo) -> bytes:
    """The bytes of an entry, never more than it says that it has."""
    with archive.open(entry) as file:
        content = file.read(entry.file_size + 1)
    if len(content) != entry.file_size:
        raise NotTaken(f"The archive's entry {entry.filename[:100]!r} is not as long as it says.")
    return content
