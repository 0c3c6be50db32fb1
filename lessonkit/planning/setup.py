"""From records to a problem: the class's lessons, the activities it can do, and what the request asks for."""

from collections.abc import Collection
from dataclasses import replace

from lessonkit.logistics.activity_time import active_minutes
from lessonkit.logistics.asked_for import shape_of, usable_parts
from lessonkit.logistics.groups import CannotGroupError
from lessonkit.planning.candidates import Candidates, bases, candidates, lessons_left
from lessonkit.planning.case import Case, LessonPlace, TaughtSlot
from lessonkit.planning.dates import LessonDate, timetable
from lessonkit.planning.eligible import Setting, share_on_floor
from lessonkit.planning.neighbours import left_out_before
from lessonkit.planning.order import ranks
from lessonkit.planning.problem import (
    Bar,
    Bounds,
    Choice,
    Circuit,
    Goal,
    LessonFrame,
    PartFrame,
    Pinned,
    Placed,
    Problem,
    SkillLine,
)
from lessonkit.planning.progression import Progression, Usable, progression
from lessonkit.planning.said import Said
from lessonkit.planning.stations import station_needs, station_share, wide_lessons
from lessonkit.planning.weights import weights
from lessonkit.records.activity import Activity
from lessonkit.records.library import Library
from lessonkit.records.school import SchoolClass
from lessonkit.records.unit import Shape, ShapePart, Unit

EFFORTS = ("rest", "light", "moderate", "vigorous")
"""Efforts by their number in a problem."""
_RATE_GRID = 5


def set_up(
    library: Library,
    unit: Unit,
    school_class: SchoolClass,
    *,
    places: tuple[LessonPlace, ...] | None = None,
    keep: Collection[str] = (),
) -> Case:
    """Build the problem of a unit for a class.

    ``places`` are the lessons to plan, by default those of the timetable. ``keep`` names activities that the problem
    must know although the class cannot do them, because a plan at hand uses them. Faults that make the request
    senseless (a pin beyond the last lesson, a lesson without a shape) are in the case's ``faults``.
    """
    school = library.schools[unit.school]
    dates = timetable(unit, school, school_class)
    if places is None:
        places = tuple(place_of(day, shape_of(unit, number)) for number, day in enumerate(dates.lessons, 1))
    setting = _setting(library, unit, school_class, places)
    faults = dates.faults + _faults(unit, library, len(places))
    wanted = {pin.activity for pin in unit.pins} | set(keep)
    wanted |= {slot.activity for place in places for slot in place.taught or ()}
    found = candidates(setting, wanted)
    levels = progression(unit, library, _teaching(setting, found))
    problem = _problem(setting, places, found, levels)
    titles = _step_titles(setting, levels)
    notes = levels.passed_over
    return Case(problem, library, unit, school, school_class, places, titles, found.left_out, faults, notes)


def _setting(library: Library, unit: Unit, school_class: SchoolClass, places: tuple[LessonPlace, ...]) -> Setting:
    parts = tuple(tuple(part.part for part in unit.shapes[place.shape].parts) for place in places)
    circuits = tuple(_circuits(unit.shapes[place.shape]) for place in places)
    spaces = tuple(place.space for place in places)
    return Setting(library, unit, library.schools[unit.school], school_class, spaces, parts, circuits)


def setting_of(case: Case) -> Setting:
    """Return who is taught in a case, what for, and in which spaces."""
    return _setting(case.library, case.unit, case.school_class, case.places)


def _circuits(shape: Shape) -> tuple[int, ...]:
    return tuple(part.circuit.stations for part in shape.parts if part.circuit is not None)


def _teaching(setting: Setting, found: Candidates) -> list[Usable]:
    """Return the activities that some lesson can use, with the parts that they may fill and what must come before."""
    resolved = {record.id: record for record in found.usable}
    return [
        Usable(record, usable_parts(record, setting.unit), bases(record, setting, resolved))
        for record in found.usable
        if lessons_left(record.id, setting, found.left_out)
    ]


def place_of(day: LessonDate, shape: int) -> LessonPlace:
    """Return the lesson of a date, still to be filled in a shape."""
    return LessonPlace(day.date.isoformat(), day.at, day.minutes, day.space, shape)


