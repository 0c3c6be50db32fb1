"""Two days that begin and end something stand the wrong way round.

A school year that ends before it begins has no lesson in it, and a break that ends before it begins closes nothing.
A unit that starts after the last day of school has no lesson either.
Most often it is the year that was typed wrong, in January or for the second half of the school year.

Fails:

    calendar:
      first_day: 2026-08-31
      last_day: 2026-06-11

Passes:

    calendar:
      first_day: 2026-08-31
      last_day: 2027-06-11
"""

from collections.abc import Iterable, Iterator

from lessonkit.records.record import Record
from lessonkit.records.school import Closure, School
from lessonkit.records.unit import Unit
from lessonkit.records.year import Year
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.location import FieldPath

RULE = Rule(Code("LK224", "dates-out-of-order", Level.ERROR), (School, Unit, Year))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for what ends before it begins, and for a unit that may not begin before the school year ends."""
    if isinstance(record, School):
        calendar = record.calendar
        if calendar.last_day < calendar.first_day:
            yield _fault(("calendar", "last_day"), "The school year", calendar.last_day, calendar.first_day)
        yield from _closures(("calendar", "closures"), calendar.closures)
    elif isinstance(record, Unit):
        school = context.library.schools.get(record.school)
        first, last = (school.calendar.first_day, school.calendar.last_day) if school else ("", "")
        if first <= last < record.start and school is not None:
            says = f"The unit starts on {record.start}, after the last day of school, {last}."
            yield Fault(("start",), says, "Look at the years of both.", level=Level.WARNING)
    elif isinstance(record, Year):
        yield from _closures(("quiet",), record.quiet)
        yield from _closures(("lost",), record.lost)
        for number, entry in enumerate(record.units):
            if entry.over_by is not None and entry.over_by < (entry.not_before or ""):
                says = f"The time for {entry.unit}"
                yield _fault(("units", number, "over_by"), says, entry.over_by, entry.not_before or "")


def _closures(field: FieldPath, closures: Iterable[Closure]) -> Iterator[Fault]:
    for number, closure in enumerate(closures):
        if closure.last is not None and closure.last < closure.first:
            yield _fault((*field, number, "last"), "This", closure.last, closure.first)


def _fault(field: FieldPath, what: str, last: str, first: str) -> Fault:
    return Fault(field, f"{what} ends on {last}, before it begins on {first}.", "Look at the years of both.")
