"""What a rule is, and what it may see."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from types import ModuleType
from typing import NamedTuple

from lessonkit.records.library import Library
from lessonkit.records.record import Record
from lessonkit.source.finding import Code, Level, Tally
from lessonkit.source.location import FieldPath


class Fault(NamedTuple):
    """What a rule found in a record: the field, one sentence, and a hint where the cure is nearly sure.

    With ``on_key`` the field's name is the place rather than its value. ``related`` are further fields of other
    records, each with what is there. ``level`` overrides the rule's own for a milder or graver case.
    ``repair`` is what must stand there instead, where only one thing can be meant. ``tally`` is for faults of which
    there may be very many.
    """

    field: FieldPath
    says: str
    hint: str | None = None
    on_key: bool = False
    level: Level | None = None
    related: tuple[tuple[Record, FieldPath, str], ...] = ()
    repair: str | None = None
    tally: Tally | None = None


@dataclass(frozen=True, slots=True)
class Context:
    """What a rule may look at beside its record.

    ``broken`` are ids whose files could not be read, ``items_known`` tells whether every equipment catalogue could: a
    name that leads to a broken file is not a second fault.
    """

    library: Library
    broken: frozenset[str] = frozenset()
    items_known: bool = True


Check = Callable[[Record, Context], Iterator[Fault]]


class Rule(NamedTuple):
    """A rule's declaration: its code, and the kinds of record it looks at."""

    code: Code
    kinds: tuple[type[Record], ...]


def page(module: ModuleType) -> str:
    """Return a rule's page: what it finds, why it matters, a snippet that fails and one that passes."""
    return (module.__doc__ or "").strip()
