"""A zip archive whose bytes depend on its parts alone: fixed order, fixed date, no traces of the machine."""

import struct
import zlib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

_DATE = 0x0021
"""1 January 1980, the first day a zip archive knows."""
_LOCAL = struct.Struct("<4s5H3L2H")
_CENTRAL = struct.Struct("<4s6H3L5H2L")
_END = struct.Struct("<4s4H2LH")
_VERSION = 20
_LEVEL = 3
"""How long zlib looks for what comes twice: with 6, its own choice, it takes an eighth longer and saves a sixth."""


@dataclass(frozen=True, slots=True)
class Part:
    """A named part. A ``lasting`` part is the same in many files, so its compressed form is kept.

    From its byte ``dense`` on, a part holds what was packed before, where nothing comes twice.
    """

    name: str
    content: bytes
    lasting: bool = False
    dense: int | None = None


@dataclass(frozen=True, slots=True)
class Packed:
    """A part as it lies in an archive: its method, its packed bytes, its checksum and its full size."""

    name: str
    method: int
    content: bytes
    checksum: int
    size: int


def pack(part: Part) -> Packed:
    """Return a part packed; one that packing would not shrink is stored."""
    method, packed, checksum = _kept(part.content) if part.lasting else _packed(part.content, part.dense)
    return Packed(part.name, method, packed, checksum, len(part.content))


def archive(parts: Iterable[Packed]) -> bytes:
    """Return a zip archive of the parts in the order given."""
    body: list[bytes] = []
    directory: list[bytes] = []
    begin = 0
    for part in parts:
        name = part.name.encode("ascii")
        sizes = (part.checksum, len(part.content), part.size)
        central = (_VERSION, _VERSION, 0, part.method, 0, _DATE, *sizes, len(name), 0, 0, 0, 0, 0, begin)
        directory += (_CENTRAL.pack(b"PK\x01\x02", *central), name)
        local = _LOCAL.pack(b"PK\x03\x04", _VERSION, 0, part.method, 0, _DATE, *sizes, len(name), 0)
        body += (local, name, part.content)
        begin += len(local) + len(name) + len(part.content)
    count, listed = len(directory) // 2, sum(map(len, directory))
    end = _END.pack(b"PK\x05\x06", 0, 0, count, count, listed, begin, 0)
    return b"".join((*body, *directory, end))


def _packed(content: bytes, dense: int | None = None) -> tuple[int, bytes, int]:
    """Return the method, the packed bytes and the checksum; a part that packing would not shrink is stored."""
    if dense is None:
        packed = _deflated(content)
    else:
        packed = _deflated(content[:dense], zlib.Z_FULL_FLUSH) + _deflated(content[dense:], searched=False)
    checksum = zlib.crc32(content)
    if len(packed) < len(content):
        return 8, packed, checksum
    return 0, content, checksum


def _deflated(content: bytes, end: int = zlib.Z_FINISH, *, searched: bool = True) -> bytes:
    """Return bytes packed, ``searched`` for what comes twice; after a full flush another stream may follow."""
    strategy = zlib.Z_DEFAULT_STRATEGY if searched else zlib.Z_HUFFMAN_ONLY
    packer = zlib.compressobj(_LEVEL, zlib.DEFLATED, -15, zlib.DEF_MEM_LEVEL, strategy)
    return packer.compress(content) + packer.flush(end)


_kept = lru_cache(maxsize=64)(_packed)
