"""A year request: which units a school's classes have, and what orders them into weeks; and the map that answers it."""

from typing import Literal

from lessonkit.records.record import Part, Record
from lessonkit.records.school import Closure
from lessonkit.records.unit import Weight

YearWish = Literal[
    "even-load",
    "changing-families",
    "few-setups",
    "unbroken",
    "spare-weeks",
    "further-outcomes",
    "something-to-report",
    "few-moves",
]


class YearUnit(Part, frozen=True, kw_only=True):
    """A unit in the year, for all of its classes at the same time.

    ``follows`` are units that must be over before it begins. It begins on ``not_before`` (ISO date) at the earliest, is
    over by ``over_by``, and begins in the week of ``week_of`` where that is given. An ``optional`` unit may be left
    out.
    """

    unit: str
    follows: tuple[str, ...] = ()
    not_before: str | None = None
    over_by: str | None = None
    week_of: str | None = None
    optional: bool = False


class Year(Record, frozen=True, kw_only=True):
    """A year request.

    In the ``quiet`` days no unit begins or ends; on the ``lost`` days there are no lessons; ``reports`` are the days
    (ISO) by which each class should have finished a unit since the last one.
    """

    school: str
    framework: str
    units: tuple[YearUnit, ...]
    quiet: tuple[Closure, ...] = ()
    lost: tuple[Closure, ...] = ()
    reports: tuple[str, ...] = ()
    wishes: dict[YearWish, Weight] = {}


class MappedUnit(Part, frozen=True, kw_only=True):
    """A unit in its weeks: ISO dates of the Monday it begins in, and of the last lesson that any of its classes has."""

    unit: str
    week_of: str
    last: str


class MapMade(Part, frozen=True, kw_only=True):
    """How a map came about: program and solver, digests of its inputs and its units, and its worth, as in a plan."""

    lessonkit: str
    solver: str
    inputs: str
    units: str
    status: Literal["proven", "best-found"]
    cost: int
    bound: int


class YearMap(Record, frozen=True, kw_only=True):
    """The weeks of a year's units. ``left_out`` are optional units that it has no place for."""

    year: str
    school: str
    made: MapMade | None = None
    units: tuple[MappedUnit, ...]
    left_out: tuple[str, ...] = ()