def _faults(unit: Unit, library: Library, lessons: int) -> tuple[Said, ...]:
    found: list[Said] = []
    if all(shape.lessons is not None for shape in unit.shapes):
        named = {number for shape in unit.shapes for number in shape.lessons or ()}
        for number in range(1, lessons + 1):
            if number not in named:
                says = f"Lesson {number} has no shape; a shape without lesson numbers is for all other lessons."
                found.append(Said("unit", unit.id, ("shapes",), says))
    for index, pin in enumerate(unit.pins):
        if pin.lesson > lessons:
            says = f"A pin asks for lesson {pin.lesson}, but the unit has {lessons} lessons."
            found.append(Said("unit", unit.id, ("pins", index, "lesson"), says))
        if pin.activity not in library.activities:
            says = f"A pin asks for {pin.activity}, but there is no such activity."
            found.append(Said("unit", unit.id, ("pins", index, "activity"), says))
    return tuple(found)


def _problem(setting: Setting, places: tuple[LessonPlace, ...], found: Candidates, levels: Progression) -> Problem:
    unit = setting.unit
    outcomes = _outcomes(setting, found.usable)
    choices = _choices(setting, found, levels, outcomes)
    index = {choice.id: number for number, choice in enumerate(choices)}
    prices = weights(unit.wishes)
    return Problem(
        lessons=tuple(
            _frame(unit.shapes[place.shape], place, index, outcomes, _out(setting, place, prices)) for place in places
        ),
        choices=choices,
        outcomes=outcomes,
        goals=tuple(Goal(outcomes.index(aim.code), aim.practise, aim.assess, aim.after) for aim in unit.aims),
        skills=tuple(SkillLine(skill, len(steps)) for skill, steps in zip(unit.skills, levels.steps, strict=True)),
        pins=tuple(
            Pinned(pin.lesson - 1, index[pin.activity], pin.part, pin.minutes)
            for pin in unit.pins
            if pin.activity in index and pin.lesson <= len(places)
        ),
        further=_further(setting, choices, outcomes),
        ranks=ranks(choices),
        most=unit.repeats.most,
        apart=unit.repeats.apart,
        moving=unit.moving,
        weights=prices,
        owned=_owned(setting) if any(setting.circuits) else (),
    )


def _out(setting: Setting, place: LessonPlace, prices: dict[str, int]) -> tuple[str, ...] | None:
    if not prices["back-to-back"]:
        return None
    return left_out_before(setting.library, setting.unit, setting.school_class, place)


def _owned(setting: Setting) -> tuple[tuple[str, int], ...]:
    items = sorted({owned.item for owned in setting.school.equipment})
    return tuple((item, setting.school.owned(item)) for item in items)


def _step_titles(setting: Setting, levels: Progression) -> tuple[tuple[str, ...], ...]:
    titles = []
    for skill_id, steps in zip(setting.unit.skills, levels.steps, strict=True):
        skill = setting.library.skills.get(skill_id)
        names = {step.id: step.title for step in skill.steps} if skill else {}
        titles.append(tuple(names[step] for step in steps))
    return tuple(titles)


def _outcomes(setting: Setting, usable: tuple[Activity, ...]) -> tuple[str, ...]:
    """Return the outcome codes that matter: aims first, then what else the activities serve."""
    aims = list(dict.fromkeys(aim.code for aim in setting.unit.aims))
    served = {code for record in usable for code in record.outcomes.get(setting.unit.framework, {})}
    return (*aims, *sorted(served - set(aims)))


def _further(setting: Setting, choices: tuple[Choice, ...], outcomes: tuple[str, ...]) -> tuple[int, ...]:
    """Return the outcomes of the class's grade that are no aims but that some activity practises.

    What only warm-ups with another unit's sticks, paddles or balls would serve is not asked for.
    """
    framework = setting.library.frameworks.get(setting.unit.framework)
    aims = {aim.code for aim in setting.unit.aims}
    if framework is None:
        return ()
    own = {outcome.code for outcome in framework.outcomes if outcome.grade in setting.school_class.grades}
    every = range(len(setting.spaces))
    usable = [
        choice
        for choice in choices
        if not _is_foreign(choice, setting)
        and not all(choice.barred(lesson) and choice.barred(lesson, station=True) for lesson in every)
    ]
    practised = {number for choice in usable for number in choice.practises}
    return tuple(n for n, code in enumerate(outcomes) if code in own - aims and n in practised)


