"""What is wrong with a plan, edited by hand or not: a sentence at one of its values for each requirement it breaks."""

from datetime import date

from lessonkit.planning.audit import audit
from lessonkit.planning.case import Case
from lessonkit.planning.dates import Timetable, timetable
from lessonkit.planning.happened import inputs_of
from lessonkit.planning.linear import Instance
from lessonkit.planning.read_plan import ReadPlan, read_plan
from lessonkit.planning.registry import BY_CODE
from lessonkit.records.library import Library
from lessonkit.records.plan import Plan
from lessonkit.source.location import FieldPath

Sentence = tuple[FieldPath, str]


def audit_plan(plan: Plan, library: Library) -> tuple[Sentence, ...]:
    """Return what a plan breaks, in the order of its lessons, each with the field of the plan that it is about.

    Raises KeyError where the plan names a unit, school, class or space that the library does not have.
    """
    read = read_plan(plan, library)
    found = [(_place(instance, read), _says(instance, read.case)) for instance in _broken(read)]
    found += _wrong_days(plan, read.case)
    return tuple(sorted(dict.fromkeys(found), key=_reading_order))


def inputs_changed(plan: Plan, library: Library) -> Sentence | None:
    """Say so where the records have changed in a way that matters since the sequencer made a plan; None where not."""
    if plan.made is None:
        return None
    if inputs_of(library, plan) == plan.made.inputs:
        return None
    says = "The records that this plan was made from have changed since; plan the unit again, or check it by eye."
    return ("made", "inputs"), says


def _broken(read: ReadPlan) -> tuple[Instance, ...]:
    return audit(read.schedule, read.case.problem).broken


def _says(instance: Instance, case: Case) -> str:
    return BY_CODE[instance.term].say(instance, case).says


def _place(instance: Instance, read: ReadPlan) -> FieldPath:
    if instance.lesson is None:
        return ("lessons",)
    if instance.position is None:
        return ("lessons", instance.lesson)
    position = read.positions[instance.lesson][instance.position]
    return ("lessons", instance.lesson, "activities", position)


def _wrong_days(plan: Plan, case: Case) -> list[Sentence]:
    dates = timetable(case.unit, case.school, case.school_class)
    found: list[Sentence] = []
    for number, lesson in enumerate(plan.lessons):
        if lesson.taught:
            continue
        why = _not_a_lesson(lesson.date, dates, case)
        if why:
            found.append((("lessons", number, "date"), why))
    return found


def _not_a_lesson(written: str, dates: Timetable, case: Case) -> str | None:
    try:
        day = date.fromisoformat(written)
    except ValueError:
        return f"{written} is not a day of the calendar."
    title = case.school_class.title
    for skipped in dates.skipped:
        if skipped.date == day:
            return f"{title} has no lesson on {written}: {skipped.why}."
    if day.strftime("%w") not in _weekdays(case):
        return f"{title} does not meet on that day of the week ({written})."
    return None


def _weekdays(case: Case) -> set[str]:
    names = ("Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday")
    return {str(names.index(meeting.day)) for meeting in case.school_class.meets}


def _reading_order(sentence: Sentence) -> tuple[int, int, str]:
    path, says = sentence
    lesson = path[1] if len(path) > 1 and isinstance(path[1], int) else -1
    position = path[3] if len(path) > 3 and isinstance(path[3], int) else -1
    return lesson, position, says
