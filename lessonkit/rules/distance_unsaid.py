"""Something is swung or flies, but the floor keeps no safety distance.

The distance is what keeps a swing or a stray ball from the neighbors. How far is for the teacher and the school's own
rules to say; lessonkit only asks that it is said. A ball that is only rolled, dribbled or carried needs none: that is
read from the steps, cues and ways. Where they leave it open, the finding is a warning.

Fails:

    equipment:
      - {item: short-paddle, count: 1, per: child}
    stop_signal: Two claps.
    floor: {length: 2 m, width: 2 m}

Passes:

    equipment:
      - {item: short-paddle, count: 1, per: child}
    stop_signal: Two claps.
    floor: {length: 2 m, width: 2 m, safety: 1 m}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.equipment import Item
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import Taught, as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.rules.words_of_flight import Flight, flight
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK241", "distance-unsaid", Level.ERROR), (Activity,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for swung equipment, and for what the words let fly, on a floor without a safety distance."""
    assert isinstance(record, Activity)
    for taught in as_taught(record, "equipment", "floor"):
        if taught.activity.floor.safety is not None:
            continue
        needs = [context.library.items.get(need.item) for need in taught.activity.equipment]
        items = [item for item in needs if item is not None and (item.swung or item.thrown)]
        says, level = _says(items, _words(taught)) if items else (None, None)
        if says is not None:
            field = taught.place("floor")
            yield Fault(field, f"{says}, but floor has no safety distance.", _hint(level), True, level)


def _words(taught: Taught) -> Iterator[str]:
    activity = taught.activity
    yield activity.steps
    yield from (*activity.cues, *activity.easier, *activity.harder)
    if taught.version is not None:
        yield from activity.versions[taught.version].changes


def _says(items: list[Item], words: Iterator[str]) -> tuple[str | None, Level | None]:
    """Return what is swung or flies, or may fly; with a level only where that is not sure."""
    swung = next((item for item in items if item.swung), None)
    if swung is not None:
        return f"{_named(swung)} are swung here", None
    known, sentence = flight(words)
    if known is Flight.FLIES:
        return f"{_named(_meant(items, sentence))} are thrown or hit here", None
    if known is Flight.UNSAID:
        return f"{_named(items[0])} may be thrown here", Level.WARNING
    return None, None


def _meant(items: list[Item], sentence: str) -> Item:
    """Return the item whose name stands in a sentence, the first where none does."""
    return next((item for item in items if item.title.split(" (")[0].split()[-1] in sentence), items[0])


def _named(item: Item) -> str:
    return f"{item.plural[0].upper()}{item.plural[1:]}"


def _hint(level: Level | None) -> str:
    add = "Add safety to floor, such as 1 m"
    return f"{add}, or say in the steps how they move." if level else f"{add}."
