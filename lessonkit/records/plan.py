"""A plan: the sequencer's answer to a unit request, which a teacher may edit."""

from typing import Literal

from lessonkit.records.activity import LessonPart
from lessonkit.records.record import Part, Record


class Slot(Part, frozen=True, kw_only=True):
    """An activity in a lesson.

    ``minutes`` of activity follow ``setup`` minutes of getting ready; ``assess`` lists outcome codes checked here.
    ``station`` numbers the stations of a circuit from 1: those of one part run side by side, a squad at each, and every
    squad goes round all of them, with ``minutes`` of work at each and ``setup`` minutes to move there. None outside.
    """

    part: LessonPart
    activity: str
    minutes: int
    setup: int = 0
    assess: tuple[str, ...] = ()
    pinned: bool = False
    station: int | None = None


class Lesson(Part, frozen=True, kw_only=True):
    """One lesson: its number from 1, ISO date, time of day, space, minutes, and what happens in it, in order.

    ``without`` are activities that a teacher took out of it by hand, which stay out when it is planned again.
    """

    lesson: int
    date: str
    at: str
    space: str
    minutes: int
    shape: str
    taught: bool = False
    without: tuple[str, ...] = ()
    activities: tuple[Slot, ...]


class Made(Part, frozen=True, kw_only=True):
    """How a plan came about: program and solver versions, digests of its inputs and its lessons, its worth.

    ``status`` is ``proven`` (no better plan exists) or ``best-found`` (the search ended before the proof). ``cost`` is
    the weighted cost of the wishes given up, ``bound`` the cost that no plan can beat. ``wrote`` has a line for every
    lesson as it was written (space, minutes, activities with their minutes), by which changes by hand are known.
    """

    lessonkit: str
    solver: str
    inputs: str
    lessons: str = ""
    status: Literal["proven", "best-found"]
    cost: int
    bound: int
    wrote: tuple[str, ...] = ()


class Broken(Part, frozen=True, kw_only=True):
    """So many pieces of an item cannot be used any more."""

    item: str
    count: int


class Room(Part, frozen=True, kw_only=True):
    """Another space (by id): on one day (``date``), or from a day on (``first``), or in all lessons."""

    space: str
    date: str | None = None
    first: str | None = None


class Shortened(Part, frozen=True, kw_only=True):
    """The lesson of a day lasts so many minutes."""

    date: str
    minutes: int


class Happened(Part, frozen=True, kw_only=True):
    """What has happened since the unit was asked for, for this plan only.

    ``lost_days`` are days on which the lesson fell out, so that the unit ends a lesson later; ``dropped_days`` are days
    on which it fell out and is not made up for, so that there is a lesson fewer. ``children`` is the new number of
    children, None where it is as the school's record says.
    """

    lost_days: tuple[str, ...] = ()
    dropped_days: tuple[str, ...] = ()
    shortened: tuple[Shortened, ...] = ()
    rooms: tuple[Room, ...] = ()
    children: int | None = None
    broken: tuple[Broken, ...] = ()


class Plan(Record, frozen=True, kw_only=True):
    """The lessons of a unit for one class."""

    unit: str
    school: str
    school_class: str
    made: Made | None = None
    happened: Happened | None = None
    lessons: tuple[Lesson, ...]
