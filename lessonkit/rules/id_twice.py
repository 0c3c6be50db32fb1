"""An id stands twice in a list: an item of equipment, a space, a class, or a step.

Whoever names the id means one of them; the program would take the first and never tell.

Fails (in a school):

    spaces:
      - {id: gym, title: Gym, length: 22 m, width: 14 m, where: indoors, surface: wood}
      - {id: gym, title: Old gym, length: 18 m, width: 9 m, where: indoors, surface: wood}

Passes:

    spaces:
      - {id: gym, title: Gym, length: 22 m, width: 14 m, where: indoors, surface: wood}
      - {id: old-gym, title: Old gym, length: 18 m, width: 9 m, where: indoors, surface: wood}
"""

from collections.abc import Iterator
from itertools import takewhile

from lessonkit.records.equipment import Catalogue
from lessonkit.records.record import Record
from lessonkit.records.school import School
from lessonkit.records.skill import Skill
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.location import FieldPath

RULE = Rule(Code("LK202", "id-twice", Level.ERROR), (School, Skill, Catalogue))
_Named = tuple[str, str, Record, FieldPath]


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every id that a list, or another equipment catalogue before it, has already."""
    first: dict[tuple[str, str], tuple[Record, FieldPath]] = {}
    for what, name, owner, field in (*_earlier(record, context), *_named(record)):
        seen = first.setdefault((what, name), (owner, field))
        if seen != (owner, field) and owner is record:
            related = ((seen[0], seen[1], "first used here"),)
            yield Fault(field, f"There is already {what} with the id {name!r}.", None, related=related)


def _earlier(record: Record, context: Context) -> Iterator[_Named]:
    """Give the items of the catalogues that were read before a catalogue; theirs are the ones that count."""
    if isinstance(record, Catalogue):
        for catalogue in takewhile(lambda each: each.id != record.id, context.library.catalogues.values()):
            yield from _named(catalogue)


def _named(record: Record) -> Iterator[_Named]:
    lists: tuple[tuple[str, str, tuple[str, ...]], ...] = ()
    match record:
        case Catalogue():
            lists = (("an item", "items", tuple(item.id for item in record.items)),)
        case Skill():
            lists = (("a step", "steps", tuple(step.id for step in record.steps)),)
        case School():
            lists = (
                ("a space", "spaces", tuple(space.id for space in record.spaces)),
                ("a count for the item", "equipment", tuple(owned.item for owned in record.equipment)),
                ("a class", "classes", tuple(school_class.id for school_class in record.classes)),
            )
        case _:
            return
    for what, field, names in lists:
        inner = "item" if field == "equipment" else "id"
        for number, name in enumerate(names):
            yield what, name, record, (field, number, inner)
