"""How much a page shows: the most that fits its sheets, chosen with the help of whoever counts pages."""

from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import NamedTuple, TypeVar

from lessonkit.document.model import Document


class Cut(NamedTuple):
    """Where a page ends inside an activity: its place in the lesson, and how many of its paragraphs stand before.

    A cut behind the last of them leaves the activity whole.
    """

    place: int
    after: int


class Packing(NamedTuple):
    """How closely a lesson is set whose steps need more than a sheet.

    ``timetable`` says who is at which station of a circuit, as its sheet for the wall does too. ``stations`` runs in
    the steps of stations; ``close`` those of every activity, cues behind its groups. ``left_out`` is how many steps of
    stations in all, the last ones of the longest, are left to the activities' cards in the binder.
    """

    timetable: bool = True
    stations: bool = False
    close: bool = False
    left_out: int = 0


ROOMY, CLOSE = Packing(), Packing(False, stations=True, close=True)
PACKINGS = (ROOMY, CLOSE)
"""How a lesson may be set, the roomiest first."""
CIRCUIT_PACKINGS = (
    ROOMY,
    Packing(timetable=False),
    Packing(False, stations=True),
    *(CLOSE._replace(left_out=steps) for steps in range(25)),
)
"""The same for a lesson with a circuit."""

CountPages = Callable[[Document], int]
"""Returns the number of pages that a document takes, as one writer lays it out."""

Choice = TypeVar("Choice")


@dataclass(frozen=True, slots=True)
class Ready:
    """How much the first part of a lesson shows: aims, equipment, floor, cautions.

    ``criteria``, ``inclusion`` and ``cautions`` are the most for an outcome, a kind of change and an activity;
    ``column`` is the percentage of the page's width for the floor plan, ``drawing`` its share of that; ``notes`` are
    those on equipment. With ``run_in`` cautions and changes for everyone stand behind their titles; with ``close`` the
    word on local rules stands behind the cautions, and at least one change for everyone is named.
    """

    criteria: int = 2
    inclusion: int = 1
    cautions: int = 1
    column: float = 43.0
    drawing: float = 1.0
    notes: bool = True
    words: bool = True
    run_in: bool = False
    close: bool = False


@dataclass(frozen=True, slots=True)
class Detail:
    """How much of what its activities offer a lesson shows; steps, cues and outcome codes always stand in it whole.

    ``remarks`` is the most that stands below the steps of an activity beyond what must be said, ``lines`` the number of
    ruled lines for notes, which stand at the end or, with ``notes_first``, below what is made ready. ``cut`` is where
    the first page ends inside an activity, and ``packing`` how closely its steps are set.
    """

    ready: Ready = Ready()
    remarks: int = 5
    lines: int = 3
    notes_first: bool = False
    cut: Cut | None = None
    packing: Packing = ROOMY


READY: tuple[Ready, ...] = (
    Ready(criteria=3, inclusion=2, cautions=2),
    Ready(criteria=3, inclusion=2),
    Ready(criteria=3),
    Ready(),
    Ready(drawing=0.9),
    Ready(criteria=1, drawing=0.9),
    Ready(criteria=1, drawing=0.9, words=False),
    Ready(criteria=1, drawing=0.85, words=False, notes=False),
    Ready(criteria=1, column=42, drawing=0.75, words=False, notes=False, run_in=True),
    Ready(criteria=1, inclusion=0, column=42, drawing=0.68, words=False, notes=False, run_in=True),
)
"""The first part from the fullest to the barest."""
REMARKS = (10, 8, 7, 6, 5, 4, 3, 2, 1, 0)
"""Numbers of remarks that go with them."""
BAREST = Detail(READY[-1], REMARKS[-1], 0)
"""What a lesson always shows."""
_LEAST_REMARKS = (0, 1, 2, 3, 4, 5)
_LINES = (16, 14, 12, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1)


def fullest(choices: Sequence[Choice], fits: Callable[[Choice], bool]) -> Choice:
    """Return the first choice that fits, where each takes less room than the one before it; the last if none does."""
    place = bisect_left(choices, True, key=fits)
    return choices[min(place, len(choices) - 1)]


def last_true(holds: Callable[[int], bool], count: int, near: int) -> int:
    """Return the last of ``count`` places that holds, where each holds if a later one does; -1 if none does.

    It is looked for around ``near``, with ever larger steps.
    """
    low, high, step, place = -1, count, 1, min(max(near, 0), count - 1)
    while low + 1 < high:
        if holds(place):
            low = place
            place = min(low + step, high - 1) if high == count else (low + high) // 2
        else:
            high = place
            place = max(high - step, low + 1) if low == -1 else (low + high) // 2
        step *= 2
    return low


def fullest_detail(fits: Callable[[Detail], bool]) -> Detail:
    """Return the fullest detail that fits, its two parts as even as can be; what is left over is room for notes."""
    fits = cache(fits)
    found = [choice for notes_first in (False, True) for choice in _choices(notes_first, fits)]
    return _with_lines(found, fits)


def fullest_cut(cut: Callable[[Detail], Detail | None], fits: Callable[[Detail], bool]) -> Detail:
    """Return the fullest detail that fits with an activity parted; ``cut`` finds for a detail where, if it fits so."""
    cut, fits = cache(cut), cache(fits)

    def fitting(choices: list[Detail]) -> Detail:
        return fullest(choices, lambda each: cut(each) is not None)

    alike = fitting([Detail(*pair, _LINES[-1]) for pair in zip(READY, REMARKS, strict=True)])
    fuller = fitting([replace(alike, ready=ready) for ready in READY])
    most = fitting([replace(fuller, remarks=most) for most in REMARKS if most >= fuller.remarks])
    choices = (alike, fuller, most, replace(most, lines=0))
    return _with_lines([found for each in choices if (found := cut(each)) is not None], fits)


def worth(detail: Detail) -> tuple[int, int]:
    """Return how much a detail shows, for comparing: of its poorer part, then of both together.

    The barest first part, which names no changes for everyone, is worth less than no remarks.
    """
    parts = (len(READY) - 1 - READY.index(detail.ready), len(REMARKS) - REMARKS.index(detail.remarks))
    return min(parts), sum(parts)


def _with_lines(found: list[Detail], fits: Callable[[Detail], bool]) -> Detail:
    """Return the fullest of details that fits, with as many lines for notes as it has room for."""
    fitting = [detail for detail in found if fits(detail)]
    best = max(fitting, key=worth) if fitting else Detail(READY[-1], REMARKS[-1])
    return fullest([replace(best, lines=lines) for lines in (*_LINES, 0)], fits)


def _choices(notes_first: bool, fits: Callable[[Detail], bool]) -> list[Detail]:
    """Return the fullest detail with both parts at the same height of their lists, and fuller ones for each part."""
    pairs = zip(READY, REMARKS, strict=True)
    alike = fullest([Detail(*pair, _LINES[-2], notes_first) for pair in pairs], fits)
    grown = [_grown(replace(alike, remarks=most), fits) for most in _LEAST_REMARKS if most >= alike.remarks]
    return [alike, *grown]


def _grown(detail: Detail, fits: Callable[[Detail], bool]) -> Detail:
    """Return a detail with its first part as full as can be, then its remarks; the first part falls where it must."""
    found = fullest([replace(detail, ready=ready) for ready in READY], fits)
    return fullest([replace(found, remarks=most) for most in REMARKS if most >= found.remarks], fits)