def _is_foreign(choice: Choice, setting: Setting) -> bool:
    """Tell whether an activity trains none of the unit's skills, but how to handle an object in another unit's way."""
    skills = [step.skill for step in setting.library.activities[choice.id].skills]
    families = {setting.library.skills[skill].family for skill in skills if skill in setting.library.skills}
    return "manipulative" in families and not set(skills) & set(setting.unit.skills)


def _choices(setting: Setting, found: Candidates, levels: Progression, outcomes: tuple[str, ...]) -> tuple[Choice, ...]:
    resolved = {record.id: record for record in found.usable}
    index = {record.id: number for number, record in enumerate(found.usable)}
    barred: dict[str, tuple[Bar, ...]] = {}
    for bar in found.left_out:
        barred[bar.activity] = (*barred.get(bar.activity, ()), Bar(bar.code, frozenset(bar.lessons), bar.station))
    choices = []
    for record in found.usable:
        choice = _choice(record, setting, outcomes)
        builds_on = tuple(index[base] for base in bases(record, setting, resolved))
        own = barred.get(record.id, ())
        usable = bool(lessons_left(record.id, setting, found.left_out))
        liked = usable and record.id in setting.unit.favourites
        choices.append(replace(choice, levels=levels.of(record), builds_on=builds_on, bars=own, favourite=liked))
    return tuple(choices)


def _choice(record: Activity, setting: Setting, outcomes: tuple[str, ...]) -> Choice:
    framework = setting.unit.framework
    number = {code: position for position, code in enumerate(outcomes)}
    minutes = record.minutes
    return Choice(
        id=record.id,
        parts=usable_parts(record, setting.unit),
        bounds=Bounds(minutes.least, minutes.usual, minutes.most, minutes.setup),
        moving=_moving_rate(record, setting),
        practises=tuple(sorted(number[code] for code in record.served(framework, "practised"))),
        assesses=tuple(sorted(number[code] for code in record.served(framework, "assessed"))),
        measured=record.measured is not None,
        form=record.organisation.form,
        kinds=tuple(sorted({need.item for need in record.equipment})),
        effort=EFFORTS.index(record.effort),
        station=record.station,
        station_moving=int(station_share(record, setting) * 100 / _RATE_GRID + 1e-9) * _RATE_GRID,
        station_needs=station_needs(record, setting),
        station_wide=wide_lessons(record, setting),
    )


def _moving_rate(activity: Activity, setting: Setting) -> int:
    """Return the share of an activity's minutes that a child moves, in percent, rounded down to a multiple of 5.

    Rounding down keeps the promise of a plan: what children do is never less than what it counts. Where the floor makes
    groups take turns, the tightest of the unit's spaces that it can use counts.
    """
    try:
        share = active_minutes(activity, setting.school_class.children, 1.0, "any-movement")
        floors = [share_on_floor(activity, setting, space) for space in sorted(set(setting.spaces))]
    except CannotGroupError:
        return 0
    share *= min((floor for floor in floors if floor > 0), default=0.0)
    return int(share * 100 / _RATE_GRID + 1e-9) * _RATE_GRID


def _part(part: ShapePart) -> PartFrame:
    if part.circuit is None:
        return PartFrame(part.part, part.least, part.most, part.least_minutes, part.most_minutes)
    stations = part.circuit.stations
    circuit = Circuit(part.circuit.work, part.circuit.change)
    return PartFrame(part.part, stations, stations, part.least_minutes, part.most_minutes, circuit)


def _frame(
    shape: Shape,
    place: LessonPlace,
    index: dict[str, int],
    outcomes: tuple[str, ...],
    out: tuple[str, ...] | None,
) -> LessonFrame:
    parts = tuple(_part(part) for part in shape.parts)
    if place.taught is None:
        return LessonFrame(place.minutes, parts, place.shape, out=out)
    taught = tuple(
        Placed(
            index[slot.activity],
            _position(parts, slot),
            slot.minutes,
            slot.setup,
            tuple(outcomes.index(code) for code in slot.assess if code in outcomes),
        )
        for slot in place.taught
        if slot.activity in index
    )
    return LessonFrame(place.minutes, parts, place.shape, taught)


def _position(parts: tuple[PartFrame, ...], slot: TaughtSlot) -> int:
    """Return the part that a slot was in, -1 where the lesson's shape has no such part."""
    same = [number for number, part in enumerate(parts) if part.part == slot.part]
    alike = [number for number in same if (parts[number].circuit is None) == (slot.station is None)]
    return (alike or same or [-1])[0]
