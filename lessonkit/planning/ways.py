"""Ways out of a request that has no plan: single changes that give one, the smallest first, each tried by solving."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace

import msgspec

from lessonkit.logistics.equipment import needed, shortages
from lessonkit.planning.build import build
from lessonkit.planning.case import Case, counted, listed
from lessonkit.planning.precheck import span
from lessonkit.planning.problem import Goal, LessonFrame, PartFrame, Problem
from lessonkit.planning.said import Said
from lessonkit.planning.setup import set_up
from lessonkit.planning.solve import feasible_at
from lessonkit.records.activity import SkillStep
from lessonkit.records.school import Owned
from lessonkit.records.unit import Unit


@dataclass(frozen=True, slots=True)
class Way:
    """A change of the request that gives a plan, and its price: what a teacher would give up for it, in points."""

    said: Said
    price: int


_Try = tuple[Said, int, Problem]
_MOST = 5
_STEPS = 3
"""How many more steps of a skill a class is thought to know."""
_EFFORT = 10.0
_BUDGET = 30.0
"""Deterministic effort for all tries together; building a try counts for a little as well."""
_BUILDING = 0.5


def ways_out(case: Case) -> tuple[Way, ...]:
    """Return at most five changes that give a plan, cheapest first. Of several for one value the smallest is named.

    The search for them ends when its effort is spent, so that an answer for a long unit does not keep anyone waiting.
    """
    left = _BUDGET
    found: list[Way] = []
    solved: set[Said | tuple[object, ...]] = set()
    for said, price, changed in sorted(_changes(case), key=lambda change: (change[1], change[0].says)):
        value = (said.kind, said.record, said.field)
        if len(found) == _MOST or left <= 0:
            break
        if value in solved:
            continue
        works, spent = feasible_at(build(changed, kinds=("required",)).model, None, min(_EFFORT, left))
        left -= spent + _BUILDING
        if works:
            found.append(Way(said, price))
            solved.add(value)
    return tuple(found)


def _changes(case: Case) -> Iterator[_Try]:
    yield from _aims(case)
    yield from _repeats(case)
    yield from _moving(case)
    yield from _pins(case)
    yield from _shapes(case)
    yield from _lengths(case)
    yield from _mastered(case)
    yield from _more_lessons(case)
    yield from _exclusions(case)
    yield from _equipment(case)


def _aims(case: Case) -> Iterator[_Try]:
    problem = case.problem
    for number, goal in enumerate(problem.goals):
        code = case.outcome(goal.outcome)
        for practise in range(goal.practise - 1, -1, -1):
            lower = replace(goal, practise=practise)
            says = f"Practise {code} in {counted(practise, 'lesson')} instead of {goal.practise}."
            price = 3 * (goal.practise - practise)
            yield case.in_unit(("aims", number, "practise"), says), price, _with_goal(problem, number, lower)
        for assess in range(goal.assess - 1, -1, -1):
            lower = replace(goal, assess=assess)
            says = f"Assess {code} in {counted(assess, 'lesson')} instead of {goal.assess}."
            price = 4 * (goal.assess - assess)
            yield case.in_unit(("aims", number, "assess"), says), price, _with_goal(problem, number, lower)
        for after in range(goal.after - 1, -1, -1) if goal.assess else ():
            lower = replace(goal, after=after)
            says = f"Assess {code} after {counted(after, 'lesson')} of practice instead of {goal.after}."
            price = 2 * (goal.after - after)
            yield case.in_unit(("aims", number, "after"), says), price, _with_goal(problem, number, lower)


def _with_goal(problem: Problem, number: int, goal: Goal) -> Problem:
    return replace(problem, goals=(*problem.goals[:number], goal, *problem.goals[number + 1 :]))


def _repeats(case: Case) -> Iterator[_Try]:
    problem = case.problem
    for most in range(problem.most + 1, min(problem.most + 4, len(problem.lessons) + 1)):
        says = f"Let an activity come back in {counted(most, 'lesson')} instead of {problem.most}."
        yield case.in_unit(("repeats", "most"), says), 2 * (most - problem.most), replace(problem, most=most)
    for apart in range(problem.apart - 1, -1, -1):
        says = f"Let an activity come back after {counted(apart, 'lesson')} without it instead of {problem.apart}."
        yield case.in_unit(("repeats", "apart"), says), 2 * (problem.apart - apart), replace(problem, apart=apart)


def _moving(case: Case) -> Iterator[_Try]:
    problem = case.problem
    for moving in range((problem.moving - 1) // 5 * 5, -1, -5):
        says = f"Ask for {moving} % of moving time in a lesson instead of {problem.moving} %."
        price = 1 + (problem.moving - moving) // 5
        yield case.in_unit(("moving",), says), price, replace(problem, moving=moving)


def _pins(case: Case) -> Iterator[_Try]:
    problem = case.problem
    for number, pin in enumerate(problem.pins):
        source = case.from_plan(number)
        says = f"Leave out the pin of {case.activity(pin.activity)} to {case.lesson(pin.lesson)}."
        if source and source.by_hand:
            says = f"Take {case.activity(pin.activity)} out of {case.lesson(pin.lesson)} again."
        rest = problem.pins[:number] + problem.pins[number + 1 :]
        yield case.at_pin(number, says), 3, replace(problem, pins=rest)
        if pin.minutes is not None:
            loose = replace(pin, minutes=None)
            pins = (*problem.pins[:number], loose, *problem.pins[number + 1 :])
            says = f"Leave the minutes of {case.activity(pin.activity)} in {case.lesson(pin.lesson)} open."
            yield case.at_pin(number, says, "minutes"), 2, replace(problem, pins=pins)


def _shapes(case: Case) -> Iterator[_Try]:
    problem = case.problem
    for shape in sorted({problem.lessons[lesson].shape for lesson in problem.open_lessons}):
        lessons = [lesson for lesson in problem.open_lessons if problem.lessons[lesson].shape == shape]
        for part, frame in enumerate(problem.lessons[lessons[0]].parts):
            name = f"{case.part(lessons[0], part)} of “{case.unit.shapes[shape].title}”"
            for field, says, price, changed in _part_changes(frame, name):
                place = ("shapes", shape, "parts", part, field)
                yield case.in_unit(place, says), price, _with_part(problem, shape, part, changed)


def _part_changes(frame: PartFrame, name: str) -> Iterator[tuple[str, str, int, PartFrame]]:
    if frame.least:
        fewer = frame.least - 1
        says = f"Ask for {counted(fewer, 'activity')} in {name} instead of {frame.least}."
        yield "least", says, 5, replace(frame, least=fewer)
    more = frame.most + 1
    yield "most", f"Allow {counted(more, 'activity')} in {name} instead of {frame.most}.", 3, replace(frame, most=more)
    if frame.least_minutes is not None or frame.most_minutes is not None:
        field = "least_minutes" if frame.most_minutes is None else "most_minutes"
        free = replace(frame, least_minutes=None, most_minutes=None)
        yield field, f"Leave the minutes of {name} open.", 3, free


def _with_part(problem: Problem, shape: int, part: int, changed: PartFrame) -> Problem:
    def change(frame: LessonFrame) -> LessonFrame:
        if frame.shape != shape or frame.taught is not None:
            return frame
        return replace(frame, parts=(*frame.parts[:part], changed, *frame.parts[part + 1 :]))

    return replace(problem, lessons=tuple(change(frame) for frame in problem.lessons))


def _mastered(case: Case) -> Iterator[_Try]:
    """Take up to three more steps of a skill as known to the class."""
    unit = case.unit
    for number, skill_id in enumerate(unit.skills):
        record = case.library.skills.get(skill_id)
        ids = {step.title: step.id for step in record.steps} if record else {}
        for more, title in enumerate(case.steps[number][:_STEPS], 1):
            known = tuple(each for each in unit.mastered if each.skill != skill_id)
            changed = msgspec.structs.replace(unit, mastered=(*known, SkillStep(skill=skill_id, step=ids[title])))
            says = f"Take the step “{title}” of {record.title if record else skill_id} as mastered."
            yield from _request(case, changed, case.in_unit(("mastered",), says), 3 * more)


def _lengths(case: Case) -> Iterator[_Try]:
    """Make the class's lessons as long as their parts need, where they are too short, or as short where too long."""
    problem = case.problem
    for length in sorted({problem.lessons[lesson].minutes for lesson in problem.open_lessons}):
        lessons = [lesson for lesson in problem.open_lessons if problem.lessons[lesson].minutes == length]
        spans = [span(problem, lesson) for lesson in lessons]
        needed, possible = max(low for low, _ in spans), min(high for _, high in spans)
        if needed <= length <= possible:
            continue
        better = needed if needed > length else possible
        frames = tuple(
            replace(frame, minutes=better) if number in lessons else frame
            for number, frame in enumerate(problem.lessons)
        )
        classes = [each.id for each in case.school.classes]
        field = ("classes", classes.index(case.school_class.id), "meets")
        says = f"Give lessons of {length} minutes {better} minutes."
        price = 4 + abs(better - length)
        yield Said("school", case.school.id, field, says), price, replace(problem, lessons=frames)


