"""Station cards: a sheet for the wall at each station, read from across the room, its picture first."""

from collections.abc import Iterator, Sequence
from itertools import product
from typing import Final, NamedTuple

from msgspec import structs

from lessonkit.document.circuit_table import circuits
from lessonkit.document.close_up import CloseUp, Frame, close_up
from lessonkit.document.detail import CountPages
from lessonkit.document.floor_plan import describe, group_scene
from lessonkit.document.keys import activity_key, field_key
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.markdown import read_inline
from lessonkit.document.model import (
    Block,
    Document,
    Drawing,
    Heading,
    PageBreak,
    Paragraph,
    Role,
    Strong,
    plain,
    text,
)
from lessonkit.document.pieces import EN_DASH, NO_BREAK, bound
from lessonkit.document.poster_words import UPRIGHT, lines_of
from lessonkit.records.activity import Activity

_MOST_CUES = 3
_BEAT = f"Beat{NO_BREAK}your{NO_BREAK}best:"


class _Letters(NamedTuple):
    """The letters of the cues, and of what is counted."""

    cues: Role
    what: Role


_LETTERS: Final = (
    _Letters(Role.POSTER_HUGE, Role.POSTER_SMALL),
    _Letters(Role.POSTER_LARGE, Role.POSTER_SMALL),
    _Letters(Role.POSTER, Role.POSTER_SMALL),
    _Letters(Role.POSTER, Role.POSTER_LEAST),
    _Letters(Role.POSTER_SMALL, Role.POSTER_SMALL),
    _Letters(Role.POSTER_SMALL, Role.POSTER_LEAST),
)
_EASY = 4
"""Letters of the cues and of what is counted, largest first, and how many of them have 12 millimetres.

A capital of a cue is 10 to 15 millimetres high, of a count and of words in the picture at least 7.5: a letter's height
of a 200th to a 400th of the distance is read from there, here from 3 metres (common practice, no source).
"""
_LEAST: Final = _Letters(Role.POSTER_LEAST, Role.POSTER_LEAST)
"""The letters of a card that a large letterhead leaves little room."""
_SPARE = "n"
"""What a paragraph is taken to be longer by in letters whose widths are known less well."""
_NO_LOSS, _LOWEST = 0.9, 5
"""The share of its size that a picture keeps at least for that, and how many heights of a frame are tried."""
_HEIGHTS: Final = {"letter": (0.64, 0.58, 0.52, 0.46, 0.4, 0.34, 0.28), "a4": (0.72, 0.66, 0.6, 0.54, 0.48, 0.4, 0.32)}
"""How high the picture's frame is beside its width: the same on all cards, and less only where words need the room."""


def station_cards(facts: PlanFacts, pages: CountPages | None = None, *, own_letters: bool = False) -> Document | None:
    """Return a sheet for every activity of a plan that can be a station; None where there is none.

    With ``pages`` letters are as large as each sheet holds below its picture, with something to spare where they are
    a school's ``own_letters``.
    """
    activities = station_activities(facts)
    if not activities:
        return None
    numbers = station_numbers(facts)
    spare = _SPARE if own_letters else ""
    blocks: list[Block] = []
    for activity in activities:
        card = _fitted(activity, facts, pages, numbers.get(activity.id), spare)
        blocks += [*([PageBreak()] if blocks else []), *card]
    return _sheet(facts, tuple(blocks))


def station_activities(facts: PlanFacts) -> tuple[Activity, ...]:
    """Return the activities of a plan that can be a station, each once, by title."""
    found = {
        slot.activity.id: slot.activity for lesson in facts.lessons for slot in lesson.slots if slot.activity.station
    }
    return tuple(sorted(found.values(), key=lambda activity: activity.title))


def station_numbers(facts: PlanFacts) -> dict[str, int]:
    """Return the numbers of stations in their circuits by activity, where all circuits of the plan agree."""
    found: dict[str, set[int]] = {}
    for lesson in facts.lessons:
        for circuit in circuits(lesson):
            for number, slot in enumerate(circuit, 1):
                found.setdefault(slot.activity.id, set()).add(number)
    return {activity: min(numbers) for activity, numbers in found.items() if len(numbers) == 1}


