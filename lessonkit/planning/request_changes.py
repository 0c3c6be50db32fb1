"""Changes of a unit request that could make it possible: its aims, repeats, moving time, pins, skills and length."""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date, timedelta

from msgspec import structs

from lessonkit.planning.asked import TAKEN_OUT, Asked, Change, change
from lessonkit.planning.candidates import bases
from lessonkit.planning.case import Case, LeftOut, counted
from lessonkit.planning.dates import timetable
from lessonkit.planning.kin import kindred
from lessonkit.planning.setup import set_up, setting_of
from lessonkit.records.activity import SkillStep
from lessonkit.records.unit import MOVING, Aim, Pin, Repeats, Unit

_STEPS = 3
"""How many more steps of a skill a class is thought to know."""
_SKILLS = 3
"""How many further skills are tried."""
_TIMES = 6
"""How many more times an activity is let come back."""
_EARLIER = 120
"""Days that a unit is let begin earlier at most."""
_OTHER_AIMS = 2
"""How many other outcomes are tried for an aim that nothing serves."""


def request_changes(case: Case) -> Iterator[Change]:
    """Yield changes of everything in a request but its shapes."""
    yield from _aims(case)
    yield from _other_aims(case)
    yield from _repeats(case)
    yield from _moving(case)
    yield from _pins(case)
    yield from _mastered(case)
    yield from _known_before(case)
    yield from _further_skills(case)
    yield from _exclusions(case)
    yield from _taken_out(case)
    yield from _other_lengths(case)


def _aims(case: Case) -> Iterator[Change]:
    for number, aim in enumerate(case.unit.aims):
        code, place = aim.code, ("aims", number)
        for practise in range(aim.practise - 1, 0, -1):
            says = f"Practice {code} in {counted(practise, 'lesson')} instead of {aim.practise}."
            make = _aim(aim, structs.replace(aim, practise=practise))
            yield change(case.in_unit((*place, "practise"), says), 3 * (aim.practise - practise), make)
        if len(case.unit.aims) > 1:
            price = 3 * aim.practise + 4 * aim.assess
            yield change(case.in_unit((*place, "practise"), f"Leave the aim {code} out."), price, _aim(aim, None))
        for assess in range(aim.assess - 1, -1, -1):
            less = f"Assess {code} in {counted(assess, 'lesson')} instead of {aim.assess}."
            says = less if assess else f"Practice {code} without assessing it."
            make = _aim(aim, structs.replace(aim, assess=assess))
            yield change(case.in_unit((*place, "assess"), says), 4 * (aim.assess - assess), make)
        for after in range(aim.after - 1, -1, -1) if aim.assess else ():
            less = f"Assess {code} after {counted(after, 'lesson')} of practice instead of {aim.after}."
            says = less if after else f"Let {code} be assessed in its first lesson of practice."
            make = _aim(aim, structs.replace(aim, after=after))
            yield change(case.in_unit((*place, "after"), says), 2 * (aim.after - after), make)


def _aim(old: Aim, new: Aim | None) -> Callable[[Asked], Asked]:
    """Return what changes an aim, whatever else of it was changed before; None leaves it out."""

    def make(asked: Asked) -> Asked:
        aims = (_merged(aim, old, new) if aim.code == old.code else aim for aim in asked.unit.aims)
        return asked.with_unit(structs.replace(asked.unit, aims=tuple(aim for aim in aims if aim is not None)))

    return make


def _merged(now: Aim, old: Aim, new: Aim | None) -> Aim | None:
    if new is None:
        return None
    own = {name: getattr(new, name) for name in Aim.__struct_fields__ if getattr(new, name) != getattr(old, name)}
    return structs.replace(now, **own)


