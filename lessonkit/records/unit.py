"""A unit request: what a teacher asks the sequencer for."""

from typing import Final, Literal

from lessonkit.records.activity import LessonPart, SkillStep
from lessonkit.records.record import Part, Record

MOVING: Final = 50
"""The least moving share, in percent, of a request that names none."""
Weight = Literal["off", "low", "normal", "high"]
Wish = Literal[
    "spacing",
    "late-assessment",
    "rising-challenge",
    "variety",
    "few-changeovers",
    "usual-minutes",
    "moving",
    "further-outcomes",
    "favourites",
    "calm-closing",
    "varied-groups",
    "back-to-back",
]


class Aim(Part, frozen=True, kw_only=True):
    """An outcome to reach: ``practise`` lessons at least, assessed ``assess`` times after ``after`` practices."""

    code: str
    practise: int = 2
    assess: int = 0
    after: int = 2


class Circuit(Part, frozen=True, kw_only=True):
    """Stations side by side: as many squads go round all of them, ``work`` minutes at each, ``change`` to get there."""

    stations: int
    work: int
    change: int = 1


class ShapePart(Part, frozen=True, kw_only=True):
    """A part of a lesson, with the least and the most activities, and minutes where they are limited.

    ``circuit`` makes it a circuit of stations; then its stations say how many activities it holds.
    """

    part: LessonPart
    least: int = 1
    most: int = 1
    least_minutes: int | None = None
    most_minutes: int | None = None
    circuit: Circuit | None = None


class Shape(Part, frozen=True, kw_only=True):
    """A lesson shape: its parts in order, and the lessons (numbers from 1) that have it; None for all others."""

    title: str
    lessons: tuple[int, ...] | None = None
    parts: tuple[ShapePart, ...]


class Pin(Part, frozen=True, kw_only=True):
    """An activity that must be in a lesson (from 1)."""

    lesson: int
    activity: str
    part: LessonPart | None = None
    minutes: int | None = None


class Repeats(Part, frozen=True, kw_only=True):
    """How often an activity may come back in a unit, and how many lessons must lie between."""

    most: int = 2
    apart: int = 1


LETTER_WORDS: tuple[str, ...] = ("school", "class", "lessons", "first day", "last day")
"""The words in braces that a letter's page fills in."""


class Unit(Record, frozen=True, kw_only=True):
    """A unit request.

    ``lessons`` or ``weeks`` says how long it is; ``moving`` is the least share of a lesson that the children move, in
    percent. ``letter`` is a letter to the children's families in Markdown, None where there is none; all that the page
    says stands in it, so that it can be translated.
    """

    summary: str
    school: str
    classes: tuple[str, ...]
    framework: str
    start: str
    lessons: int | None = None
    weeks: int | None = None
    skills: tuple[str, ...]
    mastered: tuple[SkillStep, ...] = ()
    aims: tuple[Aim, ...]
    shapes: tuple[Shape, ...]
    pins: tuple[Pin, ...] = ()
    exclude: tuple[str, ...] = ()
    favourites: tuple[str, ...] = ()
    lost_days: tuple[str, ...] = ()
    repeats: Repeats = Repeats()
    moving: int = MOVING
    wishes: dict[Wish, Weight] = {}
    letter: str | None = None
