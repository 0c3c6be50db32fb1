"""A plan as a careful beginner would make it, to measure the sequencer against.

Lesson by lesson and part by part it takes the activity that costs least at that moment among those that may come next:
allowed for the class, after what they build on, at most one step ahead and one behind, not too often. What an aim still
needs counts in an activity's favour, and so does a measured task of the unit's own, early and again late. Minutes begin
as usual and are then lengthened or shortened, one by one, until the lesson is full; a lesson that cannot be filled is
begun again.
Where a requirement cannot be kept everything begins again with the prices shaken a little, up to 300 times.
"""

from random import Random

from lessonkit.planning.audit import audit
from lessonkit.planning.order import with_assessments
from lessonkit.planning.problem import Bounds, Level, Placed, Problem, Schedule
from lessonkit.planning.terms.few_changeovers import further_kinds

_TRIES = 300
_Lesson = tuple[Placed, ...]


def greedy(problem: Problem) -> tuple[Schedule, int] | None:
    """Return the first plan that keeps every requirement, and its cost; None where no try does."""
    for number in range(_TRIES):
        plan = _try(problem, Random(number), 0.0 if number == 0 else 60.0)
        if plan is not None:
            measured = audit(plan, problem)
            if measured.holds:
                return plan, measured.cost
    return None


def _try(problem: Problem, random: Random, shake: float) -> Schedule | None:
    lessons: list[_Lesson] = []
    met: set[Level] = set()
    highest: dict[int, int] = {}
    for number in range(len(problem.lessons)):
        tries = (_lesson(problem, number, lessons, (met, highest), (random, shake)) for _ in range(12))
        filled = next((lesson for lesson in tries if lesson is not None), None)
        if filled is None:
            return None
        lessons.append(filled)
        parts = problem.lessons[number].parts
        met |= {level for i in filled if parts[i.part].is_core for level in problem.choices[i.activity].levels}
        for level in met:
            highest[level.skill] = max(highest.get(level.skill, 0), level.level)
    return with_assessments(problem, Schedule(tuple(lessons)))


def _lesson(
    problem: Problem,
    number: int,
    lessons: list[_Lesson],
    reached: tuple[set[Level], dict[int, int]],
    luck: tuple[Random, float],
) -> _Lesson | None:
    """Fill a lesson part by part; None where it cannot be filled to the minute."""
    further, (met, highest), (random, shake) = further_kinds(problem), reached, luck
    placed: list[Placed] = []
    now = set(met)
    for part, wanted in enumerate(problem.lessons[number].parts):
        for _ in range(random.randint(wanted.least, wanted.most)):
            able = [
                activity
                for activity in range(len(problem.choices))
                if problem.fits(activity, part, number)
                and not problem.barred_at(activity, number, part)
                and (limits := _bounds(problem, activity, part, number)).least <= limits.most
                and _may_come(problem, activity, lessons, placed, now, highest, core=wanted.is_core)
            ]
            if not able:
                break
            price = {each: _price(problem, each, lessons, further) + random.random() * shake for each in able}
            best = min(able, key=lambda each: (price[each], each))
            bounds = _bounds(problem, best, part, number)
            placed.append(Placed(best, part, bounds.usual, bounds.setup))
            if wanted.is_core:
                now |= set(problem.choices[best].levels)
    placed.sort(key=lambda item: (item.part, problem.ranks[item.activity]))
    return _fill(problem, number, placed)


def _may_come(  # noqa: PLR0917  it looks at everything that has happened so far
    problem: Problem,
    activity: int,
    lessons: list[_Lesson],
    placed: list[Placed],
    met: set[Level],
    highest: dict[int, int],
    *,
    core: bool,
) -> bool:
    choice = problem.choices[activity]
    used = [number for number, lesson in enumerate(lessons) if any(item.activity == activity for item in lesson)]
    if any(item.activity == activity for item in placed) or len(used) >= problem.most:
        return False
    if used and len(lessons) - used[-1] <= problem.apart:
        return False
    seen = {item.activity for lesson in (*lessons, placed) for item in lesson}
    if any(base not in seen for base in choice.builds_on):
        return False
    steps = [level for level in choice.levels if level.level > 1]
    if any(Level(s.skill, s.level - 1) not in met | set(choice.levels) for s in steps):
        return False
    return not core or not choice.levels or any(s.level + 2 > highest.get(s.skill, 0) for s in choice.levels)


def _price(problem: Problem, activity: int, lessons: list[_Lesson], further: tuple[tuple[str, ...], ...]) -> float:
    choice, weights = problem.choices[activity], problem.weights
    price = float(weights.get("few-changeovers", 0) * len(further[activity]))
    price += weights.get("moving", 0) * (100 - choice.moving) * choice.bounds.usual / 5
    again = _again(problem, activity, lessons)
    if not again:
        price += weights.get("variety", 0) * any(item.activity == activity for lesson in lessons for item in lesson)
    for goal in problem.goals:
        done = sum(any(goal.outcome in problem.choices[item.activity].practises for item in each) for each in lessons)
        price -= 150 * (goal.outcome in choice.practises and done < goal.practise)
        price -= 100 * (goal.outcome in choice.assesses and done >= goal.after and goal.assess > 0)
    first = _is_own_task(problem, activity) and len(lessons) < -(-len(problem.lessons) // 3)
    price -= 150 * (first or again)
    return price - 100 * sum(level.level == 1 + len(lessons) // 2 for level in choice.levels)


def _is_own_task(problem: Problem, activity: int) -> bool:
    """Tell whether an activity is a measured task of the unit's skills or aims."""
    choice = problem.choices[activity]
    aims = {goal.outcome for goal in problem.goals}
    return choice.measured and bool(choice.levels or aims & set(choice.practises))


def _again(problem: Problem, activity: int, lessons: list[_Lesson]) -> bool:
    """Tell whether a measured task was done early and it is late now."""
    third = -(-len(problem.lessons) // 3)
    early = any(item.activity == activity for lesson in lessons[:third] for item in lesson)
    return early and len(lessons) >= len(problem.lessons) - third and _is_own_task(problem, activity)


def _bounds(problem: Problem, activity: int, part: int, lesson: int) -> Bounds:
    """Return how long an activity may run, what the whole part may last considered."""
    bounds = problem.bounds(activity, part, lesson)
    most_minutes = problem.lessons[lesson].parts[part].most_minutes
    if most_minutes is None:
        return bounds
    most = min(bounds.most, most_minutes - bounds.setup)
    return Bounds(bounds.least, min(bounds.usual, most), most, bounds.setup)


def _fill(problem: Problem, lesson: int, placed: list[Placed]) -> _Lesson | None:
    minutes = [item.minutes for item in placed]
    bounds = [_bounds(problem, item.activity, item.part, lesson) for item in placed]
    left = problem.lessons[lesson].minutes - sum(minutes) - sum(each.setup for each in bounds)
    step = 1 if left > 0 else -1
    for _ in range(abs(left)):
        room = [n for n, each in enumerate(bounds) if each.least <= minutes[n] + step <= each.most]
        if not room:
            return None
        chosen = max(room, key=lambda n: step * problem.choices[placed[n].activity].moving)
        minutes[chosen] += step
    return tuple(
        Placed(item.activity, item.part, length, item.setup) for item, length in zip(placed, minutes, strict=True)
    )
