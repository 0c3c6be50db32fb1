"""The outcome codes that a record names, each with its framework and place."""

from collections.abc import Iterator
from typing import NamedTuple

from lessonkit.records.activity import Activity
from lessonkit.records.framework import Framework
from lessonkit.records.library import Library
from lessonkit.records.plan import Plan
from lessonkit.records.record import Record
from lessonkit.records.unit import Unit
from lessonkit.rules.same import for_the_same
from lessonkit.source.location import FieldPath


class NamedCode(NamedTuple):
    """A code as written, the framework it stands under, and its place; ``on_key`` where it is a field's name."""

    framework: Framework
    code: str
    field: FieldPath
    on_key: bool = False


@for_the_same
def codes_of(record: Record, library: Library) -> tuple[NamedCode, ...]:
    """Return the codes of an activity's outcomes, a unit's aims, or what a plan assesses.

    Codes under an unknown framework are left out.
    """
    return tuple(_codes(record, library))


def _codes(record: Record, library: Library) -> Iterator[NamedCode]:
    match record:
        case Activity():
            for name, codes in record.outcomes.items():
                if name in library.frameworks:
                    for code in codes:
                        yield NamedCode(library.frameworks[name], code, ("outcomes", name, code), True)
        case Unit() if record.framework in library.frameworks:
            for number, aim in enumerate(record.aims):
                yield NamedCode(library.frameworks[record.framework], aim.code, ("aims", number, "code"))
        case Plan() if record.unit in library.units:
            framework = library.frameworks.get(library.units[record.unit].framework)
            if framework is not None:
                yield from _assessed(record, framework)
        case _:
            return


def _assessed(plan: Plan, framework: Framework) -> Iterator[NamedCode]:
    for number, lesson in enumerate(plan.lessons):
        for place, slot in enumerate(lesson.activities):
            for index, code in enumerate(slot.assess):
                field: FieldPath = ("lessons", number, "activities", place, "assess", index)
                yield NamedCode(framework, code, field)