def _other_aims(case: Case) -> Iterator[Change]:
    """Aim for another outcome of the grade where no activity serves one: of the same standard, served by most."""
    problem = case.problem
    served = {outcome: sum(outcome in choice.practises for choice in problem.choices) for outcome in problem.further}
    for number, (aim, goal) in enumerate(zip(case.unit.aims, problem.goals, strict=True)):
        if any(goal.outcome in choice.practises for choice in problem.choices):
            continue
        standard = aim.code[:2]
        near = [outcome for outcome in served if case.outcome(outcome)[:2] == standard]
        for outcome in sorted(near, key=lambda each: (-served[each], each))[:_OTHER_AIMS]:
            code, many = case.outcome(outcome), counted(served[outcome], "activity")
            says = f"Aim for {code}, which {many} can practice, instead of {aim.code}."
            made = _aim(aim, structs.replace(aim, code=code))
            yield change(case.in_unit(("aims", number, "code"), says), 5, made)


def _repeats(case: Case) -> Iterator[Change]:
    """Let activities come back more often, or sooner; in a unit of circuits nobody minds a station that comes back."""
    repeats, lessons = case.unit.repeats, len(case.places)
    unsaid = repeats == Repeats()
    circuits = any(part.circuit for shape in case.unit.shapes for part in shape.parts)
    for most in range(repeats.most + 1, min(repeats.most + _TIMES, lessons) + 1):
        says = f"Let an activity come back in {counted(most, 'lesson')} instead of {repeats.most}."
        said = case.in_unit(("repeats", "most"), _written(says, f"repeats: {{most: {most}}}", unsaid))
        more = most - repeats.most
        price = more if circuits else more * (more + 3) // 2
        yield change(said, price, _repeating(most=most))
    for apart in range(repeats.apart - 1, -1, -1):
        less = f"Let an activity come back after {counted(apart, 'lesson')} without it instead of {repeats.apart}."
        says = less if apart else "Let an activity come back in the very next lesson."
        said = case.in_unit(("repeats", "apart"), _written(says, f"repeats: {{apart: {apart}}}", unsaid))
        yield change(said, 2 * (repeats.apart - apart), _repeating(apart=apart))


def _written(says: str, line: str, unsaid: bool) -> str:
    """Say what to write as well, where the request so far is silent about it."""
    return f"{says.rstrip('.')}, with {line}." if unsaid else says


def _repeating(**changes: int) -> Callable[[Asked], Asked]:
    def make(asked: Asked) -> Asked:
        repeats: Repeats = structs.replace(asked.unit.repeats, **changes)
        return asked.with_unit(structs.replace(asked.unit, repeats=repeats))

    return make


