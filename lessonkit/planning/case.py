"""A problem together with the records it was made from, so that numbers can be put into words."""

from collections.abc import Iterable
from dataclasses import dataclass

from lessonkit.logistics.words import lessons_in_words
from lessonkit.planning.problem import Problem
from lessonkit.planning.said import Said
from lessonkit.records.activity import LessonPart
from lessonkit.records.library import Library
from lessonkit.records.school import School, SchoolClass
from lessonkit.records.unit import Unit
from lessonkit.source.location import FieldPath


@dataclass(frozen=True, slots=True)
class LeftOut:
    """Why an activity cannot be used in some lessons (numbers from 0), with the value that stands in the way.

    ``station`` is True for a reason that counts for stations of circuits only, False for one that does not, None for
    one that always counts.
    """

    activity: str
    code: str
    lessons: tuple[int, ...]
    said: Said
    station: bool | None = None


@dataclass(frozen=True, slots=True)
class TaughtSlot:
    """What was taught: activity id, part, minutes, set-up, outcome codes assessed, the station in a circuit."""

    activity: str
    part: LessonPart
    minutes: int
    setup: int = 0
    assess: tuple[str, ...] = ()
    station: int | None = None


@dataclass(frozen=True, slots=True)
class LessonPlace:
    """A lesson: ISO date, time of day, minutes, space, the number of its shape, and what was taught if it is over."""

    date: str
    at: str
    minutes: int
    space: str
    shape: int
    taught: tuple[TaughtSlot, ...] | None = None


@dataclass(frozen=True, slots=True)
class PlanPin:
    """Where in a plan (by id) a pin comes from that the request does not have; ``by_hand`` for an unpinned edit."""

    plan: str
    field: FieldPath
    by_hand: bool


@dataclass(frozen=True, slots=True)
class Case:
    """A problem with its records.

    ``steps`` are the titles of the levels of each skill, level 1 first. ``faults`` make the request senseless;
    ``notes`` are worth knowing. The last pins of the problem are those of ``plan_pins``, the others are the request's.
    """

    problem: Problem
    library: Library
    unit: Unit
    school: School
    school_class: SchoolClass
    places: tuple[LessonPlace, ...]
    steps: tuple[tuple[str, ...], ...]
    left_out: tuple[LeftOut, ...] = ()
    faults: tuple[Said, ...] = ()
    notes: tuple[Said, ...] = ()
    plan_pins: tuple[PlanPin, ...] = ()

    def activity(self, number: int) -> str:
        """Return the title of an activity of the problem."""
        return self.title(self.problem.choices[number].id)

    def title(self, activity_id: str) -> str:
        """Return the title of an activity by its id, or the id where there is no such record."""
        record = self.library.activities.get(activity_id)
        return activity_id if record is None else record.title

    def outcome(self, number: int) -> str:
        """Return the code of an outcome."""
        return self.problem.outcomes[number]

    def lesson(self, number: int) -> str:
        """Return a lesson as a sentence names it."""
        return f"lesson {number + 1}"

    def part(self, lesson: int, part: int) -> str:
        """Return a part of a lesson as a sentence names it."""
        if part < 0:
            return "any part"
        name = self.problem.lessons[lesson].parts[part].part
        if self.problem.lessons[lesson].parts[part].circuit is not None:
            return f"the circuit of the {name} part"
        return f"the {name}" if name in ("warm-up", "game", "closing") else f"the {name} part"

    def step(self, skill: int, level: int) -> str:
        """Return the title of a skill's step at a level of the problem; levels below 1 are mastered ones."""
        names = self.steps[skill]
        return f"“{names[level - 1]}”" if 1 <= level <= len(names) else "a step that the class has mastered"

    def in_unit(self, field: FieldPath, says: str) -> Said:
        """Place a sentence in the unit request."""
        return Said("unit", self.unit.id, field, says)

    def from_plan(self, pin: int) -> PlanPin | None:
        """Return where in a plan a pin comes from, None for a pin of the request."""
        own = len(self.problem.pins) - len(self.plan_pins)
        return self.plan_pins[pin - own] if pin >= own else None

    def at_pin(self, pin: int, says: str, *field: str) -> Said:
        """Place a sentence at a pin: in the unit request, or in the plan that it comes from."""
        source = self.from_plan(pin)
        if source is None:
            return self.in_unit(("pins", pin, *field), says)
        return Said("plan", source.plan, (*source.field, *field), says)

    def in_lesson(self, lesson: int, says: str) -> Said:
        """Place a sentence about a whole lesson: at its shape in the unit request."""
        return self.in_unit(("shapes", self.problem.lessons[lesson].shape), says)

    def in_skill(self, skill: int, level: int, says: str) -> Said:
        """Place a sentence at a step of a skill."""
        skill_id = self.problem.skills[skill].id
        record = self.library.skills.get(skill_id)
        titles = [step.title for step in record.steps] if record else []
        title = self.steps[skill][level - 1]
        return Said("skill", skill_id, ("steps", titles.index(title)) if title in titles else ("steps",), says)

    def in_activity(self, number: int, field: FieldPath, says: str) -> Said:
        """Place a sentence in an activity."""
        return Said("activity", self.problem.choices[number].id, field, says)

    def bar(self, number: int, lesson: int, code: str) -> Said:
        """Return why an activity cannot be in a lesson."""
        wanted = self.problem.choices[number].id
        for left_out in self.left_out:
            if (left_out.activity, left_out.code) == (wanted, code) and lesson in left_out.lessons:
                return left_out.said
        return self.in_activity(number, (), f"{self.activity(number)} cannot be used in {self.lesson(lesson)}.")


def counted(number: int, noun: str) -> str:
    """Write a number with its noun, in the plural where needed: ``1 lesson``, ``3 activities``."""
    if number == 1:
        return f"1 {noun}"
    return f"{number} {noun[:-1]}ies" if noun.endswith("y") else f"{number} {noun}s"


def lessons_named(numbers: Iterable[int]) -> str:
    """Write lessons (from 0) as a sentence names them: ``lesson 2``, ``lessons 2 and 3``, ``lessons 1 to 4 and 6``."""
    return lessons_in_words([number + 1 for number in sorted(set(numbers))])
