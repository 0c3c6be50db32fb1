"""What a lesson comes to: its clock, groups, equipment, outcomes and moving minutes, ready for any page."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from lessonkit.logistics.activity_time import active_minutes
from lessonkit.logistics.equipment import lesson_need, needed
from lessonkit.logistics.floor import fits, share_of
from lessonkit.logistics.groups import Grouping, group
from lessonkit.logistics.prose_lengths import all_in_feet
from lessonkit.outcomes.elementary import elementary_grades
from lessonkit.planning.happened import after
from lessonkit.records.activity import Activity, How, LookFor, Version
from lessonkit.records.framework import Framework, Outcome
from lessonkit.records.library import Library
from lessonkit.records.plan import Lesson, Plan, Slot
from lessonkit.records.school import Cut, School, SchoolClass, Space
from lessonkit.records.skill import Skill
from lessonkit.records.unit import Unit

WAYS_SAID: Mapping[How, str] = {"introduced": "introduced", "practised": "practiced", "assessed": "checked"}
"""How a lesson serves an outcome, as a page says it."""
_WORKED_ON = ("skill", "practice", "game")
"""Parts that a lesson is named after."""


@dataclass(frozen=True, slots=True)
class SlotFacts:
    """An activity in its place: minutes from the lesson's start, the class's groups, the equipment needed.

    ``activity`` is the version for the class's ``grade``, ``version`` what that changes. The children start at
    ``begins``, after the set-up that starts at ``starts``; they know it from the lesson ``known_from``, if from any.
    ``on_floor`` is the share of the groups that have floor at the same time, and ``by_turns`` says how they share it
    where that is less than all, or a group larger than its area holds.
    """

    slot: Slot
    activity: Activity
    grade: str
    version: Version | None
    starts: int
    begins: int
    ends: int
    grouping: Grouping
    needs: Mapping[str, int]
    known_from: int | None = None
    on_floor: float = 1.0
    by_turns: str | None = None

    @property
    def children(self) -> int:
        """How many do it at a time: the class, or at a station of a circuit its largest squad."""
        return sum(self.grouping.sizes) + self.grouping.rotating_in


@dataclass(frozen=True, slots=True)
class Target:
    """An outcome of a lesson: how it is served, what to look for, and the same in a child's words."""

    code: str
    outcome: Outcome | None
    ways: tuple[How, ...]
    look_for: tuple[LookFor, ...]
    is_aim: bool


@dataclass(frozen=True, slots=True)
class LessonFacts:
    """A lesson worked out for its class.

    ``moving`` is how many minutes an average child moves, ``brisk`` how many of them at
    the effort that its school counts as active, moderate where it says nothing.
    """

    lesson: Lesson
    title: str
    space: Space
    slots: tuple[SlotFacts, ...]
    equipment: tuple[tuple[str, int], ...]
    targets: tuple[Target, ...]
    moving: float
    brisk: float


def brisk_minutes(lesson: LessonFacts) -> str:
    """Return a lesson's brisk minutes as a page says them."""
    return f"{lesson.brisk:.0f}" if round(lesson.brisk) else "none"


@dataclass(frozen=True, slots=True)
class PlanFacts:
    """A plan worked out: everything its documents say about it."""

    plan: Plan
    unit: Unit
    school: School
    school_class: SchoolClass
    framework: Framework
    library: Library
    lessons: tuple[LessonFacts, ...]

    @property
    def outcomes(self) -> Mapping[str, Outcome]:
        """The framework's outcomes by code."""
        return {outcome.code: outcome for outcome in self.framework.outcomes}

    def item_name(self, item: str, count: int) -> str:
        """Return an item's name in the singular or plural; its id where no catalogue lists it."""
        known = self.library.items.get(item)
        if known is None:
            return item
        return known.title if count == 1 else known.plural


def work_out(plan: Plan, library: Library) -> PlanFacts:
    """Work out a plan whose references all resolve, with lengths as its school says them.

    Raises KeyError for one that does not resolve: check the plan first.
    """
    library = _in_lengths_of_school(plan, after(library, plan))
    unit = library.units[plan.unit]
    school = library.schools[plan.school]
    school_class = school.school_class(plan.school_class)
    framework = library.frameworks[unit.framework]
    outcomes = {outcome.code: outcome for outcome in framework.outcomes}
    lessons = tuple(_lesson_facts(lesson, unit, (school, school_class), outcomes, library) for lesson in plan.lessons)
    lessons = _told_apart(tuple(_in_turn(lessons)))
    return PlanFacts(plan, unit, school, school_class, framework, library, lessons)