def fewer_lessons(case: Case) -> tuple[Way, ...]:
    """Return the way out of a unit that is longer than the school year: as many lessons as there are, if any."""
    wanted, found = case.unit.lessons, len(case.places)
    if wanted is None or not 0 < found < wanted:
        return ()
    return (
        Way(case.in_unit(("lessons",), f"Plan {counted(found, 'lesson')} instead of {wanted}."), 6 * (wanted - found)),
    )


def _more_lessons(case: Case) -> Iterator[_Try]:
    """Add one or two lessons before the last, so that a final lesson stays final."""
    unit, last = case.unit, len(case.places)
    if unit.lessons is None or any(place.taught is not None for place in case.places):
        return
    for more in (1, 2):
        shapes = tuple(
            msgspec.structs.replace(shape, lessons=tuple(n + more if n == last else n for n in shape.lessons))
            if shape.lessons is not None
            else shape
            for shape in unit.shapes
        )
        pins = tuple(
            msgspec.structs.replace(pin, lesson=pin.lesson + more if pin.lesson == last else pin.lesson)
            for pin in unit.pins
        )
        longer = msgspec.structs.replace(unit, lessons=last + more, shapes=shapes, pins=pins)
        says = f"Plan {counted(last + more, 'lesson')} instead of {last}."
        yield from _request(replace(case, places=()), longer, case.in_unit(("lessons",), says), 6 * more)


