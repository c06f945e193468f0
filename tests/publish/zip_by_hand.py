"""A reader of stored ZIP archives for the tests, apart from the library that writes ours.

It walks the local headers from the start and the central directory from the end (APPNOTE 6.3.10,
sections 4.3.7, 4.3.12 and 4.3.16, from memory) and wants both to say the same.
"""

import struct
import zlib
from typing import NamedTuple


class Entry(NamedTuple):
    """What a local header says, and the bytes behind it."""

    name: str
    method: int
    time: int
    day: int
    content: bytes


def local_entries(archive: bytes) -> list[Entry]:
    """Every entry from the start on, each right behind the one before."""
    out, at = [], 0
    while archive[at : at + 4] == b"PK\x03\x04":
        fields = struct.unpack("<HHHHHIIIHH", archive[at + 4 : at + 30])
        _, flags, method, time, day, crc, packed, size, named, extra = fields
        assert not flags & 0x9, "neither encrypted nor with sizes behind"
        assert (packed, extra) == (size, 0)
        name = archive[at + 30 : at + 30 + named].decode("utf-8")
        content = archive[at + 30 + named : at + 30 + named + size]
        assert zlib.crc32(content) == crc, name
        out.append(Entry(name, method, time, day, content))
        at += 30 + named + size
    assert archive[at : at + 4] == b"PK\x01\x02", "the directory is right behind the last entry"
    return out


def directory_modes(archive: bytes) -> dict[str, int]:
    """The names of the central directory, each with the mode of its file."""
    end = archive.rindex(b"PK\x05\x06")
    count, _, at = struct.unpack("<HII", archive[end + 10 : end + 20])
    out = {}
    for _ in range(count):
        assert archive[at : at + 4] == b"PK\x01\x02"
        named, extra, comment = struct.unpack("<HHH", archive[at + 28 : at + 34])
        (attributes,) = struct.unpack("<I", archive[at + 38 : at + 42])
        out[archive[at + 46 : at + 46 + named].decode("utf-8")] = attributes >> 16
        at += 46 + named + extra + comment
    assert at == end
    return out


def unpacked(archive: bytes) -> dict[str, bytes]:
    """Bytes by name."""
    return {entry.name: entry.content for entry in local_entries(archive)}
