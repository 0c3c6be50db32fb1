"""A school: its spaces, what is in the cupboard, its classes and its calendar."""

from collections.abc import Mapping
from functools import cached_property
from typing import Literal

from lessonkit.records.measures import Length
from lessonkit.records.record import Part, Record

Day = Literal["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]
Side = Literal["left", "right", "near", "far"]
Cut = Literal["moderate", "vigorous", "any-movement"]
"""From which effort on a minute counts as active: sources differ (walking counts under one rule, not under another)."""


class Door(Part, frozen=True, kw_only=True):
    """A door in one side of a space: ``at`` is its middle, measured from the left or near corner."""

    side: Side
    at: Length
    width: Length


class Space(Part, frozen=True, kw_only=True):
    """A room or field. ``walls`` are the sides with a solid wall that a ball may be played against.

    The length runs from the left side to the right, the width from the near side to the far.
    """

    id: str
    title: str
    length: Length
    width: Length
    where: Literal["indoors", "outdoors"]
    surface: str
    walls: tuple[Side, ...] = ()
    doors: tuple[Door, ...] = ()


class Owned(Part, frozen=True, kw_only=True):
    """How many of an item the school has."""

    item: str
    count: int


class Meeting(Part, frozen=True, kw_only=True):
    """A weekly lesson: day, time of day as ``10:15``, minutes, and the space if it is not the class's usual one."""

    day: Day
    at: str
    minutes: int
    space: str | None = None


class SchoolClass(Part, frozen=True, kw_only=True):
    """A class. ``access_needs`` counts children by need, never by name.

    ``also_grades`` are the further grades of a combined class; what it does must be written for all of its grades.
    """

    id: str
    title: str
    grade: Literal["K", "1", "2", "3", "4", "5"]
    children: int
    space: str
    meets: tuple[Meeting, ...]
    access_needs: dict[str, int] = {}
    also_grades: tuple[Literal["K", "1", "2", "3", "4", "5"], ...] = ()

    @property
    def grades(self) -> tuple[str, ...]:
        """All grades of the class, the one it is taught as first."""
        return (self.grade, *(grade for grade in self.also_grades if grade != self.grade))


class Closure(Part, frozen=True, kw_only=True):
    """Days without lessons, first to last (ISO dates); ``last`` is None for a single day."""

    first: str
    last: str | None = None
    why: str


class Holidays(Part, frozen=True, kw_only=True):
    """Public holidays of a country (ISO 3166 code) or a region of it; ``open`` lists those kept as school days."""

    country: str
    region: str | None = None
    open: tuple[str, ...] = ()


class Calendar(Part, frozen=True, kw_only=True):
    """The school year in ISO dates."""

    first_day: str
    last_day: str
    holidays: Holidays | None = None
    closures: tuple[Closure, ...] = ()


class Look(Part, frozen=True, kw_only=True):
    """The school's own look in Word: ``document`` is its Word file, found from the school's record.

    ``styles`` maps styles of our pages to styles of that file, by name; ``ours`` keeps our own.
    """

    document: str
    styles: dict[str, str] = {}


class School(Record, frozen=True, kw_only=True, dict=True, gc=True):
    """A school. ``routines`` are the standing rules of its gym, for substitutes.

    ``lengths`` is how pages show lengths, ``active_from`` from which effort on they count a minute as active.
    """

    time_zone: str
    lengths: Literal["metres", "feet"] = "metres"
    active_from: Cut = "moderate"
    paper: Literal["letter", "a4"] = "letter"
    spaces: tuple[Space, ...]
    equipment: tuple[Owned, ...]
    classes: tuple[SchoolClass, ...]
    calendar: Calendar
    routines: tuple[str, ...] = ()
    look: Look | None = None

    def space(self, space_id: str) -> Space:
        """Return one of the school's spaces. Raises KeyError for an unknown id."""
        for space in self.spaces:
            if space.id == space_id:
                return space
        raise KeyError(space_id)

    def school_class(self, class_id: str) -> SchoolClass:
        """Return one of the school's classes. Raises KeyError for an unknown id."""
        for school_class in self.classes:
            if school_class.id == class_id:
                return school_class
        raise KeyError(class_id)

    def owned(self, item: str) -> int:
        """Return how many of an item the school has, 0 where it is not listed."""
        return self._stock.get(item, 0)

    @cached_property
    def _stock(self) -> Mapping[str, int]:
        stock: dict[str, int] = {}
        for owned in self.equipment:
            stock[owned.item] = stock.get(owned.item, 0) + owned.count
        return stock