def _in_turn(lessons: Iterable[LessonFacts]) -> Iterator[LessonFacts]:
    """Yield lessons that know what came before: activities that come again, and outcomes introduced only once."""
    served: set[str] = set()
    done: dict[str, int] = {}
    for lesson in lessons:
        targets = tuple(_known(target) if target.code in served else target for target in lesson.targets)
        slots = tuple(replace(slot, known_from=done.get(slot.activity.id)) for slot in lesson.slots)
        served.update(target.code for target in targets)
        done |= {slot.activity.id: lesson.lesson.lesson for slot in slots}
        yield replace(lesson, targets=targets, slots=slots)


def _known(target: Target) -> Target:
    """Return an outcome that children have met before; one that is only looked at again stays as it is."""
    return replace(target, ways=tuple(way for way in target.ways if way != "introduced") or target.ways)


def _in_lengths_of_school(plan: Plan, library: Library) -> Library:
    """Say lengths in the running words of a plan's records in feet where its school does."""
    school = library.schools[plan.school]
    if school.lengths == "metres":
        return library
    used = {slot.activity for lesson in plan.lessons for slot in lesson.activities}
    return replace(
        library,
        activities={key: all_in_feet(each) if key in used else each for key, each in library.activities.items()},
        items={key: all_in_feet(each) for key, each in library.items.items()},
        skills={key: all_in_feet(each) for key, each in library.skills.items()},
        units={**library.units, plan.unit: all_in_feet(library.units[plan.unit])},
        schools={**library.schools, plan.school: all_in_feet(school)},
    )


def _lesson_facts(
    lesson: Lesson,
    unit: Unit,
    place: tuple[School, SchoolClass],
    outcomes: Mapping[str, Outcome],
    library: Library,
) -> LessonFacts:
    school, school_class = place
    space = school.space(lesson.space)
    slots = tuple(_on_floor(facts, space) for facts in _slots(lesson, school_class, library))
    return LessonFacts(
        lesson=lesson,
        title=_title(slots, [library.skills[skill] for skill in unit.skills]),
        space=space,
        slots=slots,
        equipment=_equipment(slots),
        targets=_targets(slots, unit, outcomes, school_class.grades),
        moving=_active(slots, "any-movement"),
        brisk=_active(slots, school.active_from),
    )


def _active(slots: tuple[SlotFacts, ...], cut: Cut) -> float:
    return sum(
        facts.on_floor * active_minutes(facts.activity, facts.children, facts.slot.minutes, cut) for facts in slots
    )


def _on_floor(facts: SlotFacts, space: Space) -> SlotFacts:
    """Return an activity that knows how many groups of it have floor at once; a station stays within its squad's."""
    floor = facts.activity.floor
    if facts.slot.station is not None:
        return facts
    answer = fits(facts.activity, facts.children, space)
    crowded = floor.most_children is not None and max(facts.grouping.sizes) > floor.most_children
    turns = [floor.if_more] if floor.if_more and (crowded or answer.largest < answer.groups) else []
    if answer.largest < answer.groups:
        who = "children" if facts.activity.organisation.form == "individuals" else "groups"
        turns.insert(0, f"There is floor for {answer.largest} of {answer.groups} {who} at a time.")
    return replace(facts, on_floor=share_of(answer, facts.activity), by_turns=" ".join(turns) or None)


def _slots(lesson: Lesson, school_class: SchoolClass, library: Library) -> tuple[SlotFacts, ...]:
    clock = 0
    facts = []
    for slot in lesson.activities:
        written = library.activities[slot.activity]
        activity = written.for_grade(school_class.grade)
        children = _children_at(slot, lesson, school_class)
        facts.append(
            SlotFacts(
                slot=slot,
                activity=activity,
                grade=school_class.grade,
                version=written.version_for(school_class.grade),
                starts=clock,
                begins=clock + slot.setup,
                ends=clock + slot.setup + slot.minutes,
                grouping=group(activity.organisation, children),
                needs=needed(activity, children),
            )
        )
        clock = facts[-1].ends
    return tuple(facts)


