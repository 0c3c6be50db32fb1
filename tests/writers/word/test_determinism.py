"""Same document, same bytes."""

import hashlib
import os
import subprocess
import sys
import zipfile
from io import BytesIO
from pathlib import Path

from lessonkit.writers.word.package import Part, archive, pack
from lessonkit.writers.word.writer import write

from ..sample_lesson import binder_document, lesson_document

_PROGRAM = """\
import hashlib, sys
sys.path[:0] = {paths!r}
from {module} import binder_document
from lessonkit.writers.word.writer import write
print(hashlib.sha256(write(binder_document())).hexdigest())
"""


def test_the_same_document_gives_the_same_bytes_whatever_came_before() -> None:
    """Nothing is counted across documents."""
    first = write(binder_document())
    write(lesson_document())

    assert first == write(binder_document())


def test_bytes_depend_on_no_hash_seed_and_no_time_zone() -> None:
    """Three processes with other hash seeds and time zones write the same file as this one."""
    root = Path(__file__).parents[3]
    module = binder_document.__module__
    top = Path(__file__).parents[3] if module.startswith("tests.") else Path(__file__).parents[2]
    program = _PROGRAM.format(paths=[str(root), str(top)], module=module)
    found = set()
    for seed, zone in (("0", "UTC"), ("1", "America/Denver"), ("4242", "Asia/Tokyo")):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone}
        done = subprocess.run(
            [sys.executable, "-c", program], env=environment, capture_output=True, text=True, check=True
        )
        found.add(done.stdout.strip())

    assert {hashlib.sha256(write(binder_document())).hexdigest()} == found


def test_an_archive_carries_no_trace_of_time_or_machine() -> None:
    """The zip module of the standard library reads names in order, 1 January 1980 and system 0 for every part."""
    with zipfile.ZipFile(BytesIO(write(lesson_document()))) as opened:
        entries = opened.infolist()

        assert opened.testzip() is None
    assert "[Content_Types].xml" == entries[0].filename
    assert {((1980, 1, 1, 0, 0, 0), 0)} == {(entry.date_time, entry.create_system) for entry in entries}


def test_parts_that_do_not_shrink_are_stored() -> None:
    """A short part keeps its bytes as they are, a long dull one is packed; both read back whole."""
    packed = archive(map(pack, (Part("short", b"ab"), Part("long", b"a" * 5000), Part("empty", b""))))
    with zipfile.ZipFile(BytesIO(packed)) as opened:
        assert [0, 8, 0] == [entry.compress_type for entry in opened.infolist()]
        assert [b"ab", b"a" * 5000, b""] == [opened.read(name) for name in ("short", "long", "empty")]


def test_no_revision_marks() -> None:
    """Word's random revision numbers are nowhere."""
    with zipfile.ZipFile(BytesIO(write(binder_document()))) as opened:
        assert [] == [name for name in opened.namelist() if b"rsid" in opened.read(name)]
