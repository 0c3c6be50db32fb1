"""An activity lists an outcome of a grade that it is not for.

An activity for grades 2-4 may serve outcomes of grades 2, 3 and 4, not of grade 5: the children who would show it
never do it.

Fails:

    grades: 2-3
    outcomes:
      us-pe-2013:
        S1.E24.5: [practised]

Passes:

    grades: 2-5
    outcomes:
      us-pe-2013:
        S1.E24.5: [practised]
"""

from collections.abc import Iterator

from lessonkit.outcomes.elementary import elementary_grades
from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.codes_of import codes_of
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK213", "outcome-outside-grades", Level.ERROR), (Activity,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every code none of whose grades the activity serves."""
    assert isinstance(record, Activity)
    own = frozenset(record.grades.grades)
    for named in codes_of(record, context.library):
        outcome = named.framework.by_code.get(named.code)
        if outcome is not None and own.isdisjoint(elementary_grades(outcome)):
            grades = f"grade {outcome.grade}, but the activity is for grades {record.grades}"
            says = f"{named.code} is an outcome of {grades}."
            yield Fault(named.field, says, "Change the grades, or take the code away.", named.on_key)
