"""Invented problems of a chosen size, the same for the same seed."""

from dataclasses import replace
from random import Random

from lessonkit.planning.order import ranks
from lessonkit.planning.problem import (
    Bounds,
    Choice,
    Goal,
    LessonFrame,
    Level,
    PartFrame,
    Problem,
    SkillLine,
)
from lessonkit.planning.weights import weights

_SHARES = (("warm-up", 0.18), ("skill", 0.22), ("practice", 0.28), ("game", 0.16), ("closing", 0.16))
_KINDS = ("short-paddle", "foam-ball", "balloon", "cone", "hoop", "floor-spot", "beanbag", "low-net", "rope", "target")
_FORMS = ("individuals", "pairs", "threes", "fours", "teams", "whole-class")


def unit_problem(
    seed: int, lessons: int, eligible: int, *, levels: int = 6, minutes: int = 35, aims: int = 5, moving: int = 50
) -> Problem:
    """Return a unit of a usual kind: warm-up, skill, one or two practices, perhaps a game, closing."""
    random = Random(seed)
    outcomes = tuple(f"O{number:02}" for number in range(aims + 8))
    choices: list[Choice] = []
    for part, share in _SHARES:
        for _ in range(max(2, round(share * eligible))):
            choices.append(_choice(random, len(choices), part, levels=levels, outcomes=len(outcomes), aims=aims))
    choices = [_after_earlier(random, number, choice, choices) for number, choice in enumerate(choices)]
    parts = (
        PartFrame("warm-up"),
        PartFrame("skill"),
        PartFrame("practice", 1, 2),
        PartFrame("game", 0, 1),
        PartFrame("closing"),
    )
    frozen = tuple(choices)
    served = {outcome for choice in frozen for outcome in choice.practises}
    return Problem(
        lessons=(LessonFrame(minutes, parts),) * lessons,
        choices=frozen,
        outcomes=outcomes,
        goals=tuple(
            Goal(outcome, max(1, lessons // 3), 1 if outcome % 2 else 0, 2 if lessons > 3 else 1)
            for outcome in range(aims)
            if outcome in served
        ),
        skills=(SkillLine("short-paddle", levels),),
        further=tuple(outcome for outcome in range(aims, aims + 8) if outcome in served),
        ranks=ranks(frozen),
        moving=moving,
        weights=weights({}),
    )


def _choice(random: Random, number: int, part: str, *, levels: int, outcomes: int, aims: int) -> Choice:
    core = part in ("skill", "practice", "game")
    usual = {"warm-up": 5, "skill": 8, "practice": 9, "game": 10, "closing": 4}[part] + random.randint(-1, 2)
    both = core and random.random() < 0.3
    practises = set(random.sample(range(aims), random.choice((1, 1, 2)))) if core else set()
    if random.random() < 0.5:
        practises.add(random.randrange(aims, outcomes))
    kinds = set() if part == "closing" else {"short-paddle"} if core else set()
    kinds |= set(random.sample(_KINDS[1:], random.choice((0, 1, 1, 2)) if part != "closing" else 0))
    return Choice(
        id=f"a{number:03}-{part}",
        parts=(part, "practice" if part == "skill" else "skill") if both and part != "game" else (part,),
        bounds=Bounds(max(2, usual - 3), usual, usual + 3, random.choice((0, 1, 1, 2)) if part != "closing" else 0),
        moving=random.choice((50, 60, 75, 80, 90, 100)) if part != "closing" else random.choice((20, 40, 60)),
        levels=(Level(0, random.randint(0, levels)),) if core else (),
        practises=tuple(sorted(practises)),
        assesses=tuple(sorted(outcome for outcome in practises if random.random() < 0.5)),
        measured=core and random.random() < 0.25,
        form=random.choice(_FORMS) if part != "closing" else random.choice(("whole-class", "pairs")),
        kinds=tuple(sorted(kinds)),
        effort={"closing": random.choice((0, 1, 1, 2))}.get(part, random.choice((1, 2, 2, 3))),
        favourite=random.random() < 0.05,
    )


def _after_earlier(random: Random, number: int, choice: Choice, choices: list[Choice]) -> Choice:
    if not choice.levels or random.random() < 0.7:
        return choice
    lower = [
        other
        for other, candidate in enumerate(choices)
        if candidate.levels and candidate.levels[0].level == choice.levels[0].level - 1
    ]
    return replace(choice, builds_on=(random.choice(lower),)) if lower else choice
