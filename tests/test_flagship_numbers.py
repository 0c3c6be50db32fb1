"""The numbers of eight lessons of the flagship unit, done again by hand for a class of 25.

The arithmetic stands beside each lesson. Groups of 25: in pairs 12 groups (11 pairs and a three), in threes 8 (seven
and a four), in fours 6 (five and a five), in squads of four to six 5 (five fives), in games of two a side 6 (five of
four and one of five). Equipment is the most that any one part of a lesson needs: per child 25, per group the count
times the groups, per pair the count times 13 (12 pairs and a child alone), per class the count. Moving minutes are the
minutes of each part times the share that moves at once; brisk ones are those of moderate or vigorous effort.
"""

from functools import cache

import pytest

from lessonkit.document.lesson_facts import LessonFacts, PlanFacts, work_out
from lessonkit.document.unit_overview import minutes_say
from tests.by_hand import library

PLAN = "paddles-grade-3-grade-3-heron"


@cache
def facts() -> PlanFacts:
    """Work out the plan."""
    return work_out(library().plans[PLAN], library())


def lesson(number: int) -> LessonFacts:
    """Return a lesson by its number, from 1."""
    return facts().lessons[number - 1]


@pytest.mark.parametrize(
    ("number", "groups"),
    [
        (1, (25, 25, 12, 25, 5)),
        (2, (1, 25, 25, 12, 1)),
        (3, (1, 12, 12, 12)),
        (4, (6, 12, 6, 1, 12)),
        (5, (25, 12, 12, 12, 25)),
        (6, (25, 25, 8, 6, 8)),
        (7, (12, 12, 6, 12)),
        (8, (1, 6, 6, 1)),
    ],
)
def test_groups_of_every_part(number: int, groups: tuple[int, ...]) -> None:
    """25 = 11 x 2 + 3 = 7 x 3 + 4 = 5 x 4 + 5 = 5 x 5, and nobody is left over."""
    slots = lesson(number).slots

    assert groups == tuple(len(slot.grouping.sizes) for slot in slots)
    assert {25} == {sum(slot.grouping.sizes) for slot in slots}


@pytest.mark.parametrize(
    ("number", "moving", "brisk"),
    [
        (1, 31, 7),  # 7 + 7 + 6 + 7 + 4; brisk only the ropes, 7
        (2, 30, 20),  # 5 + 7 + 7 + 8 + 3; brisk 5 + 7 + 8
        (3, 28, 18),  # 7 + 10 + 11, the talk of 3 at rest; brisk 7 + 11
        (4, 25.84, 22.84),  # 5 + 7 + 7 + 3, and 8 with one of each of 12 groups moving: 8 x 12 / 25; brisk less the 3
        (5, 31, 28),  # 5 + 8 + 8 + 7 + 3; brisk less the 3
        (6, 27, 20),  # 5 + 7 + 7 + 8, the cards of 3 at rest; brisk less the 7 of light effort
        (7, 26, 26),  # 7 + 9 + 10, the last 3 at rest
        (8, 29, 26),  # 6 + 10 + 10 + 3; brisk less the 3
    ],
)
def test_moving_minutes_of_every_lesson(number: int, moving: float, brisk: float) -> None:
    """Minutes times the share that moves at once, summed."""
    found = lesson(number)

    assert pytest.approx(moving) == found.moving
    assert pytest.approx(brisk) == found.brisk


@pytest.mark.parametrize(
    ("number", "equipment"),
    [
        # per child: rope, paddle, balloon, ball; 2 spots x 12 pairs = 24 are fewer than 25 x 1; box and card per squad
        (1, {"balloon": 25, "box": 5, "cue-card": 5, "floor-spot": 25, "foam-ball": 25, "jump-rope": 25,
             "short-paddle": 25, "stopwatch": 1}),
        # per class: 32 cones, drum, watch; hoops 12 x 1; balls 25 x 1 are more than 12 x 2
        (2, {"cone": 32, "drum": 1, "floor-spot": 25, "foam-ball": 25, "hoop": 12, "short-paddle": 25,
             "stopwatch": 1}),
        # 12 pairs: balls, ropes and spots 12 x 2, slow balls and cards 12 x 1; per class 8 cones, 4 hoops, 6 scarves
        (3, {"cone": 8, "cue-card": 12, "drum": 1, "floor-spot": 24, "foam-ball": 24, "hoop": 4, "jump-rope": 24,
             "pencil": 25, "record-card": 25, "scarf": 6, "short-paddle": 25, "slow-ball": 12}),
        # fours: cones 6 x 4, ropes 6 x 3; pairs: hoops 12 x 1, spots 12 x 2; balls 25 x 1
        (4, {"cone": 24, "floor-spot": 24, "foam-ball": 25, "hoop": 12, "jump-rope": 18, "music-player": 1,
             "short-paddle": 25}),
        # pairs: hoops 12 x 2, spots 12 x 3, balls 12 x 2, cards and pencils 12 x 1; a watch a class
        (5, {"floor-spot": 36, "foam-ball": 24, "hoop": 24, "pencil": 12, "record-card": 12, "short-paddle": 25,
             "stopwatch": 1}),
        # spots and balls 25 x 1; threes: slow balls 8 x 1; fours: nets 6 x 1
        (6, {"drum": 1, "floor-spot": 25, "foam-ball": 25, "low-net": 6, "pencil": 25, "record-card": 25,
             "short-paddle": 25, "slow-ball": 8}),
        # spots 6 x 8 are more than 13 pairs x 2; balls and cones 12 x 2; ropes and scarves 12 x 1; beanbags 12 x 3
        (7, {"beanbag": 36, "cone": 24, "floor-spot": 48, "foam-ball": 24, "jump-rope": 12, "low-net": 6, "scarf": 12,
             "short-paddle": 25}),
        # six games: spots 6 x 6, nets and boxes 6 x 1, scarves 6 x 5; balls 25 x 1
        (8, {"box": 6, "floor-spot": 36, "foam-ball": 25, "low-net": 6, "scarf": 30, "short-paddle": 25,
             "stopwatch": 1}),
    ],
)  # fmt: skip
def test_equipment_of_every_lesson(number: int, equipment: dict[str, int]) -> None:
    """Parts follow each other, so each item is needed as often as its hungriest part asks."""
    assert equipment == dict(lesson(number).equipment)


def test_the_unit_against_the_published_figures() -> None:
    """7 + 20 + 18 + 22.84 + 28 + 20 + 26 + 26 = 167.84 of 8 x 35 = 280 minutes, 59.9%; two lessons a week are 70."""
    moving, week = (says.replace("\u00a0", " ") for says in minutes_say(facts()))

    assert moving.startswith("An average child is active for 167.8 of 280 minutes (60%), which reaches the")
    assert "Grade 3 Heron has 70 minutes a week (47%), 80 short of the 150 recommended for elementary schools." == week
