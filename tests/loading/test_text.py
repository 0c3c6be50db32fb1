"""Bytes to text: encodings, sizes, line ends, and characters that cannot be seen."""

import pytest

from lessonkit.loading.file import load_content
from lessonkit.loading.text import SIZE_LIMIT
from tests.loading.cases import base, told

GOOD = base("skill")


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"], ids=["LF", "CRLF", "CR"])
@pytest.mark.parametrize("start", ["", "\ufeff", "---\n"], ids=["plain", "BOM", "dashes"])
def test_usual_files_are_read(start: str, end: str) -> None:
    """Every usual line end, a byte order mark and opening dashes are taken."""
    loaded = load_content((start + GOOD).replace("\n", end).encode(), "s.yaml")

    assert () == loaded.findings
    assert loaded.record is not None
    assert "Sample skill" == loaded.record.title


def test_byte_order_mark_moves_no_column() -> None:
    """A byte order mark is no character of the first line, as editors count."""
    loaded = load_content("\ufeffkind: plane\n".encode(), "s.yaml")

    assert "s.yaml:1:7" == str(loaded.findings[0].location)


@pytest.mark.parametrize(
    ("encoding", "place", "says"),
    [
        ("utf-16", "1:1", "This file is saved as UTF-16; save it again as UTF-8 in your text editor."),
        ("utf-16-le", "1:1", "This file is saved as UTF-16; save it again as UTF-8 in your text editor."),
        ("utf-16-be", "1:1", "This file is saved as UTF-16; save it again as UTF-8 in your text editor."),
        ("utf-32", "1:1", "This file is saved as UTF-32; save it again as UTF-8 in your text editor."),
        (
            "latin-1",
            "2:8",
            "The character here is not saved as UTF-8; save the file again as UTF-8 in your text editor.",
        ),
        (
            "cp1252",
            "2:8",
            "The character here is not saved as UTF-8; save the file again as UTF-8 in your text editor.",
        ),
    ],
)
def test_other_encodings_are_named(encoding: str, place: str, says: str) -> None:
    """A file in another encoding is told so at its first character that cannot be read."""
    loaded = load_content("kind: skill\ntitle: \u00dcben\n".encode(encoding), "s.yaml")

    assert ((place, "wrong-encoding", says, None, None),) == told(loaded.findings)


def test_largest_file_is_stated() -> None:
    """A file of one byte more than 1 MiB is refused, and told the limit; one byte less is looked at."""
    head = b"kind: plane\n#"
    too_large = load_content(head + b"x" * (SIZE_LIMIT + 1 - len(head)), "s.yaml")
    just = load_content(head + b"x" * (SIZE_LIMIT - len(head)), "s.yaml")

    assert 1024 * 1024 == SIZE_LIMIT
    assert ["file-too-large"] == [found.code.name for found in too_large.findings]
    assert (
        "This file has 1,048,577 bytes; a record file may have 1,048,576 (1 MiB) at most." == too_large.findings[0].says
    )
    assert ["unknown-kind"] == [found.code.name for found in just.findings]


def test_lone_surrogates_are_refused() -> None:
    """Half a character pair cannot be saved in UTF-8 and is refused as such."""
    loaded = load_content("kind: skill\ntitle: \ud800\n".encode("utf-8", "surrogatepass"), "s.yaml")

    assert ["2:8 wrong-encoding"] == [
        f"{found.location.line}:{found.location.column} {found.code.name}" for found in loaded.findings
    ]
