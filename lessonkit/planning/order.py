"""From the solver's sets to lessons in order: who comes first inside a part, and how the minutes are split."""

import heapq
from collections import defaultdict
from collections.abc import Iterable

from lessonkit.planning.problem import Bounds, Choice, Placed, Problem, Schedule
from lessonkit.planning.variables import Group, Place, Variables


def ranks(choices: tuple[Choice, ...]) -> tuple[int, ...]:
    """Return the rank of every activity: lower for what others build on, then for lower steps of skills, then by id.

    Activities of one part of a lesson stand in this order. Raises ValueError where activities build on each other in a
    circle.
    """
    waiting = [len(set(choice.builds_on)) for choice in choices]
    followers: dict[int, list[int]] = defaultdict(list)
    for number, choice in enumerate(choices):
        for base in set(choice.builds_on):
            followers[base].append(number)

    def key(number: int) -> tuple[int, str, int]:
        return max((level.level for level in choices[number].levels), default=0), choices[number].id, number

    ready = [key(number) for number, count in enumerate(waiting) if count == 0]
    heapq.heapify(ready)
    found: dict[int, int] = {}
    while ready:
        number = heapq.heappop(ready)[-1]
        found[number] = len(found)
        for follower in followers[number]:
            waiting[follower] -= 1
            if waiting[follower] == 0:
                heapq.heappush(ready, key(follower))
    if len(found) < len(choices):
        raise ValueError("activities build on each other in a circle")
    return tuple(found[number] for number in range(len(choices)))


def schedule(problem: Problem, variables: Variables, values: tuple[int, ...]) -> Schedule:
    """Turn the values of a model's variables into a schedule."""
    lessons = []
    for lesson, frame in enumerate(problem.lessons):
        if frame.taught is not None:
            lessons.append(frame.taught)
            continue
        places = [place for place in variables.in_lesson(lesson) if values[variables.place[place]]]
        places.sort(key=lambda place: (place[1], problem.ranks[place[0]]))
        minutes = _split(problem, variables, values, places)
        lessons.append(tuple(_placed(problem, place, minutes[place]) for place in places))
    return with_assessments(problem, Schedule(tuple(lessons)))


def _placed(problem: Problem, place: Place, minutes: int) -> Placed:
    activity, part, lesson = place
    pinned = (lesson, activity) in problem.pinned_at
    return Placed(activity, part, minutes, problem.bounds(*place).setup, pinned=pinned)


def _split(
    problem: Problem, variables: Variables, values: tuple[int, ...], places: Iterable[Place]
) -> dict[Place, int]:
    """Split each group's minutes among its activities."""
    members: dict[Group, list[Place]] = defaultdict(list)
    for place in places:
        members[variables.group(place)].append(place)
    minutes: dict[Place, int] = {}
    for group, taken in members.items():
        up, down = (values[number] for number in variables.groups[group])
        bounds = [problem.bounds(*place) for place in taken]
        minutes |= zip(taken, split_evenly(bounds, up - down), strict=True)
    return minutes


def split_evenly(bounds: list[Bounds], change: int) -> list[int]:
    """Return minutes for each activity, ``change`` more (or fewer) than usual in all, the change shared evenly.

    A minute at a time goes to the activity that is nearest to its usual minutes and still has room, the earliest first.
    Raises ValueError where the limits leave no room.
    """
    minutes = [each.usual for each in bounds]
    step = 1 if change > 0 else -1
    for _ in range(abs(change)):
        room = [number for number, each in enumerate(bounds) if each.least <= minutes[number] + step <= each.most]
        if not room:
            raise ValueError("the minutes do not fit within the limits")
        chosen = min(room, key=lambda number: (abs(minutes[number] - bounds[number].usual), number))
        minutes[chosen] += step
    return minutes


def with_assessments(problem: Problem, plan: Schedule) -> Schedule:
    """Say where each aim is assessed: in the latest lesson that can; earlier times are spread evenly before it.

    So children have practised most when it counts, and a first look comes while there is time to act on it.
    """
    wanted: dict[tuple[int, int], set[int]] = defaultdict(set)
    for goal in problem.goals:
        practised = plan.practising(goal.outcome, problem)
        done = sum(any(goal.outcome in item.assess for item in frame.taught or ()) for frame in problem.lessons)
        able: dict[int, int] = {}
        for lesson in problem.open_lessons:
            ready = sum(before < lesson for before in practised) >= goal.after
            for position, item in enumerate(plan.lessons[lesson]):
                if ready and goal.outcome in problem.choices[item.activity].assesses:
                    able[lesson] = position
        for lesson in _spread(tuple(able), done, goal.assess):
            wanted[lesson, able[lesson]].add(goal.outcome)
    return Schedule(
        tuple(
            tuple(_assessing(item, wanted[lesson, position]) for position, item in enumerate(placed))
            for lesson, placed in enumerate(plan.lessons)
        )
    )


def _spread(able: tuple[int, ...], done: int, times: int) -> tuple[int, ...]:
    """Choose the lessons of the times still to come: the last that can, the others where an even spread has them."""
    chosen: list[int] = []
    left = able
    for number in range(times, done, -1):
        enough = left[max(0, number - done - 1) :]
        if enough:
            target = able[-1] * number / times
            chosen.append(min(enough, key=lambda lesson: (abs(lesson - target), -lesson)))
            left = tuple(lesson for lesson in left if lesson < chosen[-1])
    return tuple(chosen)


def _assessing(item: Placed, outcomes: set[int]) -> Placed:
    if not outcomes:
        return item
    return Placed(item.activity, item.part, item.minutes, item.setup, tuple(sorted(outcomes)), item.pinned)
