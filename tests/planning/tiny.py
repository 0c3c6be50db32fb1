"""Problems small enough to try every plan, and every plan of one."""

from collections.abc import Iterator
from itertools import combinations, product

from hypothesis import strategies as some

from lessonkit.planning.order import ranks, with_assessments
from lessonkit.planning.problem import (
    Bar,
    Bounds,
    Choice,
    Circuit,
    Goal,
    LessonFrame,
    Level,
    PartFrame,
    Pinned,
    Placed,
    Problem,
    Schedule,
    SkillLine,
)
from lessonkit.planning.weights import PRICES

_PARTS = ("warm-up", "skill", "closing")
_OUTCOMES = 3
_LEVELS = 3


@some.composite
def tiny_problems(draw: some.DrawFn) -> Problem:
    """Draw a problem of two or three short lessons with a few activities, using every kind of demand and wish."""
    lessons = draw(some.sampled_from((2, 3, 3)))
    choices = tuple(draw(_choices(number)) for number in range(draw(some.integers(4, 6))))
    parts = draw(some.sampled_from((("skill",), ("skill", "closing"), ("warm-up", "skill"))))
    frames = tuple(draw(_part(part)) for part in parts)
    wishes = draw(some.sets(some.sampled_from(sorted(PRICES)), min_size=1, max_size=6))
    return Problem(
        lessons=tuple(
            LessonFrame(draw(some.integers(3, 4)) * len(frames), frames, out=draw(some.sampled_from((None, ("ball",)))))
            for _ in range(lessons)
        ),
        choices=choices,
        outcomes=tuple("ABC"),
        goals=tuple(draw(_goals(number)) for number in range(draw(some.integers(0, 2)))),
        skills=(SkillLine("tap", _LEVELS),),
        pins=draw(_pins(lessons, len(choices))),
        further=(2,) if any(2 in choice.practises for choice in choices) else (),
        ranks=ranks(choices),
        most=draw(some.integers(1, 3)),
        apart=draw(some.sampled_from((0, 0, 0, 1))),
        moving=draw(some.sampled_from((0, 0, 0, 50, 70))),
        retest=draw(some.sampled_from((False, False, True))),
        weights={wish: draw(some.integers(1, 4)) for wish in sorted(wishes)},
        owned=(("ball", 3),),
    )


@some.composite
def _choices(draw: some.DrawFn, number: int) -> Choice:
    usual = draw(some.integers(2, 4))
    levels = draw(some.lists(some.sampled_from((0, 0, 1, 1, -1, 2, 3)), max_size=2, unique=True))
    return Choice(
        id=f"a{number}",
        parts=draw(some.sampled_from((("skill",), ("skill", "closing"), _PARTS, ("warm-up", "skill"), ("closing",)))),
        bounds=Bounds(
            max(1, usual - draw(some.integers(0, 1))),
            usual,
            usual + draw(some.integers(0, 1)),
            draw(some.sampled_from((0, 0, 0, 1))),
        ),
        moving=draw(some.sampled_from((40, 60, 100))),
        levels=tuple(Level(0, level) for level in levels),
        builds_on=draw(some.sampled_from(((), (), (), (), (number - 1,)))) if number else (),
        practises=tuple(sorted(draw(some.sets(some.integers(0, _OUTCOMES - 1), max_size=2)))),
        assesses=tuple(sorted(draw(some.sets(some.integers(0, 1), max_size=2)))),
        measured=draw(some.booleans()),
        form=draw(some.sampled_from(("pairs", "individuals"))),
        kinds=tuple(sorted(draw(some.sets(some.sampled_from(("ball", "hoop")), max_size=2)))),
        effort=draw(some.integers(0, 3)),
        favourite=draw(some.booleans()),
        bars=draw(some.sampled_from(((), (), (), (), (Bar("floor", frozenset({1})),), _SIZE))),
        station=draw(some.booleans()),
        station_moving=draw(some.sampled_from((60, 100))),
        station_needs=draw(some.sampled_from(((), ((2, "ball", 2),)))),
        station_wide=draw(some.sampled_from(((), (), (0, 1)))),
    )


_SIZE = (Bar("class-size", frozenset({0}), station=False),)


@some.composite
def _part(draw: some.DrawFn, part: str) -> PartFrame:
    least = draw(some.integers(0, 1))
    if part == "skill" and not draw(some.integers(0, 4)):
        return PartFrame(part, 2, 2, circuit=Circuit(2, draw(some.integers(0, 1))))
    most = draw(some.sampled_from((1, 2, 2)))
    limit = draw(some.sampled_from((None, None, None, 4)))
    return PartFrame(part, least, most, most_minutes=limit)


@some.composite
def _goals(draw: some.DrawFn, outcome: int) -> Goal:
    return Goal(outcome, draw(some.integers(0, 2)), draw(some.sampled_from((0, 0, 1))), draw(some.integers(0, 1)))


@some.composite
def _pins(draw: some.DrawFn, lessons: int, choices: int) -> tuple[Pinned, ...]:
    if draw(some.integers(0, 5)):
        return ()
    part = draw(some.sampled_from((None, *_PARTS)))
    minutes = draw(some.sampled_from((None, 3)))
    return (Pinned(draw(some.integers(0, lessons - 1)), draw(some.integers(0, choices - 1)), part, minutes),)


def all_schedules(problem: Problem) -> Iterator[Schedule]:
    """Yield every way to fill the lessons to the minute, with no other requirement looked at."""
    fillings = [list(_fillings(problem, lesson)) for lesson in range(len(problem.lessons))]
    for lessons in product(*fillings):
        yield with_assessments(problem, Schedule(tuple(lessons)))


def plans_of(problem: Problem) -> int:
    """Return how many schedules there are."""
    total = 1
    for lesson in range(len(problem.lessons)):
        total *= sum(1 for _ in _fillings(problem, lesson))
    return total


def _fillings(problem: Problem, lesson: int) -> Iterator[tuple[Placed, ...]]:
    frame = problem.lessons[lesson]
    if frame.taught is not None:
        yield frame.taught
        return
    options = [list(_part_sets(problem, lesson, part)) for part in range(len(frame.parts))]
    for chosen in product(*options):
        places = [(activity, part) for part, group in enumerate(chosen) for activity in group]
        bounds = [problem.bounds(activity, part, lesson) for activity, part in places]
        left = frame.minutes - sum(each.setup for each in bounds)
        for minutes in product(*(range(each.least, each.most + 1) for each in bounds)):
            if sum(minutes) == left:
                yield tuple(
                    Placed(activity, part, length, each.setup)
                    for (activity, part), length, each in zip(places, minutes, bounds, strict=True)
                )


def _part_sets(problem: Problem, lesson: int, part: int) -> Iterator[tuple[int, ...]]:
    frame = problem.lessons[lesson].parts[part]
    able = [activity for activity in range(len(problem.choices)) if problem.fits(activity, part, lesson)]
    able.sort(key=lambda activity: problem.ranks[activity])
    for number in range(frame.least, frame.most + 1):
        yield from combinations(able, number)
