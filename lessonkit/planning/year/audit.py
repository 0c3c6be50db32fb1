"""The second opinion on every year map: no solver, only the terms' own measures; for a map's file, in sentences."""

from collections.abc import Iterator
from datetime import date, timedelta

from lessonkit.planning.audit import Audit
from lessonkit.planning.linear import Instance
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import Span, YearProblem, YearSchedule
from lessonkit.planning.year.registry import BY_CODE, TERMS
from lessonkit.planning.year.setup import set_up_year
from lessonkit.planning.year.worth import inputs_digest
from lessonkit.records.library import Library
from lessonkit.records.unit import Unit
from lessonkit.records.year import YearMap
from lessonkit.source.location import FieldPath

Sentence = tuple[FieldPath, str]


def audit_year(schedule: YearSchedule, problem: YearProblem) -> Audit:
    """Measure a schedule against every term that applies."""
    broken: list[Instance] = []
    given_up: list[Instance] = []
    for term in TERMS:
        if term.applies(problem):
            (broken if term.kind == "required" else given_up).extend(term.measure(schedule, problem))
    cost = sum(problem.weights[instance.term] * instance.amount for instance in given_up)
    return Audit(tuple(broken), tuple(given_up), cost)


def case_of(found: YearMap, library: Library) -> YearCase:
    """Return the case of a map's year.

    Raises KeyError where the year names a school or unit that the library does not have.
    """
    return set_up_year(library, library.years[found.year])


def audit_map(found: YearMap, case: YearCase) -> tuple[Sentence, ...]:
    """Return what a map breaks, each sentence with the field of the map that it is about."""
    wrong = list(_wrong_days(found, case))
    if wrong:
        return tuple(wrong)
    schedule = read_map(found, case)
    return tuple(
        (_place(instance, found, case), BY_CODE[instance.term].say(instance, case).says)
        for instance in audit_year(schedule, case.problem).broken
    )


def map_outdated(found: YearMap, case: YearCase) -> Sentence | None:
    """Say so where the year's records have changed in a way that matters since a map was made; None where not."""
    if found.made is None:
        return None
    if inputs_digest(case) == found.made.inputs:
        return None
    return ("made", "inputs"), "The records that this map was made from have changed since; map the year again."


def other_starts(found: YearMap, library: Library) -> Iterator[tuple[Unit, str, str]]:
    """Yield every unit whose start is in another week than a map has it: the unit, the right start, a sentence."""
    first_day = date.fromisoformat(library.schools[found.school].calendar.first_day)
    for each in found.units:
        unit = library.units[each.unit]
        start, monday = date.fromisoformat(unit.start), date.fromisoformat(each.week_of)
        if start - timedelta(days=start.weekday()) != monday:
            says = f"The unit starts on {unit.start}, but {found.title!r} has it in the week of {each.week_of}."
            yield unit, max(monday, first_day).isoformat(), says


def read_map(found: YearMap, case: YearCase) -> YearSchedule:
    """Return the schedule of a map: each unit in the weeks from its Monday to its last lesson."""
    spans: list[Span | None] = [None] * len(case.problem.blocks)
    ids = [block.id for block in case.problem.blocks]
    for each in found.units:
        first = _week(each.week_of, case)
        spans[ids.index(each.unit)] = Span(first, _week(each.last, case))
    return YearSchedule(tuple(spans))


def _week(day: str, case: YearCase) -> int:
    return (date.fromisoformat(day) - case.mondays[0]).days // 7


def _wrong_days(found: YearMap, case: YearCase) -> list[Sentence]:
    """Return a sentence for every unit whose Monday or last lesson is not as the calendar has it."""
    ids = [block.id for block in case.problem.blocks]
    wrong: list[Sentence] = []
    for number, each in enumerate(found.units):
        path: FieldPath = ("units", number)
        title = case.library.units[each.unit].title
        week = _week(each.week_of, case)
        lasts = case.lasts[ids.index(each.unit)]
        if date.fromisoformat(each.week_of).weekday():
            wrong.append(((*path, "week_of"), f"{each.week_of} is not a Monday."))
        elif week not in lasts:
            wrong.append(((*path, "week_of"), f"{title} cannot begin in that week and still end before summer."))
        elif lasts[week].isoformat() != each.last:
            says = f"If {title} begins in the week of {each.week_of}, its last lesson is on {lasts[week]}."
            wrong.append(((*path, "last"), says))
    return wrong


def _place(instance: Instance, found: YearMap, case: YearCase) -> FieldPath:
    """Return the map's unit that an instance is about, where it is about one."""
    if instance.term in ("room", "week-load"):
        return ("units",)
    block = (
        instance.position
        if instance.term == "quiet-weeks"
        else int(instance.key[-1 if instance.term == "follows" else 0])
    )
    wanted = case.problem.blocks[block or 0].id
    places = [number for number, each in enumerate(found.units) if each.unit == wanted]
    return ("units", places[0]) if places else ("units",)
