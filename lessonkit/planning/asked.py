"""A request as it could be asked instead: changes of its records or of its numbers, alone or together."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from msgspec import structs

from lessonkit.planning.case import Case, LeftOut, LessonPlace, PlanPin
from lessonkit.planning.problem import Bar
from lessonkit.planning.said import Said
from lessonkit.planning.setup import set_up
from lessonkit.records.library import Library
from lessonkit.records.school import School, SchoolClass
from lessonkit.records.unit import Shape, Unit

TAKEN_OUT = "taken-out"
"""The code of a bar that a teacher set by taking an activity out of a lesson by hand."""


@dataclass(frozen=True, slots=True)
class Asked:
    """The records behind a case; ``places`` is None where the timetable is to say them anew."""

    library: Library
    unit: Unit
    school: School
    school_class: SchoolClass
    places: tuple[LessonPlace, ...] | None
    plan_pins: tuple[PlanPin, ...]
    taken_out: tuple[LeftOut, ...] = ()

    def with_unit(self, unit: Unit) -> "Asked":
        """Return it with another request."""
        return replace(self, unit=unit)

    def with_shape(self, number: int, shape: Shape) -> "Asked":
        """Return it with one of the request's shapes replaced."""
        shapes = self.unit.shapes
        return self.with_unit(structs.replace(self.unit, shapes=(*shapes[:number], shape, *shapes[number + 1 :])))

    def with_school(self, school: School) -> "Asked":
        """Return it with another record of the school."""
        library = replace(self.library, schools={**self.library.schools, school.id: school})
        return replace(self, library=library, school=school, school_class=school.school_class(self.school_class.id))


@dataclass(frozen=True, slots=True)
class Change:
    """A change of a request: the sentence that asks for it, its price in points, and what it does.

    ``value`` names what it changes: of several changes of one value only one can be made. ``alone`` is for changes that
    are not offered together with others.
    """

    said: Said
    price: int
    make: Callable[[Asked], Asked]
    value: tuple[object, ...]
    alone: bool = False


def change(said: Said, price: int, make: Callable[[Asked], Asked], *more: object, alone: bool = False) -> Change:
    """Return a change of the value that its sentence stands at; ``more`` tells values at one place apart."""
    return Change(said, price, make, (said.kind, said.record, said.field, *more), alone)


def asked_of(case: Case) -> Asked:
    """Return the records behind a case."""
    bars = tuple(bar for bar in case.left_out if bar.code == TAKEN_OUT)
    return Asked(case.library, case.unit, case.school, case.school_class, case.places or None, case.plan_pins, bars)


def changed(case: Case, changes: Iterable[Change]) -> Case:
    """Set a case up again with changes made; what was taken out of its plan by hand stays out."""
    asked = asked_of(case)
    for each in changes:
        asked = each.make(asked)
    keep = {choice.id for choice in case.problem.choices}
    new = set_up(asked.library, asked.unit, asked.school_class, places=asked.places, keep=keep)
    return without(replace(new, plan_pins=asked.plan_pins), asked.taken_out)


def without(case: Case, bars: Iterable[LeftOut]) -> Case:
    """Keep activities out of lessons."""
    index = {choice.id: number for number, choice in enumerate(case.problem.choices)}
    choices = list(case.problem.choices)
    left_out = list(case.left_out)
    for bar in bars:
        if bar.activity in index:
            choice = choices[index[bar.activity]]
            own = (*choice.bars, Bar(bar.code, frozenset(bar.lessons), bar.station))
            choices[index[bar.activity]] = replace(choice, bars=own)
            left_out.append(bar)
    return replace(case, problem=replace(case.problem, choices=tuple(choices)), left_out=tuple(left_out))
