"""An activity assesses an outcome but does not say what to look for.

A teacher with a class list in hand needs a criterion that can be seen. Every outcome that is assessed has an entry of
its own under look_for.

Fails:

    outcomes:
      us-pe-2013:
        S1.E24.3a: [practised, assessed]
    look_for: []

Passes:

    outcomes:
      us-pe-2013:
        S1.E24.3a: [practised, assessed]
    look_for:
      - outcome: S1.E24.3a
        criterion: Three hits in a row go forward.
        i_can: I can hit the ball forward.
"""

from collections.abc import Iterable, Iterator

from lessonkit.outcomes.elementary import elementary_grades
from lessonkit.records.activity import Activity, LookFor
from lessonkit.records.library import Library
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.location import FieldPath

RULE = Rule(Code("LK214", "assessed-without-criterion", Level.ERROR), (Activity,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every assessed outcome that ``look_for`` leaves out where a grade of the outcome is taught.

    A version with criteria of its own needs one only for the outcomes of its grades.
    """
    assert isinstance(record, Activity)
    assessed = [(name, code) for name, codes in record.outcomes.items() for code in codes if "assessed" in codes[code]]
    if not record.versions and _all_looked_for(record, assessed):
        return
    looked_for = {grade: {one.outcome for one in _looked_for(record, grade)} for grade in record.grades.grades}
    for framework, code in assessed:
        for place in _places(record, framework, code, context.library, looked_for):
            says = f"{code} is assessed here, but look_for has no criterion for it."
            yield Fault(place, says, "Add one to look_for.", True)


def _all_looked_for(record: Activity, assessed: Iterable[tuple[str, str]]) -> bool:
    """Tell whether the activity's own criteria leave no assessed outcome out; so it is nearly always."""
    own = {one.outcome for one in record.look_for}
    return all(code in own for _, code in assessed)


def _looked_for(record: Activity, grade: str) -> tuple[LookFor, ...]:
    """Return the criteria that hold for a grade."""
    version = record.version_for(grade)
    return record.look_for if version is None or version.look_for is None else version.look_for


def _places(
    record: Activity, framework: str, code: str, library: Library, looked_for: dict[str, set[str]]
) -> list[FieldPath]:
    """Return where a code lacks its criterion; a code that is not known to be for some grade needs one anywhere.

    A code that its framework does not have is another rule's fault, and its criterion waits for the right one.
    """
    own = record.grades.grades
    lacking = [grade for grade in own if code not in looked_for[grade]]
    known = library.frameworks[framework].by_code.get(code) if framework in library.frameworks else None
    if known is None and framework in library.frameworks and library.frameworks[framework].complete:
        return []
    grades = [grade for grade in own if known is not None and grade in elementary_grades(known)]
    field: FieldPath = ("outcomes", framework, code)
    if not grades:
        return [field] if len(lacking) == len(own) else []
    return sorted({_place(record, grade) or field for grade in lacking if grade in grades}, key=str)


def _place(record: Activity, grade: str) -> FieldPath | None:
    """Return the place of the criteria that a version has for a grade, None where the activity's own hold."""
    version = record.version_for(grade)
    if version is None or version.look_for is None:
        return None
    return ("versions", record.versions.index(version), "look_for")
