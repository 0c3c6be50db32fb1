"""How much a substitute sheet says: sizes from the roomiest to the tightest, and what a full lesson leaves out."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from lessonkit.document.detail import fullest

Needs = Literal["placed", "counted", "laid", "none"]
"""What is said of an activity's equipment: how much and where it lies, how much, only what lies on the floor."""


@dataclass(frozen=True, slots=True)
class SheetSize:
    """How roomy a sheet is.

    ``cut`` is how many sentences of steps are left out in all. With ``listed`` steps stand one below the other, with
    ``bullets`` routines; with ``close`` an activity takes as few paragraphs as can be. ``cautions`` are the most for an
    activity, ``everyone`` the most changes that let everyone take part, ``cues`` the most to say. ``needs`` is what is
    said of equipment, with ``stations`` what a station is and uses; with ``grade`` what holds for the grade and what
    those do who wait. ``lines`` is the room for what the substitute notes, 0 for a small box.
    """

    cut: int = 0
    listed: bool = True
    bullets: bool = True
    close: bool = False
    cautions: int = 1
    everyone: int = 0
    cues: int = 3
    needs: Needs = "placed"
    stations: bool = True
    grade: bool = True
    lines: int = 2


USUAL = SheetSize(cautions=2)
"""The size of a sheet whose pages nobody counts."""
_MOST_LINES = 12
_WHOLE = (
    *(SheetSize(cautions=6, everyone=4, lines=lines) for lines in range(_MOST_LINES, 2, -1)),
    *(SheetSize(cautions=6, everyone=most) for most in (4, 3, 2, 1)),
    *(SheetSize(cautions=most) for most in (6, 4, 3, 2, 1)),
    SheetSize(lines=0),
    SheetSize(needs="counted", lines=0),
    SheetSize(listed=False, needs="counted", lines=0),
)
"""Sizes with every step whole."""
_RUN_IN = SheetSize(listed=False, lines=0)
_FEWER = replace(_RUN_IN, cues=2, grade=False)
_BARE = replace(_FEWER, bullets=False, needs="laid")
_CLOSE = replace(_BARE, close=True)
_CUT = (
    (0.3, _RUN_IN),
    (0.4, replace(_RUN_IN, cues=2)),
    (0.5, _FEWER),
    (0.6, replace(_FEWER, bullets=False)),
    (0.75, _BARE),
    (0.9, _CLOSE),
    (0.95, replace(_CLOSE, needs="none")),
    (1.0, replace(_CLOSE, needs="none", cues=1)),
    (1.0, replace(_CLOSE, needs="none", cues=1, stations=False)),
    (1.0, replace(_CLOSE, needs="none", cues=0, stations=False)),
)
"""Sizes for full lessons, each with the share of what can be cut that it may leave out."""


def fitting_size(cuts: int, fits: Callable[[SheetSize], bool]) -> SheetSize:
    """Return the roomiest size that fits, the tightest where none does; ``cuts`` is how many sentences may go."""
    found = fullest([*_WHOLE, *(replace(size, cut=round(share * cuts)) for share, size in _CUT)], fits)
    if found in _WHOLE:
        return found
    found = fullest([replace(found, cut=cut) for cut in range(found.cut + 1)], fits)
    return fullest([replace(found, lines=lines) for lines in (3, 2, 1, 0)], fits)


Steps = tuple[int, ...]
"""How many sentences of each step are shown."""


def shorter(steps: Sequence[Sequence[int]]) -> tuple[Steps, ...]:
    """Return how an activity's steps are cut: whole, then ever shorter by a sentence.

    ``steps`` are the lengths of the sentences of each step. The longest step loses its last sentence first, then the
    last steps go; the first step, which says how to begin, is the last to be cut.
    """
    shown = [len(sentences) for sentences in steps]
    found = [tuple(shown)]
    while (place := _next(steps, shown)) is not None:
        shown[place] -= 1
        found.append(tuple(shown))
    return tuple(found)


def _next(steps: Sequence[Sequence[int]], shown: Sequence[int]) -> int | None:
    """Return the step that loses a sentence next, None if none may."""
    long = [place for place, count in enumerate(shown) if place and count > 1]
    if long:
        return max(long, key=lambda place: sum(steps[place][: shown[place]]))
    return max((place for place, count in enumerate(shown) if count), default=None)


class Told(NamedTuple):
    """The lengths of the sentences of each step of an activity, in letters, and its minutes."""

    steps: Sequence[Sequence[int]]
    minutes: int

    def worth_cutting(self, shown: Steps) -> tuple[bool, float]:
        """Return whether more than a sentence is shown, and how much room its steps take for its minutes."""
        said = sum(sum(sentences[:count]) for sentences, count in zip(self.steps, shown, strict=True))
        return sum(shown) > 1, said / (self.minutes + _BESIDES)


_BESIDES = 5
"""Minutes added to those of an activity: the shortest needs some words, too."""


def cut_steps(activities: Sequence[Told], cut: int) -> tuple[Steps, ...]:
    """Return the steps that each activity shows where so many sentences are left out in all, the longest first."""
    ways = [shorter(each.steps) for each in activities]
    at = [0] * len(ways)
    for _ in range(cut):
        left = [place for place in range(len(ways)) if at[place] + 1 < len(ways[place])]
        if not left:
            break
        at[max(left, key=lambda place: activities[place].worth_cutting(ways[place][at[place]]))] += 1
    return tuple(way[place] for way, place in zip(ways, at, strict=True))


def most_cuts(activities: Sequence[Told]) -> int:
    """Return how many sentences may be left out in all."""
    return sum(len(shorter(each.steps)) - 1 for each in activities)
