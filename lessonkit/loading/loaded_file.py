"""What became of one file."""

from typing import TYPE_CHECKING, NamedTuple

from lessonkit.source.finding import Finding

if TYPE_CHECKING:
    from lessonkit.loading.remarks import Remark
    from lessonkit.records.library import AnyRecord


class LoadedFile(NamedTuple):
    """What became of a file: its record, None where an error stands in the way, the findings, and its kind if known.

    ``remarks`` are those to the program in its comments.
    """

    record: "AnyRecord | None"
    findings: tuple[Finding, ...]
    kind: str | None = None
    remarks: "tuple[Remark, ...]" = ()
