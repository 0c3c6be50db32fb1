"""A zip archive whose bytes depend on its parts alone: fixed order, fixed date, no traces of the machine."""

import struct
import zlib
from dataclasses import dataclass
from functools import lru_cache

_DATE = 0x0021
"""1 January 1980, the first day a zip archive knows."""
_LOCAL = struct.Struct("<4s5H3L2H")
_CENTRAL = struct.Struct("<4s6H3L5H2L")
_END = struct.Struct("<4s4H2LH")
_VERSION = 20
_LEVEL = 6


@dataclass(frozen=True, slots=True)
class Part:
    """A named part. A ``lasting`` part is the same in many files, so its compressed form is kept."""

    name: str
    content: bytes
    lasting: bool = False


def archive(parts: tuple[Part, ...]) -> bytes:
    """Return a zip archive of the parts in the order given."""
    body = bytearray()
    directory = bytearray()
    for part in parts:
        method, packed, checksum = _kept(part.content) if part.lasting else _packed(part.content)
        name = part.name.encode("ascii")
        sizes = (checksum, len(packed), len(part.content))
        directory += _CENTRAL.pack(
            b"PK\x01\x02", _VERSION, _VERSION, 0, method, 0, _DATE, *sizes, len(name), 0, 0, 0, 0, 0, len(body)
        )
        directory += name
        body += _LOCAL.pack(b"PK\x03\x04", _VERSION, 0, method, 0, _DATE, *sizes, len(name), 0)
        body += name
        body += packed
    end = _END.pack(b"PK\x05\x06", 0, 0, len(parts), len(parts), len(directory), len(body), 0)
    return bytes(body + directory + end)


def _packed(content: bytes) -> tuple[int, bytes, int]:
    """Return the method, the packed bytes and the checksum; a part that packing would not shrink is stored."""
    packer = zlib.compressobj(_LEVEL, zlib.DEFLATED, -15)
    packed = packer.compress(content) + packer.flush()
    checksum = zlib.crc32(content)
    if len(packed) < len(content):
        return 8, packed, checksum
    return 0, content, checksum


_kept = lru_cache(maxsize=64)(_packed)
