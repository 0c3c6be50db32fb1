"""How a stage of loading gives up on a file: with one finding."""

from lessonkit.source.finding import Code, Finding, Related
from lessonkit.source.location import FieldPath, Location


def make(  # the fields of a finding, with the level its code has
    code: Code,
    says: str,
    location: Location,
    *,
    hint: str | None = None,
    record: str | None = None,
    field: FieldPath = (),
    related: tuple[Related, ...] = (),
    repair: str | None = None,
) -> Finding:
    """Return a finding of a code at its usual level."""
    return Finding(code, code.level, says, location, record, field, hint, related, repair)


class FileFaultError(Exception):
    """A file cannot be read further; ``finding`` says why."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.says)
        self.finding = finding
