"""What a check says: one sentence at one place."""

from collections.abc import Iterable
from enum import StrEnum
from typing import NamedTuple

from lessonkit.source.location import FieldPath, Location, field_name


class Level(StrEnum):
    """How much a finding matters: an error stops the work, a warning should be mended, advice may be left."""

    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"


class Code(NamedTuple):
    """A kind of finding: a stable number for machines, a name for people, its usual level.

    The stage or rule that owns the code is the only one to make findings of it.
    """

    number: str
    name: str
    level: Level


class Related(NamedTuple):
    """A second place that helps to understand a finding, with what is there ("first defined here")."""

    location: Location
    says: str


class Tally(NamedTuple):
    """What lets many findings be told as one: how a sentence about all of them begins, and what each adds to it.

    That is a name for the end of the sentence, and how many of what is short are needed for it.
    """

    says: str
    name: str
    number: int


class Finding(NamedTuple):
    """One sentence about one place. ``record`` is the id of the record concerned, where there is one.

    ``repair`` is what must stand at the place instead of the value or name there, where only one thing can be meant.
    """

    code: Code
    level: Level
    says: str
    location: Location
    record: str | None = None
    field: FieldPath = ()
    hint: str | None = None
    related: tuple[Related, ...] = ()
    repair: str | None = None
    tally: Tally | None = None

    @property
    def field_name(self) -> str:
        """The field as a teacher reads it; empty for the record as a whole."""
        return field_name(self.field)


def in_reading_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Sort findings by file, line, column and code, so that every run shows the same order."""
    return tuple(sorted(findings, key=lambda f: (f.location, f.code.number, f.says)))


def has_errors(findings: Iterable[Finding]) -> bool:
    """Tell whether any finding is an error."""
    return any(finding.level is Level.ERROR for finding in findings)
