"""What the sequencer works on: numbers and ids only, no records and no sentences.

Lessons, parts, activities, outcomes and skills are known by their position in the problem's tuples, from 0.
Minutes are whole. A moving rate is the share of an activity's minutes that a child moves, in whole percent.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property

from lessonkit.records.activity import CORE_PARTS


@dataclass(frozen=True, slots=True)
class Bounds:
    """How long an activity may run, and its set-up before that, in minutes."""

    least: int
    usual: int
    most: int
    setup: int = 0


@dataclass(frozen=True, slots=True)
class Circuit:
    """A part run as stations: every squad works ``work`` minutes at each and takes ``change`` minutes to move on."""

    work: int
    change: int


@dataclass(frozen=True, slots=True)
class PartFrame:
    """A part of a lesson to fill: how many activities, and in how many minutes (None for no limit), set-up included."""

    part: str
    least: int = 1
    most: int = 1
    least_minutes: int | None = None
    most_minutes: int | None = None
    circuit: Circuit | None = None

    @property
    def is_core(self) -> bool:
        """Whether the part teaches (skill, practice or game)."""
        return self.part in CORE_PARTS


@dataclass(frozen=True, slots=True)
class Placed:
    """An activity in a lesson: the part by position (-1 for one that the lesson's shape does not have).

    ``assess`` lists the outcomes checked here.
    """

    activity: int
    part: int
    minutes: int
    setup: int = 0
    assess: tuple[int, ...] = ()
    pinned: bool = False


@dataclass(frozen=True, slots=True)
class LessonFrame:
    """A lesson to fill, with the number of its shape in the request.

    ``taught`` is what happened in it when it is over: a fact that no requirement judges. ``out`` lists the kinds of
    equipment that a class just before leaves out; None where no class is known there, or nobody asked.
    """

    minutes: int
    parts: tuple[PartFrame, ...]
    shape: int = 0
    taught: tuple[Placed, ...] | None = None
    out: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True)
class Level:
    """A rung of a skill: 1 is the first that the class has still to learn, 0 the last that it has mastered."""

    skill: int
    level: int


@dataclass(frozen=True, slots=True)
class Bar:
    """Lessons in which an activity cannot be, and the code of the reason.

    ``station`` is True for a bar to stations only, False for one to the whole class only, None for both.
    """

    code: str
    lessons: frozenset[int]
    station: bool | None = None


@dataclass(frozen=True, slots=True)
class Choice:
    """An activity that the unit may use.

    ``moving`` is a percentage. ``builds_on`` are activities that must come before it; ``kinds`` the equipment ids it
    puts out; ``effort`` runs from 0 (rest) to 3 (vigorous). As a ``station`` a squad does it: ``station_moving`` is its
    moving rate there, ``station_needs`` lists (stations, item id, count) for every size of circuit, and
    ``station_wide`` the lessons in which it needs the floor of two stations, which one station of a circuit may have.
    """

    id: str
    parts: tuple[str, ...]
    bounds: Bounds
    moving: int = 100
    levels: tuple[Level, ...] = ()
    builds_on: tuple[int, ...] = ()
    practises: tuple[int, ...] = ()
    assesses: tuple[int, ...] = ()
    measured: bool = False
    form: str = "individuals"
    kinds: tuple[str, ...] = ()
    effort: int = 2
    favourite: bool = False
    station: bool = False
    bars: tuple[Bar, ...] = ()
    station_moving: int = 100
    station_needs: tuple[tuple[int, str, int], ...] = ()
    station_wide: tuple[int, ...] = ()

    def barred(self, lesson: int, *, station: bool = False) -> tuple[str, ...]:
        """Return the codes of the reasons why a class (or a squad) cannot do the activity in a lesson."""
        return tuple(bar.code for bar in self.bars if lesson in bar.lessons and bar.station in (None, station))


@dataclass(frozen=True, slots=True)
class Goal:
    """An outcome to reach: practised in ``practise`` lessons, assessed ``assess`` times after ``after`` practices."""

    outcome: int
    practise: int
    assess: int = 0
    after: int = 0


@dataclass(frozen=True, slots=True)
class SkillLine:
    """A skill of the unit: ``levels`` rungs are still to learn that some activity can teach."""

    id: str
    levels: int


@dataclass(frozen=True, slots=True)
class Pinned:
    """An activity asked for in a lesson, in a part if one is named, for so many minutes if they are named."""

    lesson: int
    activity: int
    part: str | None = None
    minutes: int | None = None


@dataclass(frozen=True)
class Problem:
    """A unit to be sequenced.

    ``ranks`` orders activities that share a part: what another builds on has a lower rank. ``most`` and ``apart`` limit
    how often an activity comes back; ``moving`` is the least moving share of a lesson in percent; ``weights`` prices a
    unit of each wish; ``further`` lists outcomes that are welcome besides the goals; ``owned`` says how many of each
    item the school has, for stations to share.
    """

    lessons: tuple[LessonFrame, ...]
    choices: tuple[Choice, ...]
    outcomes: tuple[str, ...] = ()
    goals: tuple[Goal, ...] = ()
    skills: tuple[SkillLine, ...] = ()
    pins: tuple[Pinned, ...] = ()
    further: tuple[int, ...] = ()
    ranks: tuple[int, ...] = ()
    most: int = 2
    apart: int = 1
    moving: int = 50
    retest: bool = True
    weights: dict[str, int] = field(default_factory=dict)
    owned: tuple[tuple[str, int], ...] = ()

    @cached_property
    def open_lessons(self) -> tuple[int, ...]:
        """The lessons still to be filled."""
        return tuple(number for number, frame in enumerate(self.lessons) if frame.taught is None)

    @cached_property
    def pinned_at(self) -> dict[tuple[int, int], Pinned]:
        """Pins by lesson and activity."""
        return {(pin.lesson, pin.activity): pin for pin in self.pins}

    def fits(self, activity: int, part: int, lesson: int) -> bool:
        """Tell whether an activity is written for a part of a lesson, whatever else may bar it."""
        frame = self.lessons[lesson].parts[part]
        choice = self.choices[activity]
        return frame.part in choice.parts and (frame.circuit is None or choice.station)

    def is_circuit(self, part: int, lesson: int) -> bool:
        """Tell whether a part of a lesson (-1 for none of its shape) is a circuit of stations."""
        return part >= 0 and self.lessons[lesson].parts[part].circuit is not None

    def rate(self, activity: int, part: int, lesson: int) -> int:
        """Return the moving rate of an activity in a part of a lesson."""
        choice = self.choices[activity]
        return choice.station_moving if self.is_circuit(part, lesson) else choice.moving

    def barred_at(self, activity: int, lesson: int, part: int | None = None) -> tuple[str, ...]:
        """Return why an activity cannot be in a part of a lesson, or in none of the parts that it is written for."""
        choice = self.choices[activity]
        if part is not None:
            return choice.barred(lesson, station=self.is_circuit(part, lesson))
        parts = [part for part in range(len(self.lessons[lesson].parts)) if self.fits(activity, part, lesson)]
        codes = [self.barred_at(activity, lesson, part) for part in parts] or [choice.barred(lesson)]
        return min(codes, key=len)

    def bounds(self, activity: int, part: int, lesson: int) -> Bounds:
        """Return how long an activity may run in a part of a lesson, circuits and pinned minutes considered."""
        own = self.choices[activity].bounds
        circuit = self.lessons[lesson].parts[part].circuit if part >= 0 else None
        if circuit is not None:
            return Bounds(circuit.work, circuit.work, circuit.work, circuit.change)
        pin = self.pinned_at.get((lesson, activity))
        if pin is not None and pin.minutes is not None:
            return Bounds(pin.minutes, pin.minutes, pin.minutes, own.setup)
        return own

    @cached_property
    def places(self) -> tuple[tuple[int, int, int], ...]:
        """Every (activity, part, lesson) that a plan may use, taught lessons aside, in a fixed order."""
        return tuple(self._find_places())

    def _find_places(self) -> Iterator[tuple[int, int, int]]:
        for activity, choice in enumerate(self.choices):
            for lesson in self.open_lessons:
                forced = (lesson, activity) in self.pinned_at and self.barred_at(activity, lesson)
                for part in range(len(self.lessons[lesson].parts)):
                    station = self.is_circuit(part, lesson)
                    if self.fits(activity, part, lesson) and (forced or not choice.barred(lesson, station=station)):
                        yield activity, part, lesson


Lessons = tuple[tuple[Placed, ...], ...]


@dataclass(frozen=True, slots=True)
class Schedule:
    """What happens in each lesson, in order."""

    lessons: Lessons

    def times(self, activity: int) -> tuple[int, ...]:
        """Return the lessons that an activity is in; a lesson that has it twice counts twice."""
        return tuple(
            number for number, lesson in enumerate(self.lessons) for placed in lesson if placed.activity == activity
        )

    def practising(self, outcome: int, problem: Problem) -> tuple[int, ...]:
        """Return the lessons that practise an outcome."""
        return tuple(
            number
            for number, lesson in enumerate(self.lessons)
            if any(outcome in problem.choices[placed.activity].practises for placed in lesson)
        )
