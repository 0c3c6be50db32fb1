"""Metres in running words, said in feet."""

import pytest

from lessonkit.logistics.prose_lengths import all_in_feet, prose_in_feet
from lessonkit.records.activity import SeeSay


@pytest.mark.parametrize(
    ("written", "said"),
    [
        # A foot is 0.3048 m exactly (international foot, 1959); rounded to the foot, below a metre to the inch.
        ("Stand two meters from the wall.", "Stand seven feet from the wall."),
        ("Two metres apart", "Seven feet apart"),
        ("a meter wider", "three feet wider"),
        ("one and a half meters deep", "five feet deep"),
        ("a meter and a half apart", "five feet apart"),
        ("half a meter", "20 inches"),
        ("two to three meters", "seven to ten feet"),
        ("half a meter to two meters", "20 inches to seven feet"),
        ("a six-meter lane", "a 20-foot lane"),
        ("6 m by 3 m", "20 feet by ten feet"),
        ("low nets (3 m wide, 60 cm high)", "low nets (ten feet wide, 24 inches high)"),
        ("2m away", "seven feet away"),
        ("for 5 minutes on two feet", "for 5 minutes on two feet"),
    ],
)
def test_metres_are_said_in_feet(written: str, said: str) -> None:
    """Lengths change, all else stays (by hand from the foot)."""
    assert said == prose_in_feet(written)


def test_all_words_of_a_record_are_said_in_feet() -> None:
    """A part of a record changes in every field with a length (2 m are 6.56 ft)."""
    pair = SeeSay(see="Two meters off.", say="Come near.")

    assert SeeSay(see="Seven feet off.", say="Come near.") == all_in_feet(pair)


def test_what_keeps_children_safe_is_rounded_up() -> None:
    """A metre is 3.28 feet (a foot is 0.3048 m exactly), so one meter of safety is four feet, and 30 cm 12 inches."""
    assert "Stand three feet apart." == prose_in_feet("Stand one meter apart.")
    assert "Stand four feet apart." == prose_in_feet("Stand one meter apart.", keeps_safe=True)
    assert "Keep 12 inches clear." == prose_in_feet("Keep 30 cm clear.", keeps_safe=True)
