"""Findings and remarks in plain values, to be kept, and back."""

from typing import Any

from lessonkit.loading.remarks import Remark
from lessonkit.source.finding import Code, Finding, Level, Related, Tally
from lessonkit.source.location import Location

Plain = tuple[Any, ...]


def plain(finding: Finding) -> Plain:
    """Return a finding in plain values."""
    code = finding.code
    return (
        (code.number, code.name, code.level.value),
        finding.level.value,
        finding.says,
        _spot(finding.location),
        finding.record,
        finding.field,
        finding.hint,
        tuple((_spot(one.location), one.says) for one in finding.related),
        finding.repair,
        finding.tally and tuple(finding.tally),
    )


def finding_of(kept: Plain) -> Finding:
    """Return the finding that plain values stand for."""
    (number, name, usual), level, says, spot, record, field, hint, related, repair, tally = kept
    return Finding(
        Code(number, name, Level(usual)),
        Level(level),
        says,
        Location(*spot),
        record,
        field,
        hint,
        tuple(Related(Location(*there), words) for there, words in related),
        repair,
        tally and Tally(*tally),
    )


def plain_remark(remark: Remark) -> Plain:
    """Return a remark in plain values."""
    return remark.says, _spot(remark.location), remark.line


def remark_of(kept: Plain) -> Remark:
    """Return the remark that plain values stand for."""
    says, spot, line = kept
    return Remark(says, Location(*spot), line)


def _spot(place: Location) -> Plain:
    return place.path, place.line, place.column, place.end_line, place.end_column
