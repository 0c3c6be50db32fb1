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

from lessonkit.outcomes.look_up import Known, elementary_grades, look_up
from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.codes_of import codes_of
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK213", "outcome-outside-grades", Level.ERROR), (Activity,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every code whose grades the activity does not serve."""
    assert isinstance(record, Activity)
    for framework, code, field in codes_of(record, context.library):
        answer = look_up(framework, code)
        if isinstance(answer, Known) and not set(elementary_grades(answer.outcome)) & set(record.grades.grades):
            says = (
                f"{code} is an outcome of grade {answer.outcome.grade}, but the activity is for grades {record.grades}."
            )
            yield Fault(field, says, None, True)
