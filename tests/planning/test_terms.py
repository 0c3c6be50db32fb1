"""What each term measures, on schedules small enough to see it by eye."""

from dataclasses import replace
from typing import Any

import pytest

from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import (
    Bar,
    Bounds,
    Choice,
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
from lessonkit.planning.registry import BY_CODE

_PARTS = (PartFrame("warm-up", 0, 1), PartFrame("skill", 0, 3), PartFrame("closing", 0, 1))
_WARM_UP, _SKILL, _CLOSING = range(3)


def _choice(name: str, **changes: Any) -> Choice:
    plain = Choice(id=name, parts=("warm-up", "skill", "closing"), bounds=Bounds(4, 5, 6))
    return replace(plain, **changes)


def _problem(choices: list[Choice], lessons: int, parts: tuple[PartFrame, ...] = _PARTS, **changes: Any) -> Problem:
    plain = Problem(
        lessons=(LessonFrame(10, parts),) * lessons,
        choices=tuple(choices),
        outcomes=("A", "B"),
        skills=(SkillLine("tap", 4),),
        ranks=tuple(range(len(choices))),
        weights={code: 1 for code, term in BY_CODE.items() if term.kind == "preferred"},
    )
    return replace(plain, **changes)


def _schedule(*lessons: list[tuple[int, int]], minutes: int = 5) -> Schedule:
    """Return a schedule of (activity, part) pairs lesson by lesson."""
    return Schedule(tuple(tuple(Placed(activity, part, minutes) for activity, part in lesson) for lesson in lessons))


def _measure(code: str, schedule: Schedule, problem: Problem) -> list[tuple[tuple[int | str, ...], int]]:
    return [(found.key, found.amount) for found in BY_CODE[code].measure(schedule, problem)]


def _keys(code: str, schedule: Schedule, problem: Problem) -> list[tuple[int | str, ...]]:
    return [key for key, _ in _measure(code, schedule, problem)]


def test_shape_counts_the_activities_of_a_part() -> None:
    """Two warm-ups where one is allowed break the shape; so does a part that the shape lacks, and a wrong order."""
    problem = _problem([_choice("a"), _choice("b", parts=("skill",))], 1)

    assert [] == _keys("shape", _schedule([(0, _WARM_UP), (1, _SKILL)]), problem)
    assert [(0, _WARM_UP)] == _keys("shape", _schedule([(0, _WARM_UP), (0, _WARM_UP)]), problem)
    assert [(0, _CLOSING, 1)] == _keys("shape", _schedule([(1, _CLOSING)]), problem)
    assert [(0, -1, 0)] == _keys("shape", _schedule([(0, -1)]), problem)
    assert [(0, "order")] == _keys("shape", _schedule([(1, _SKILL), (0, _WARM_UP)]), problem)


def test_minutes_are_filled_exactly() -> None:
    """A lesson of 10 minutes takes 10 minutes; each activity keeps to its own limits and its set-up."""
    problem = _problem([_choice("a"), _choice("b", bounds=Bounds(2, 3, 4, setup=1))], 1)

    def found(*placed: Placed) -> list[tuple[tuple[int | str, ...], int | None]]:
        broken = BY_CODE["minutes"].measure(Schedule((placed,)), problem)
        return [(each.key, each.found) for each in broken]

    assert [] == found(Placed(0, 1, 6), Placed(1, 1, 3, setup=1))
    assert [((0,), 11)] == found(Placed(0, 1, 6), Placed(1, 1, 4, setup=1))
    assert [((0, 0, 4, 6), 7)] == found(Placed(0, 1, 7), Placed(1, 1, 2, setup=1))
    assert [((0, 1, 1), 0)] == found(Placed(0, 1, 6), Placed(1, 1, 4))


def test_pinned_minutes_stand_in_place_of_the_usual_ones() -> None:
    """A pin for 9 minutes allows exactly 9, although the activity's own most is 6."""
    problem = _problem([_choice("a"), _choice("b", bounds=Bounds(1, 1, 1))], 1, pins=(Pinned(0, 0, minutes=9),))

    assert [] == _keys("minutes", Schedule(((Placed(0, 1, 9), Placed(1, 1, 1)),)), problem)
    assert [(0,), (0, 0, 9, 9)] == _keys("minutes", Schedule(((Placed(0, 1, 6),),)), problem)


def test_part_minutes_include_set_up() -> None:
    """A closing of at most 5 minutes with 1 of set-up and 5 of activity is too long."""
    parts = (*_PARTS[:2], PartFrame("closing", 0, 1, least_minutes=3, most_minutes=5))
    problem = _problem([_choice("a")], 1, parts)

    assert [] == _keys("part-minutes", Schedule(((Placed(0, 2, 4, 1),),)), problem)
    assert [(0, 2, "most")] == _keys("part-minutes", Schedule(((Placed(0, 2, 5, 1),),)), problem)
    assert [(0, 2, "least")] == _keys("part-minutes", Schedule(((Placed(0, 2, 2),),)), problem)


def test_barred_activities() -> None:
    """An activity that does not fit the floor of lesson 2 may be in lesson 1 only."""
    problem = _problem([_choice("a", bars=(Bar("floor", frozenset({1})),))], 2)

    assert [] == _keys("allowed", _schedule([(0, 1)], []), problem)
    assert [(0, 1, "floor")] == _keys("allowed", _schedule([], [(0, 1)]), problem)


def test_builds_on_an_earlier_activity() -> None:
    """What an activity builds on comes in an earlier lesson or earlier in the same one, not after it."""
    problem = _problem([_choice("base"), _choice("next", builds_on=(0,))], 2)

    assert [] == _keys("builds-on", _schedule([(0, 1)], [(1, 1)]), problem)
    assert [] == _keys("builds-on", _schedule([(0, 1), (1, 1)], []), problem)
    assert [(1, 0)] == _keys("builds-on", _schedule([(1, 1), (0, 1)], []), problem)
    assert [(1, 0)] == _keys("builds-on", _schedule([(1, 1)], [(0, 1)]), problem)


def _steps(*levels: int, **changes: Any) -> list[Choice]:
    return [_choice(f"level {level}", levels=(Level(0, level),), **changes) for level in levels]


def test_no_step_is_jumped() -> None:
    """Step 3 needs step 2 before it in a part that teaches; a warm-up neither meets a step nor may jump one."""
    problem = _problem(_steps(1, 2, 3), 3)

    assert [] == _keys("skill-order", _schedule([(0, 1)], [(1, 1), (2, 1)], []), problem)
    assert [(2, 0, 3)] == _keys("skill-order", _schedule([(0, 1)], [(2, 1)], [(1, 1)]), problem)
    assert [(2, 0, 3)] == _keys("skill-order", _schedule([(0, 1)], [(1, _WARM_UP)], [(2, 1)]), problem)
    assert [(2, 0, 3)] == _keys("skill-order", _schedule([(0, 1)], [(2, _WARM_UP)], []), problem)


def test_an_activity_that_leads_over_two_steps() -> None:
    """An activity that trains steps 2 and 3 needs step 1 before it, and meets both."""
    choices = [*_steps(1), _choice("both", levels=(Level(0, 2), Level(0, 3))), *_steps(4)]
    problem = _problem(choices, 3)

    assert [] == _keys("skill-order", _schedule([(0, 1)], [(1, 1)], [(2, 1)]), problem)
    assert [(1, 0, 2)] == _keys("skill-order", _schedule([(1, 1)], [(0, 1)], []), problem)


def test_one_step_back_is_review_two_are_not() -> None:
    """After step 3, step 2 may be taught again and step 1 may not; as a warm-up it may."""
    problem = _problem(_steps(1, 2, 3), 2)
    first = [(0, 1), (1, 1), (2, 1)]

    assert [] == _keys("no-way-back", _schedule(first, [(1, 1)]), problem)
    assert [(0, 1)] == _keys("no-way-back", _schedule(first, [(0, 1)]), problem)
    assert [] == _keys("no-way-back", _schedule(first, [(0, _WARM_UP)]), problem)


def test_an_earlier_step_within_the_same_lesson_is_no_way_back() -> None:
    """Inside a lesson children may go from step 1 to 3 and end with step 1: only earlier lessons count."""
    problem = _problem(_steps(1, 2, 3, 1), 1)

    assert [] == _keys("no-way-back", _schedule([(0, 1), (1, 1), (2, 1), (3, 1)]), problem)


def test_a_measured_task_may_come_back() -> None:
    """A measured task done before may be repeated however far the class has come; a new one may not be started."""
    problem = _problem([*_steps(1, measured=True), *_steps(2, 3), *_steps(1, measured=True)], 2)
    first = [(0, 1), (1, 1), (2, 1)]

    assert [] == _keys("no-way-back", _schedule(first, [(0, 1)]), problem)
    assert [(3, 1)] == _keys("no-way-back", _schedule(first, [(3, 1)]), problem)


def test_going_back_in_one_of_two_skills_is_allowed() -> None:
    """An activity at a low step of one skill and the newest of another goes forward on the whole."""
    choices = [*_steps(1, 2, 3), _choice("two skills", levels=(Level(0, 1), Level(1, 1)))]
    problem = _problem(choices, 2, skills=(SkillLine("tap", 4), SkillLine("send", 2)))

    assert [] == _keys("no-way-back", _schedule([(0, 1), (1, 1), (2, 1)], [(3, 1)]), problem)


def test_aims_count_lessons_not_activities() -> None:
    """Two activities for an aim in one lesson are one lesson of practice."""
    choices = [_choice("a", practises=(0,)), _choice("b", practises=(0,))]
    problem = _problem(choices, 2, goals=(Goal(0, 2),))

    assert [(0,)] == _keys("aim-practised", _schedule([(0, 1), (1, 1)], []), problem)
    assert [] == _keys("aim-practised", _schedule([(0, 1)], [(1, 1)]), problem)


def test_assessment_comes_after_practice() -> None:
    """An aim to be assessed after two lessons of practice is not assessed in the second one."""
    problem = _problem([_choice("a", practises=(0,), assesses=(0,))], 3, goals=(Goal(0, 1, 1, 2),))
    plain, tested = Placed(0, 1, 5), Placed(0, 1, 5, assess=(0,))

    assert [] == _keys("aim-assessed", Schedule(((plain,), (plain,), (tested,))), problem)
    assert [(0,)] == _keys("aim-assessed", Schedule(((plain,), (tested,), (plain,))), problem)


def test_only_an_activity_that_can_assess_does() -> None:
    """Marking an aim as assessed where the activity has no such use does not count."""
    problem = _problem([_choice("a", practises=(0,))], 1, goals=(Goal(0, 0, 1, 0),))

    assert [(0,)] == _keys("aim-assessed", Schedule(((Placed(0, 1, 5, assess=(0,)),),)), problem)


@pytest.mark.parametrize(("early", "late", "broken"), [(1, 4, 0), (0, 5, 0), (2, 5, 1), (0, 3, 1)])
def test_a_measured_task_early_and_late(early: int, late: int, broken: int) -> None:
    """Of six lessons the first two are early and the last two late: thirds, rounded up."""
    problem = _problem([_choice("a", measured=True)], 6)
    lessons: list[list[tuple[int, int]]] = [[] for _ in range(6)]
    lessons[early] = lessons[late] = [(0, 1)]

    assert BY_CODE["retest"].applies(problem)
    assert broken == len(_keys("retest", _schedule(*lessons), problem))


def test_the_measured_task_is_one_of_the_units_own() -> None:
    """A measured closing that trains no skill of the unit does not count where a task for its aim is measured, too."""
    other, own = _choice("closing", measured=True), _choice("own", measured=True, practises=(0,))
    alone = _schedule([(0, 1)], [], [], [], [], [(0, 1)])

    assert [] == _keys("retest", alone, _problem([other, _choice("own")], 6, goals=(Goal(0, 1),)))
    assert [()] == _keys("retest", alone, _problem([other, own], 6, goals=(Goal(0, 1),)))


def test_repeats_keep_their_distance() -> None:
    """With one lesson between and twice at most, lessons 1 and 3 are right; 1 and 2, or three times, are not."""
    problem = _problem([_choice("a")], 5, most=2, apart=1)

    def broken(*lessons: int) -> list[tuple[int | str, ...]]:
        return _keys("repeats", _schedule(*([(0, 1)] if number in lessons else [] for number in range(5))), problem)

    assert [] == broken(0, 2)
    assert [(0, "apart")] == broken(0, 1)
    assert [(0, "most")] == broken(0, 2, 4)
    assert [(0, "once", 0)] == _keys("repeats", _schedule([(0, 1), (0, 2)], [], [], [], []), problem)


def test_a_pin_names_its_part() -> None:
    """An activity pinned as warm-up is not where the teacher wants it when it is in the skill part."""
    problem = _problem([_choice("a")], 1, pins=(Pinned(0, 0, "warm-up"),))

    assert [] == _keys("pins", _schedule([(0, _WARM_UP)]), problem)
    assert [(0,)] == _keys("pins", _schedule([(0, _SKILL)]), problem)


def test_the_moving_share_counts_set_up_as_standing() -> None:
    """Half of 10 minutes is 5: six minutes at 80% are 4.8 and do not suffice, at 100% they do."""
    problem = _problem([_choice("a", moving=80), _choice("b")], 1)

    assert [(0,)] == _keys("moving-share", _schedule([(0, 1)], minutes=6), problem)
    assert [] == _keys("moving-share", _schedule([(1, 1)], minutes=6), problem)


def test_spacing_counts_stretches_without_practice() -> None:
    """An aim asked for in three of six lessons has three stretches of two; lessons 1, 2 and 6 miss the middle one."""
    problem = _problem([_choice("a", practises=(0,))], 6, goals=(Goal(0, 3),))
    lessons = [[(0, 1)] if number in (0, 1, 5) else [] for number in range(6)]

    assert [((0, 2, 3), 1)] == _measure("spacing", _schedule(*lessons), problem)


@pytest.mark.parametrize(
    ("assess", "able", "missing"),
    [
        (1, (2, 3), [(4, 5)]),
        (1, (4,), []),
        (2, (4, 5), [(0, 3)]),
        (3, (1, 5), [(2, 3)]),
        (0, (), []),
    ],
)
def test_an_aim_is_assessed_in_the_last_third(
    assess: int, able: tuple[int, ...], missing: list[tuple[int, ...]]
) -> None:
    """Of six lessons the last two are the last third; earlier times share the four before, each an equal stretch."""
    goals = (Goal(0, 1, assess, 1),)
    problem = _problem([_choice("a", practises=(0,)), _choice("b", assesses=(0,))], 6, goals=goals)
    schedule = _schedule(*([(0, _SKILL), *([(1, _SKILL)] if lesson in able else [])] for lesson in range(6)))

    assert missing == [key[1:] for key in _keys("late-assessment", schedule, problem)]


def test_an_assessment_before_enough_practice_is_none() -> None:
    """The aim is practised in the last lesson only, and so cannot be assessed after a lesson of practice."""
    problem = _problem([_choice("a", practises=(0,), assesses=(0,))], 3, goals=(Goal(0, 1, 1, 1),))

    assert [(0, 2, 2)] == _keys("late-assessment", _schedule([], [], [(0, _SKILL)]), problem)
    assert [] == _keys("late-assessment", _schedule([], [(0, _SKILL)], [(0, _SKILL)]), problem)


def test_a_steady_rise() -> None:
    """Four steps in four lessons: one a lesson. Two in the first is one ahead; none after that is behind by two."""
    problem = _problem(_steps(1, 2, 3, 4), 4)

    assert [] == _measure("rising-challenge", _schedule(*([(step, 1)] for step in range(4))), problem)
    assert [((0, 0, "ahead"), 1), ((0, 2, "behind"), 1), ((0, 3, "behind"), 2)] == _measure(
        "rising-challenge", _schedule([(0, 1), (1, 1)], [], [], []), problem
    )


def test_variety_counts_each_time_again() -> None:
    """Three lessons with the same activity are two repeats."""
    assert [((0,), 2)] == _measure(
        "variety", _schedule([(0, 1)], [(0, 1)], [(0, 1)]), _problem([_choice("a"), _choice("b")], 3)
    )


def test_changeovers_count_kinds_besides_the_usual_ones() -> None:
    """Balls, used by two of three activities, are out anyway; hoops are fetched by each activity that needs them."""
    choices = [_choice("a", kinds=("ball", "hoop")), _choice("b", kinds=("ball",)), _choice("c")]
    problem = _problem(choices, 1)

    assert [((0, 0), 1)] == _measure("few-changeovers", _schedule([(0, 1), (1, 1), (2, 1)]), problem)


def test_usual_minutes_count_what_is_beyond_one() -> None:
    """Of two minutes more and three minutes less than usual, one of each is free."""
    problem = _problem([_choice("a"), _choice("b")], 1)
    schedule = Schedule(((Placed(0, 1, 7), Placed(1, 1, 2)),))

    assert [((0, 0, "longer"), 1), ((0, 1, "shorter"), 2)] == _measure("usual-minutes", schedule, problem)


def test_moving_counts_twentieths_of_a_minute() -> None:
    """Ten minutes of lesson with six at 75% leave 5.5 minutes of standing: 110 twentieths."""
    problem = _problem([_choice("a", moving=75)], 1)

    assert [((0,), 110)] == _measure("moving", _schedule([(0, 1)], minutes=6), problem)


def test_further_outcomes_and_favourites_are_counted_once() -> None:
    """What is never practised, and a favourite that is never used, is one unit given up."""
    problem = _problem([_choice("a", practises=(1,), favourite=True), _choice("b")], 2, further=(1,))

    assert [((1,), 1)] == _measure("further-outcomes", _schedule([(1, 1)], []), problem)
    assert [((0,), 1)] == _measure("favourites", _schedule([(1, 1)], []), problem)
    assert [] == _measure("further-outcomes", _schedule([], [(0, 1)]), problem)
    assert [] == _measure("favourites", _schedule([], [(0, 1)]), problem)


@pytest.mark.parametrize(("effort", "units"), [(0, []), (1, []), (2, [((0, 0), 1)]), (3, [((0, 0), 2)])])
def test_a_calm_closing(effort: int, units: list[tuple[tuple[int, int], int]]) -> None:
    """Rest and light are calm; moderate is one unit, vigorous two."""
    problem = _problem([_choice("a", effort=effort)], 1)

    assert units == _measure("calm-closing", _schedule([(0, _CLOSING)]), problem)


@pytest.mark.parametrize(("forms", "units"), [(1, 1), (2, 0), (3, 0), (4, 1), (5, 2)])
def test_two_or_three_ways_of_grouping(forms: int, units: int) -> None:
    """One way is too few by one; each beyond three is one too many."""
    parts = (PartFrame("skill", 0, 5),)
    choices = [_choice(str(number), form=str(number)) for number in range(forms)]
    problem = _problem(choices, 1, parts)
    schedule = _schedule([(number, 0) for number in range(forms)])

    assert units == sum(amount for _, amount in _measure("varied-groups", schedule, problem))


def test_what_was_taught_is_not_judged() -> None:
    """A lesson that is over breaks no requirement of its own, but counts for those of the whole unit."""
    taught = (Placed(1, 1, 3),)
    choices = [_choice("base"), _choice("next", builds_on=(0,), practises=(0,))]
    problem = _problem(choices, 2, goals=(Goal(0, 1),))
    problem = replace(problem, lessons=(replace(problem.lessons[0], taught=taught), problem.lessons[1]))
    schedule = Schedule((taught, ()))

    required = [term for term in BY_CODE.values() if term.kind == "required" and term.code != "minutes"]
    broken = [found for term in required if term.applies(problem) for found in term.measure(schedule, problem)]
    assert [Instance("moving-share", (1,), found=0, lesson=1)] == broken