def _moving(case: Case) -> Iterator[Change]:
    now = case.unit.moving
    for moving in range((now - 1) // 5 * 5, -1, -5):
        says = f"Ask for {moving}% of moving time in a lesson instead of {now}%."
        says = _written(says, f"moving: {moving}", now == MOVING)
        yield change(case.in_unit(("moving",), says), 1 + (now - moving) // 5, _with_unit(moving=moving))


def _with_unit(**changes: object) -> Callable[[Asked], Asked]:
    def make(asked: Asked) -> Asked:
        unit: Unit = structs.replace(asked.unit, **changes)
        return asked.with_unit(unit)

    return make


def _pins(case: Case) -> Iterator[Change]:
    for number, pin in enumerate(case.unit.pins):
        source = case.from_plan(number)
        says = f"Leave out the pin of {case.title(pin.activity)} to {case.lesson(pin.lesson - 1)}."
        if source and source.by_hand:
            says = f"Take {case.title(pin.activity)} out of {case.lesson(pin.lesson - 1)} again."
        yield change(case.at_pin(number, says), 3, _pin(pin, None))
        if pin.minutes is not None:
            says = f"Leave the minutes of {case.title(pin.activity)} in {case.lesson(pin.lesson - 1)} open."
            yield change(case.at_pin(number, says, "minutes"), 2, _pin(pin, structs.replace(pin, minutes=None)))


def _pin(old: Pin, new: Pin | None) -> Callable[[Asked], Asked]:
    """Return what changes a pin, of the request or of a plan; None leaves it out."""

    def make(asked: Asked) -> Asked:
        pins, sources = list(asked.unit.pins), list(asked.plan_pins)
        places = [number for number, pin in enumerate(pins) if (pin.lesson, pin.activity) == (old.lesson, old.activity)]
        if not places:
            return asked
        number, own = places[0], len(pins) - len(sources)
        pins[number : number + 1] = () if new is None else (new,)
        if new is None and number >= own:
            del sources[number - own]
        return replace(asked.with_unit(structs.replace(asked.unit, pins=tuple(pins))), plan_pins=tuple(sources))

    return make


def _mastered(case: Case) -> Iterator[Change]:
    """Take up to three more steps of a skill as known to the class."""
    for number, skill_id in enumerate(case.unit.skills):
        record = case.library.skills.get(skill_id)
        ids = {step.title: step.id for step in record.steps} if record else {}
        for more, title in enumerate(case.steps[number][:_STEPS], 1):
            said = case.in_unit(("mastered",), _if_known(title, record.title if record else skill_id))
            yield change(said, 3 * more, _knowing(skill_id, ids[title]), skill_id)


def _if_known(step: str, skill: str) -> str:
    return f"If the class has mastered the step “{step}” of {skill}, say so under mastered."


def _knowing(skill: str, step: str) -> Callable[[Asked], Asked]:
    def make(asked: Asked) -> Asked:
        known = tuple(each for each in asked.unit.mastered if each.skill != skill)
        mastered = (*known, SkillStep(skill=skill, step=step))
        return asked.with_unit(structs.replace(asked.unit, mastered=mastered))

    return make


def _known_before(case: Case) -> Iterator[Change]:
    """Take a step of a skill outside the unit as known, where activities of the unit build on one that trains it."""
    setting = setting_of(case)
    grade, skills = case.school_class.grade, case.library.skills
    resolved = {key: record.for_grade(grade) for key, record in case.library.activities.items()}
    outside = {bar.activity for bar in case.left_out if bar.code == "skill"}
    waiting = sorted({bar.activity for bar in case.left_out if bar.code == "builds-on"})
    wanted: dict[tuple[str, str], int] = {}
    for activity in waiting:
        if set(case.unit.skills) & {step.skill for step in resolved[activity].skills}:
            for base in outside & set(bases(resolved[activity], setting, resolved)):
                for step in resolved[base].skills:
                    if step.skill in skills:
                        wanted[step.skill, step.step] = wanted.get((step.skill, step.step), 0) + 1
    for skill_id, step_id in sorted(wanted):
        skill = skills[skill_id]
        title = next((step.title for step in skill.steps if step.id == step_id), step_id)
        yield change(
            case.in_unit(("mastered",), _if_known(title, skill.title)), 3, _knowing(skill_id, step_id), skill_id
        )


def _further_skills(case: Case) -> Iterator[Change]:
    """Let the unit train another skill as well, the nearest of kin first."""
    skills = case.library.skills
    near = kindred(case.library, case.unit.skills, case.school_class.grades)[:_SKILLS]
    wanted = [skill for skill in _skills_for_aims(case) if skill not in near]
    for rank, skill in enumerate((*wanted[:_SKILLS], *near)):
        says = f"Let the unit train {skills[skill].title} as well."
        yield change(case.in_unit(("skills",), says), 6 + rank, _training(skill), skill)


def _skills_for_aims(case: Case) -> list[str]:
    """Return the skills of activities that practise an aim which nothing in the unit does, those with most first."""
    problem, framework, grades = case.problem, case.unit.framework, case.school_class.grades
    served = {outcome for choice in problem.choices for outcome in choice.practises}
    unserved = {case.outcome(goal.outcome) for goal in problem.goals if goal.outcome not in served}
    found: Counter[str] = Counter()
    for record in case.library.activities.values():
        if unserved & set(record.served(framework, "practised")) and all(grade in record.grades for grade in grades):
            found.update({step.skill for step in record.skills} - set(case.unit.skills))
    return sorted((skill for skill in found if skill in case.library.skills), key=lambda each: (-found[each], each))


def _training(skill: str) -> Callable[[Asked], Asked]:
    def make(asked: Asked) -> Asked:
        return asked.with_unit(structs.replace(asked.unit, skills=(*asked.unit.skills, skill)))

    return make


def _exclusions(case: Case) -> Iterator[Change]:
    for number, activity in enumerate(case.unit.exclude):
        said = case.in_unit(("exclude", number), f"Allow {case.title(activity)} again.")
        yield change(said, 4, _allowing(activity))


def _allowing(activity: str) -> Callable[[Asked], Asked]:
    def make(asked: Asked) -> Asked:
        rest = tuple(each for each in asked.unit.exclude if each != activity)
        return asked.with_unit(structs.replace(asked.unit, exclude=rest))

    return make


def _taken_out(case: Case) -> Iterator[Change]:
    """Put back what was taken out of a lesson by hand."""
    for bar in case.left_out:
        if bar.code == TAKEN_OUT:
            says = f"Let {case.title(bar.activity)} be in {case.lesson(bar.lessons[0])} again."
            yield change(replace(bar.said, says=says), 3, _putting_back(bar), bar.activity)


def _putting_back(bar: LeftOut) -> Callable[[Asked], Asked]:
    def make(asked: Asked) -> Asked:
        return replace(asked, taken_out=tuple(each for each in asked.taken_out if each != bar))

    return make


def _other_lengths(case: Case) -> Iterator[Change]:
    """Plan one or two lessons more, or fewer; they come before the last, so that a final lesson stays final.

    Only where the lessons are those of the timetable: a plan that was begun or changed keeps its days.
    """
    unit, last = case.unit, len(case.places)
    if unit.lessons is None or set_up(case.library, unit, case.school_class).places != case.places:
        return
    for lessons in (last + 1, last + 2, *range(last - 1, last // 2, -1)):
        pinned = all(pin.lesson == last or pin.lesson < lessons for pin in unit.pins)
        shaped = all(_kept(shape.lessons, last, lessons) != () for shape in unit.shapes)
        if pinned and shaped and lessons > 0:
            price = 8 * (lessons - last) if lessons > last else 3 * (last - lessons)
            says = f"Plan {counted(lessons, 'lesson')} instead of {last}."
            yield change(case.in_unit(("lessons",), says), price, _lasting(last, lessons), lessons > last, alone=True)


def _kept(numbers: tuple[int, ...] | None, last: int, lessons: int) -> tuple[int, ...] | None:
    """Return the lessons of a shape in a unit of another length, whose last lesson is still the last."""
    if numbers is None:
        return None
    return tuple(lessons if n == last else n for n in numbers if n == last or n < lessons or lessons > last)


def _lasting(last: int, lessons: int) -> Callable[[Asked], Asked]:
    def make(asked: Asked) -> Asked:
        unit = asked.unit
        shapes = tuple(structs.replace(shape, lessons=_kept(shape.lessons, last, lessons)) for shape in unit.shapes)
        pins = tuple(structs.replace(pin, lesson=lessons if pin.lesson == last else pin.lesson) for pin in unit.pins)
        unit = structs.replace(unit, lessons=lessons, shapes=shapes, pins=pins)
        return replace(asked.with_unit(unit), places=None)

    return make


def other_dates(case: Case, wanted: int, found: int) -> Iterator[Change]:
    """Begin a unit early enough for its lessons before the school year ends, or plan as many as there are."""
    unit, missing = case.unit, wanted - found
    first = date.fromisoformat(unit.start)
    for days in range(1, _EARLIER + 1):
        start = (first - timedelta(days=days)).isoformat()
        dates = timetable(structs.replace(unit, start=start), case.school, case.school_class)
        if not dates.faults and dates.lessons[0].date.isoformat() == start:
            says = f"Begin on {start} instead of {unit.start}."
            yield change(case.in_unit(("start",), says), 2 * missing, _starting(start), alone=True)
            break
    if found:
        says = f"Plan {counted(found, 'lesson')} instead of {wanted}."
        yield change(case.in_unit(("lessons",), says), 6 * missing, _lasting(wanted, found), alone=True)


def _starting(start: str) -> Callable[[Asked], Asked]:
    def make(asked: Asked) -> Asked:
        return replace(asked.with_unit(structs.replace(asked.unit, start=start)), places=None)

    return make
