"""Why a plan is as it is: what each activity serves and follows, what the wishes cost, and why others were left out."""

from collections import Counter
from dataclasses import dataclass

from lessonkit.logistics.words import listed
from lessonkit.planning.audit import audit
from lessonkit.planning.case import Case, counted
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Level, Placed, Schedule
from lessonkit.planning.registry import BY_CODE

_ELSEWHERE = ("grade", "skill", "part")


@dataclass(frozen=True, slots=True)
class Why:
    """Why an activity is in its place (lesson and position from 0): plain sentences, the most telling first."""

    lesson: int
    position: int
    activity: str
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class GivenUp:
    """A wish, the points it cost, and what was given up in plain sentences."""

    wish: str
    cost: int
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Unused:
    """An activity that the plan does not have, and why.

    It ``fits`` where only the wishes speak against it; it is ``elsewhere`` at home where it is for other grades, skills
    or parts of a lesson; otherwise something is in its way.
    """

    activity: str
    says: str
    fits: bool = False
    elsewhere: bool = False


@dataclass(frozen=True, slots=True)
class Reasons:
    """Everything there is to say about a plan's choices."""

    places: tuple[Why, ...]
    wishes: tuple[GivenUp, ...]
    unused: tuple[Unused, ...]


def reasons(case: Case, schedule: Schedule) -> Reasons:
    """Explain a schedule."""
    return Reasons(_places(case, schedule), given_up(case, schedule), _unused(case, schedule))


def given_up(case: Case, schedule: Schedule) -> tuple[GivenUp, ...]:
    """Return what a schedule gives up of each wish, the dearest first."""
    costs: Counter[str] = Counter()
    instances: dict[str, list[Instance]] = {}
    for instance in audit(schedule, case.problem).given_up:
        costs[instance.term] += case.problem.weights[instance.term] * instance.amount
        instances.setdefault(instance.term, []).append(instance)
    ordered = sorted(costs.items(), key=lambda cost: (-cost[1], cost[0]))
    return tuple(GivenUp(wish, cost, _in_words(wish, instances[wish], case)) for wish, cost in ordered)


def _in_words(wish: str, instances: list[Instance], case: Case) -> tuple[str, ...]:
    term = BY_CODE[wish]
    if term.together is not None:
        return term.together(instances, case)
    return tuple(term.say(instance, case).says for instance in instances)


def _places(case: Case, schedule: Schedule) -> tuple[Why, ...]:
    found: list[Why] = []
    met: set[Level] = set()
    seen: dict[int, int] = {}
    for lesson, placed in enumerate(schedule.lessons):
        for position, item in enumerate(placed):
            says = [
                *_asked_for(case, lesson, item),
                *_steps(case, item, met),
                *_serves(case, item),
                *_follows(case, item, seen, lesson),
                *_again(case, item, seen, lesson),
            ]
            says = says or [_one_of_many(case, lesson, item)]
            found.append(Why(lesson, position, case.problem.choices[item.activity].id, tuple(says)))
            frame = case.problem.lessons[lesson]
            if item.part >= 0 and frame.parts[item.part].is_core:
                met |= set(case.problem.choices[item.activity].levels)
            seen.setdefault(item.activity, lesson)
    return tuple(found)


def _one_of_many(case: Case, lesson: int, item: Placed) -> str:
    fitting = sum(place[1:] == (item.part, lesson) for place in case.problem.places)
    if fitting < 2:
        return f"It is the only activity that fits {case.part(lesson, item.part)}."
    return f"Of the {fitting} activities that fit {case.part(lesson, item.part)} it suits the rest of the plan best."


def _asked_for(case: Case, lesson: int, item: Placed) -> list[str]:
    if (lesson, item.activity) in case.problem.pinned_at:
        return ["You pinned it here."]
    return ["It is one of your favorites."] if case.problem.choices[item.activity].favourite else []


def _steps(case: Case, item: Placed, met: set[Level]) -> list[str]:
    levels = case.problem.choices[item.activity].levels
    known = [level for level in levels if level.level < 1]
    further = [case.step(level.skill, level.level) for level in levels if level.level > 0 and level in met]
    new = [case.step(level.skill, level.level) for level in levels if level.level > 0 and level not in met]
    says = [f"It reviews {'steps' if len(known) > 1 else 'a step'} that the class has mastered."] if known else []
    if further:
        says.append(f"It practices the step{'s' if len(further) > 1 else ''} {listed(further)} further.")
    if len(new) == 1:
        says.append(f"It takes the class to a new step, {new[0]}.")
    elif new:
        says.append(f"It takes the class to new steps, {listed(new)}.")
    return says


def _serves(case: Case, item: Placed) -> list[str]:
    choice = case.problem.choices[item.activity]
    aims = {goal.outcome for goal in case.problem.goals}
    practised = [case.outcome(outcome) for outcome in choice.practises if outcome in aims]
    further = [case.outcome(outcome) for outcome in choice.practises if outcome in case.problem.further]
    says = [f"It practices {listed(practised)}."] if practised else []
    if item.assess:
        says.append(f"{listed([case.outcome(outcome) for outcome in item.assess])} can be assessed here.")
    if further:
        says.append(f"It also serves {listed(further)}, beyond the aims.")
    return says


def _follows(case: Case, item: Placed, seen: dict[int, int], lesson: int) -> list[str]:
    bases = [base for base in case.problem.choices[item.activity].builds_on if base in seen]
    names = [
        f"{case.activity(base)} ({'this lesson' if seen[base] == lesson else case.lesson(seen[base])})"
        for base in bases
    ]
    return [f"It builds on {listed(names)}."] if names else []


def _again(case: Case, item: Placed, seen: dict[int, int], lesson: int) -> list[str]:
    choice = case.problem.choices[item.activity]
    if item.activity not in seen or seen[item.activity] == lesson:
        return []
    first = case.lesson(seen[item.activity])
    if choice.measured:
        return [f"Its measured task comes back, so that children can compare with {first}."]
    return [f"It comes back from {first}."]


def _unused(case: Case, schedule: Schedule) -> tuple[Unused, ...]:
    used = {case.problem.choices[item.activity].id for lesson in schedule.lessons for item in lesson}
    codes: dict[str, set[str]] = {}
    for bar in case.left_out:
        codes.setdefault(bar.activity, set()).add(bar.code)
    return tuple(
        Unused(
            activity,
            _why_unused(case, activity),
            fits=activity not in codes,
            elsewhere=bool(codes.get(activity, set()) & set(_ELSEWHERE)),
        )
        for activity in sorted(set(case.library.activities) - used)
    )


def _why_unused(case: Case, activity: str) -> str:
    bars = [bar for bar in case.left_out if bar.activity == activity]
    everywhere = [bar for bar in bars if len(bar.lessons) == len(case.places)]
    if everywhere:
        return everywhere[0].said.says
    if bars:
        ahead = set(case.problem.open_lessons) - {lesson for bar in bars for lesson in bar.lessons}
        left = counted(len(ahead), "lesson") if ahead else "no lesson"
        return f"{bars[0].said.says} That leaves {left} for it."
    return f"{case.title(activity)} could be used, but the others serve the wishes better."