def _sheet(facts: PlanFacts, blocks: tuple[Block, ...]) -> Document:
    return Document(
        title=f"Station cards: {facts.unit.title}",
        subject=facts.unit.title,
        author=facts.school.title,
        footer=f"{facts.unit.title} {EN_DASH} {facts.school_class.title}",
        date=facts.lessons[0].lesson.date,
        blocks=blocks,
        paper=facts.school.paper,
        about=field_key("plan", facts.plan.id),
    )


def _fitted(
    activity: Activity, facts: PlanFacts, pages: CountPages | None, number: int | None = None, spare: str = ""
) -> tuple[Block, ...]:
    """Lay a card out with its picture as large as on other cards, and with the largest letters beside that.

    Where words need more room, or letters of 12 millimetres would have it and the picture loses nothing, the frame is
    lower.
    """
    pictures = _Pictures(activity, facts)
    says = describe(group_scene(activity, facts.school.lengths))

    def card(height: float, letters: _Letters, spare: str) -> tuple[Block, ...]:
        return _card(activity, Drawing(pictures[height].scene, says), letters, number, spare)

    def fits(height: float, letters: _Letters) -> bool:
        whole = _stays_whole(activity, facts, letters.cues)
        return whole and pages is not None and pages(_sheet(facts, card(height, letters, spare))) == 1

    heights = _HEIGHTS[facts.school.paper]
    if pages is None:
        return card(heights[0], _LETTERS[-1], "")
    fitting = (way for way in _ways(pictures, heights) if fits(*way))
    height, letters = next(fitting, (heights[-1], _LEAST))
    return card(height, letters, "")


def _ways(pictures: "_Pictures", heights: Sequence[float]) -> Iterator[tuple[float, _Letters]]:
    """Yield the heights of a frame and the letters to try, the best first."""
    full = heights[0]
    yield from product((full,), _LETTERS[:_EASY])
    for letters, height in product(_LETTERS[_EASY - 2 : _EASY], heights[1:_LOWEST]):
        if pictures[height].floor >= _NO_LOSS * pictures[full].floor:
            yield height, letters
    yield from product(heights, _LETTERS[_EASY:])
    yield from product(heights[_LOWEST:], (_LEAST,))


class _Pictures(dict[float, CloseUp]):
    """The pictures of an activity by the heights of their frames beside the width, made when they are asked for."""

    def __init__(self, activity: Activity, facts: PlanFacts) -> None:
        bare = structs.replace(activity, floor=structs.replace(activity.floor, safety=None))
        self._scene = group_scene(bare, facts.school.lengths)
        self._width = UPRIGHT[facts.school.paper]

    def __missing__(self, height: float) -> CloseUp:
        self[height] = found = close_up(self._scene, Frame(self._width, self._width * height))
        return found


def _stays_whole(activity: Activity, facts: PlanFacts, role: Role) -> bool:
    """Tell whether no word of the cues is wider than the page."""
    room = UPRIGHT[facts.school.paper]
    return all(lines_of(plain(read_inline(cue)), role, room) is not None for cue in activity.cues[:_MOST_CUES])


def _card(activity: Activity, picture: Drawing, letters: _Letters, number: int | None, spare: str) -> tuple[Block, ...]:
    """Put the title, the picture, the cues and what a child counts below each other, on every card alike.

    Every paragraph ends with ``spare``.
    """
    own = activity.id
    cues = tuple(
        Paragraph(
            (Strong((*bound(cue), *(text(spare) if spare else ()))),), letters.cues, activity_key(own, "cues", place)
        )
        for place, cue in enumerate(activity.cues[:_MOST_CUES])
    )
    before = () if number is None else text(f"{number} {EN_DASH} ")
    title = Heading(
        1,
        (*before, *bound(activity.title), *(text(spare) if spare else ())),
        poster=True,
        key=activity_key(own, "title"),
    )
    return (title, picture, *cues, *_count_to_beat(activity, letters.what, spare))


def _count_to_beat(activity: Activity, role: Role, spare: str) -> tuple[Block, ...]:
    """Say what a child counts or times, where the activity has it."""
    if activity.measured is None:
        return ()
    words = (Strong(text(f"{_BEAT} ")), *bound(f"{activity.measured.what}."), *(text(spare) if spare else ()))
    return (Paragraph(words, role, activity_key(activity.id, "measured", "what")),)