def _exclusions(case: Case) -> Iterator[_Try]:
    for number, activity in enumerate(case.unit.exclude):
        rest = case.unit.exclude[:number] + case.unit.exclude[number + 1 :]
        said = case.in_unit(("exclude", number), f"Allow {case.title(activity)} again.")
        yield from _request(case, msgspec.structs.replace(case.unit, exclude=rest), said, 4)


def _equipment(case: Case) -> Iterator[_Try]:
    """Get what a single activity is short of, where equipment is all that keeps it out."""
    codes: dict[str, set[str]] = defaultdict(set)
    for bar in case.left_out:
        codes[bar.activity].add(bar.code)
    for activity in sorted(activity for activity, found in codes.items() if found == {"equipment"}):
        record = case.library.activities[activity].for_grade(case.school_class.grade)
        needs = needed(record, case.school_class.children)
        short = [each for each in shortages(needs, case.school, case.library.items) if each.still_short]
        if not short:
            continue
        names = [f"{each.still_short} more {_plural(case, each.item)}" for each in short]
        extra = tuple(Owned(item=each.item, count=each.still_short) for each in short)
        school = msgspec.structs.replace(case.school, equipment=case.school.equipment + extra)
        library = replace(case.library, schools={**case.library.schools, school.id: school})
        said = Said("school", school.id, ("equipment",), f"Get {listed(names)}, for {record.title}.")
        price = 4 + sum(each.still_short for each in short)
        yield from _request(replace(case, library=library, school=school), case.unit, said, price)


def _plural(case: Case, item: str) -> str:
    record = case.library.items.get(item)
    return item if record is None else record.plural


def _request(case: Case, unit: Unit, said: Said, price: int) -> Iterator[_Try]:
    """Set a changed request up, and offer it if it makes sense."""
    changed = set_up(case.library, unit, case.school_class, places=case.places or None)
    if not changed.faults:
        yield said, price, changed.problem
