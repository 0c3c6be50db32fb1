"""A version is for grades that the activity is not for, or for a grade that another version is for.

A version says what changes for some of the activity's grades. One for other grades is never taught, and of two for the
same grade only the first is.

Fails:

    grades: 3-5
    versions:
      - grades: K-2
        changes: [Use balloons.]

Passes:

    grades: 1-5
    versions:
      - grades: 1-2
        changes: [Use balloons.]
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK216", "version-outside-grades", Level.ERROR), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every version with a grade outside the activity's own, and for a grade with two versions."""
    assert isinstance(record, Activity)
    taken: set[str] = set()
    for number, version in enumerate(record.versions):
        outside = [grade for grade in version.grades.grades if grade not in record.grades]
        if outside:
            says = f"This version is for grade {outside[0]}, but the activity is for {record.grades.named}."
            yield Fault(("versions", number, "grades"), says)
        twice = taken & set(version.grades.grades)
        if twice:
            grade = next(grade for grade in version.grades.grades if grade in twice)
            yield Fault(("versions", number, "grades"), f"There is already a version for grade {grade}.")
        taken |= set(version.grades.grades)
