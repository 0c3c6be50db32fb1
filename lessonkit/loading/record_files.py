"""Which files of a folder hold records, and what stands for the content of one."""

from collections.abc import Iterator
from pathlib import Path

from lessonkit.loading import codes
from lessonkit.loading.fault import make
from lessonkit.source.finding import Finding
from lessonkit.source.location import file_start
from lessonkit.source.walk import ClosedFolderError, walk

try:
    from _blake2 import blake2b  # the same as that of hashlib, which loads a library of ciphers for the others
except ImportError:
    from hashlib import blake2b


def mark_of(content: bytes) -> str:
    """Return what stands for the content of a file: the same content, the same mark."""
    return blake2b(content, digest_size=16).hexdigest()


def record_files(folder: Path, shown: str) -> Iterator[tuple[str, str] | Finding]:
    """Give the record files of a folder by name, each with the name to show; a finding for a folder that is closed."""
    if folder.is_file():
        yield str(folder), shown
        return
    for each in walk(str(folder), shown):
        if isinstance(each, ClosedFolderError):
            says = f"This folder cannot be read: {each.problem.strerror}."
            yield make(codes.UNREADABLE, says, file_start(each.shown))
        else:
            yield each