def _children_at(slot: Slot, lesson: Lesson, school_class: SchoolClass) -> int:
    """Return how many do an activity at a time: the class, or at a station its largest squad."""
    if slot.station is None:
        return school_class.children
    stations = sum(other.station is not None and other.part == slot.part for other in lesson.activities)
    return -(-school_class.children // stations)


def stations_of(slots: tuple[SlotFacts, ...]) -> tuple[tuple[SlotFacts, ...], ...]:
    """Return the parts of a lesson that follow each other: one activity, or the stations of a circuit together."""
    parts: list[tuple[SlotFacts, ...]] = []
    for facts in slots:
        before = parts[-1][-1].slot if parts else None
        together = before is not None and None not in (before.station, facts.slot.station)
        if together and before is not None and before.part == facts.slot.part:
            parts[-1] += (facts,)
        else:
            parts.append((facts,))
    return tuple(parts)


def _equipment(slots: tuple[SlotFacts, ...]) -> tuple[tuple[str, int], ...]:
    """Parts follow each other, so the most that any one of them needs is what the lesson needs; stations add up."""
    return tuple(lesson_need([[facts.needs for facts in part] for part in stations_of(slots)]).items())


def _targets(
    slots: tuple[SlotFacts, ...], unit: Unit, outcomes: Mapping[str, Outcome], grades: Sequence[str]
) -> tuple[Target, ...]:
    """Gather the outcomes of the class's own grades, the unit's aims first."""
    aims = tuple(aim.code for aim in unit.aims)
    ways: dict[str, set[How]] = {}
    look_for: dict[str, dict[str, LookFor]] = {}
    for facts in slots:
        for code, given in facts.activity.outcomes.get(unit.framework, {}).items():
            kept = {way for way in given if way != "assessed"}
            ways.setdefault(code, set()).update(kept | ({"assessed"} if code in facts.slot.assess else set()))
        for criterion in facts.activity.look_for:
            look_for.setdefault(criterion.outcome, {}).setdefault(criterion.criterion, criterion)
    order: tuple[How, ...] = ("introduced", "practised", "assessed")
    targets = [
        Target(
            code=code,
            outcome=outcomes.get(code),
            ways=tuple(way for way in order if way in ways[code]),
            look_for=tuple(look_for.get(code, {}).values()),
            is_aim=code in aims,
        )
        for code in ways
        if ways[code] and (code not in outcomes or set(grades) & set(elementary_grades(outcomes[code])))
    ]
    return tuple(sorted(targets, key=lambda t: (not t.is_aim, aims.index(t.code) if t.is_aim else 0, t.code)))


def _title(slots: tuple[SlotFacts, ...], skills: Sequence[Skill]) -> str:
    """Name a lesson after the furthest steps of the unit's skills that its skill, practice and game parts work on."""
    by_id = {skill.id: skill for skill in skills}
    reached: dict[str, int] = {}
    for facts in slots:
        if facts.slot.part not in _WORKED_ON:
            continue
        for place in facts.activity.skills:
            skill = by_id.get(place.skill)
            if skill is None:
                continue
            reached[skill.steps[skill.position(place.step) - 1].title] = skill.position(place.step)
    furthest = sorted(reached, key=lambda title: reached[title])[-2:]
    if not furthest:
        return slots[0].activity.title if slots else "Lesson"
    joint = ", and " if any(" and " in title for title in furthest) else " and "
    return joint.join([furthest[0], *(title[0].lower() + title[1:] for title in furthest[1:])])


def _told_apart(lessons: tuple[LessonFacts, ...]) -> tuple[LessonFacts, ...]:
    """Add to titles that come more than once an activity that only one of these lessons has, where there is one."""
    alike = Counter(lesson.title for lesson in lessons)
    same = {title: [each for each in lessons if each.title == title] for title, count in alike.items() if count > 1}
    owned = ((lesson, _own(lesson, same.get(lesson.title, []))) for lesson in lessons)
    return tuple(replace(lesson, title=f"{lesson.title} ({own})") if own else lesson for lesson, own in owned)


def _own(lesson: LessonFacts, alike: Iterable[LessonFacts]) -> str | None:
    """Return the first game, or else practice or skill, of a lesson that no other of these has; None without one."""
    others = [each for each in alike if each is not lesson]
    known = {slot.activity.id for other in others for slot in other.slots}
    own = [slot for slot in lesson.slots if slot.slot.part in _WORKED_ON and slot.activity.id not in known]
    own.sort(key=lambda slot: _WORKED_ON.index(slot.slot.part), reverse=True)
    return own[0].activity.title if others and own else None
