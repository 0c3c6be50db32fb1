"""A plan: the sequencer's answer to a unit request, which a teacher may edit."""

from typing import Literal

from lessonkit.records.activity import LessonPart
from lessonkit.records.record import Part, Record


class Slot(Part, frozen=True, kw_only=True):
    """An activity in a lesson.

    ``minutes`` of activity follow ``setup`` minutes of getting ready; ``assess`` lists outcome codes checked here.
    """

    part: LessonPart
    activity: str
    minutes: int
    setup: int = 0
    assess: tuple[str, ...] = ()
    pinned: bool = False


class Lesson(Part, frozen=True, kw_only=True):
    """One lesson: its number from 1, ISO date, time of day, space, minutes, and what happens in it, in order."""

    lesson: int
    date: str
    at: str
    space: str
    minutes: int
    shape: str
    taught: bool = False
    activities: tuple[Slot, ...]


class Made(Part, frozen=True, kw_only=True):
    """How a plan came about: program and solver versions, digests of its inputs and its lessons, its worth.

    ``status`` is ``proven`` (no better plan exists) or ``best-found`` (stopped early). ``cost`` is the weighted cost
    of the wishes given up, ``bound`` the cost that no plan can beat.
    """

    lessonkit: str
    solver: str
    inputs: str
    lessons: str = ""
    status: Literal["proven", "best-found"]
    cost: int
    bound: int


class Plan(Record, frozen=True, kw_only=True):
    """The lessons of a unit for one class."""

    unit: str
    school: str
    school_class: str
    made: Made | None = None
    lessons: tuple[Lesson, ...]
