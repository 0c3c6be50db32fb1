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
from lessonkit.rules.codes_of import NamedCode, codes_of
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK213", "outcome-outside-grades", Level.ERROR), (Activity,))
_FEW = 2
"""Codes that are each said; where there are more, it is rather the grades that are not as they should be."""


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for one or two codes none of whose grades the activity serves; for more, one at its grades."""
    assert isinstance(record, Activity)
    own = frozenset(record.grades.grades)
    outside: list[tuple[NamedCode, str]] = []
    for named in codes_of(record, context.library):
        outcome = named.framework.by_code.get(named.code)
        if outcome is not None and own.isdisjoint(elementary_grades(outcome)):
            outside.append((named, f"{named.code} is an outcome of grade {outcome.grade}"))
    but = f"but the activity is for {record.grades.named}"
    if len(outside) > _FEW:
        says = f"{outside[0][1]}, and {len(outside) - 1} more are of other grades too, {but}."
        yield Fault(("grades",), says, "Change the grades, or take those codes away.")
        return
    for named, says in outside:
        yield Fault(named.field, f"{says}, {but}.", "Change the grades, or take the code away.", named.on_key)
