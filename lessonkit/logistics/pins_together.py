"""Pins that cannot all hold: an activity too often or too soon again, a lesson or a part with too little room."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from lessonkit.logistics.asked_for import Room
from lessonkit.logistics.words import lessons_in_words, listed


class Asked(NamedTuple):
    """A pin: its number, lesson (from 1), activity and title, and the parts of the lesson that it can be in.

    ``shortest`` are the fewest minutes that it takes there with its set-up, 0 where that is not known.
    """

    number: int
    lesson: int
    activity: str
    title: str
    parts: tuple[int, ...]
    shortest: int = 0


class Clash(NamedTuple):
    """Why a pin (by its number) cannot hold beside the others, in a sentence, and a way out."""

    number: int
    says: str
    hint: str


def too_often(pins: Sequence[Asked], most: int, apart: int) -> Iterator[Clash]:
    """Yield what is wrong with activities pinned several times, given how often and how soon they may come back."""
    by_activity: dict[str, list[Asked]] = {}
    for pin in pins:
        by_activity.setdefault(pin.activity, []).append(pin)
    for same in by_activity.values():
        first = {pin.lesson: pin for pin in sorted(same, key=lambda pin: (pin.lesson, pin.number))[::-1]}
        in_order = [first[lesson] for lesson in sorted(first)]
        named = f"{in_order[0].title} is pinned to {lessons_in_words(sorted(first))}"
        if len(in_order) > most:
            says = f"{named}, but may be in {_counted(most, 'lesson')} of the unit at most."
            yield Clash(in_order[most].number, says, "Take a pin away, or let more be in repeats under most.")
        for earlier, later in pairwise(in_order):
            if later.lesson - earlier.lesson <= apart:
                both = lessons_in_words([earlier.lesson, later.lesson])
                says = f"{later.title} is pinned to {both}, but comes back only after {_counted(apart)} without it."
                hint = f"Pin it to lesson {earlier.lesson + apart + 1} or later, or make apart of repeats smaller."
                yield Clash(later.number, says, hint)
        yield from _twice(same)


def _twice(same: Sequence[Asked]) -> Iterator[Clash]:
    """Yield what is wrong where an activity is pinned twice to one lesson, in parts that are not the same."""
    seen: dict[int, frozenset[int]] = {}
    for pin in same:
        common = seen.get(pin.lesson, frozenset(pin.parts)) & frozenset(pin.parts)
        if not common and pin.parts and pin.lesson in seen:
            says = f"{pin.title} is pinned to two parts of lesson {pin.lesson}, but is used once in a lesson."
            yield Clash(pin.number, says, "Take one of the two pins away.")
        elif pin.parts:
            seen[pin.lesson] = common


def too_many(pins: Sequence[Asked], rooms: Sequence[Room]) -> Iterator[Clash]:
    """Yield what is wrong where the pins of one lesson are more than its parts hold."""
    taken: dict[int, list[Asked]] = {}
    for pin in _once(pins):
        seen: set[int] = set()
        if pin.parts and not _seat(pin, taken, rooms, seen):
            there = [each for each in _once(pins) if each.parts and seen.issuperset(each.parts)]
            room = sum(rooms[number].most for number in seen)
            names = listed([f"“{each.title}”" for each in there])
            says = (
                f"Lesson {pin.lesson} holds {_counted(room, 'activity')} in its {_named(seen, rooms)},"
                f" but {len(there)} are pinned to it: {names}."
            )
            yield Clash(pin.number, says, "Pin one of them to another lesson, or let the shape hold more under most.")
            return


def _seat(pin: Asked, taken: dict[int, list[Asked]], rooms: Sequence[Room], seen: set[int]) -> bool:
    """Give a pin a part that has room, moving others on where they can go elsewhere; ``seen`` gathers what is full."""
    for number in pin.parts:
        if number in seen:
            continue
        seen.add(number)
        here = taken.setdefault(number, [])
        if len(here) >= rooms[number].most:
            other = next((each for each in here if _seat(each, taken, rooms, seen)), None)
            if other is None:
                continue
            here.remove(other)
        here.append(pin)
        return True
    return False


def too_long(pins: Sequence[Asked], rooms: Sequence[Room], minutes: int) -> Iterator[Clash]:
    """Yield what is wrong where the pins of one lesson, of so many minutes, leave it or a part of it no time."""
    own = [pin for pin in _once(pins) if pin.parts]
    total = sum(pin.shortest for pin in own)
    if total > minutes:
        says = f"Lesson {own[-1].lesson} lasts {minutes} minutes, but what is pinned to it takes {total} at least"
        yield Clash(own[-1].number, f"{says}, with set-up.", "Pin fewer activities to it, or shorter ones.")
        return
    for number, room in enumerate(rooms):
        there = [pin for pin in own if pin.parts == (number,)]
        total = sum(pin.shortest for pin in there)
        if room.most_minutes is not None and total > room.most_minutes:
            says = (
                f"The {_named({number}, rooms)} of lesson {there[-1].lesson} has {room.most_minutes} minutes at most,"
                f" but what is pinned to it takes {total} at least, with set-up."
            )
            hint = "Pin fewer or shorter activities to it, or give the part more under most_minutes."
            yield Clash(there[-1].number, says, hint)


def _once(pins: Sequence[Asked]) -> list[Asked]:
    """Return pins without those that ask again for the same activity; the narrower of two stays."""
    by_activity: dict[str, Asked] = {}
    for pin in sorted(pins, key=lambda pin: len(pin.parts) or len(pins)):
        by_activity.setdefault(pin.activity, pin)
    return sorted(by_activity.values())


def _named(numbers: set[int], rooms: Sequence[Room]) -> str:
    names = dict.fromkeys(rooms[number].part for number in sorted(numbers))
    plain = [name if name in ("warm-up", "game", "closing") else f"{name} part" for name in names]
    return listed(plain)


def _counted(value: int, noun: str = "lesson") -> str:
    if value == 1:
        return f"1 {noun}"
    return f"{value} {noun[:-1]}ies" if noun.endswith("y") else f"{value} {noun}s"
