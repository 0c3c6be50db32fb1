"""Lengths, times, weekly minutes, numbers and lists in a teacher's words."""

from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lessonkit.logistics.activity_time import DEFAULT_CUT, moving_time, turns_say
from lessonkit.logistics.durations import clock, read_duration, say_duration
from lessonkit.logistics.groups import share_out
from lessonkit.logistics.lengths import Lengths, in_feet, in_metres, say_area, say_length
from lessonkit.logistics.lists import Way, deal, numbered
from lessonkit.logistics.weekly import week, weekly
from lessonkit.logistics.words import counted, joined, listed, number, percent
from lessonkit.records.measures import read_length
from lessonkit.records.school import Meeting, SchoolClass

from .floors import activity


def plain(words: str) -> str:
    """Return words with common spaces, having made sure that no number was parted from its unit by one."""
    return words.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("written", "lengths", "says"),
    [
        # The foot is 0.3048 m exactly: 6 m are 19.685 ft, 236.2 in (by hand).
        ("6 m", "feet", "19 ft 8 in"),
        ("6 m", "metres", "6 m"),
        ("60 cm", "feet", "2 ft"),
        ("20 ft", "metres", "6.1 m"),
        ("20 ft", "feet", "20 ft"),
        ("5 ft 6 in", "metres", "1.68 m"),
        ("7cm", "feet", "2.8 in"),
        ("7cm", "metres", "7 cm"),
        # Full badminton court 13.4 m by 6.1 m, 44 ft by 20 ft (Laws of Badminton, sports dimensions guide).
        ("13.4 m", "feet", "44 ft"),
        ("6.1 m", "feet", "20 ft"),
        # Elementary gym clear height 24 ft, 7.32 m (education specification for gymnasiums, 2012).
        ("24 ft", "metres", "7.32 m"),
        # Rope lengths of provincial fitness guidance: 215 cm (7 ft there, rounded; 84.6 in by the foot), and 260 cm,
        # printed as 9.8 ft but 8.53 ft by the foot.
        ("215 cm", "feet", "7 ft 1 in"),
        ("260 cm", "feet", "8 ft 6 in"),
    ],
)
def test_lengths_are_said_in_the_school_s_own(written: str, lengths: Lengths, says: str) -> None:
    """An author's words stay where they are in the school's lengths; else they are turned."""
    words = say_length(read_length(written), lengths)

    assert says == plain(words)
    assert " " not in words


@settings(deadline=None)
@given(metres=st.floats(0.01, 100))
def test_turned_lengths_come_back(metres: float) -> None:
    """Read again, a length said in metres is at most half a centimetre off, in feet at most half an inch."""
    assert abs(read_length(plain(in_metres(metres))).metres - metres) <= 0.005 + 1e-4
    assert abs(read_length(plain(in_feet(metres))).metres - metres) <= 0.0127 + 1e-4


def test_an_area_is_said_by_its_sides() -> None:
    """Two sides, in the school's lengths."""
    assert "20 ft by 10 ft" == plain(say_area(read_length("6.1 m"), read_length("3.05 m"), "feet"))


@pytest.mark.parametrize(
    ("written", "seconds"),
    [("1:30", 90), ("90 s", 90), ("2", 120), ("1.5 min", 90), ("1 min 30 s", 90), ("2 minutes", 120), ("45sec", 45)],
)
def test_times_are_read_as_teachers_write_them(written: str, seconds: int) -> None:
    """A bare number is minutes; a clock and units are what they are."""
    assert seconds == read_duration(written)


@pytest.mark.parametrize("written", ["", "soon", "1:75", "0", "0 s", "-3", "1 h", "min"])
def test_what_is_no_time_is_refused(written: str) -> None:
    """The sentence shows what a time looks like, or says that it is none."""
    with pytest.raises(ValueError, match=r"is not a time such as|is no time at all"):
        read_duration(written)


@given(seconds=st.integers(1, 5999))
def test_times_come_back(seconds: int) -> None:
    """A time said in words or as a clock reads back as itself."""
    assert seconds == read_duration(plain(say_duration(seconds))) == read_duration(clock(seconds))


def test_the_week_is_held_against_150_minutes() -> None:
    """150 a week are 30 a day (Institute of Medicine 2013, recommendation 1); two lessons of 30 lack 90 (by hand)."""
    school_class = SchoolClass(
        id="c",
        title="Class",
        grade="3",
        children=25,
        space="gym",
        meets=(Meeting(day="Monday", at="09:00", minutes=30), Meeting(day="Friday", at="09:00", minutes=30)),
    )

    assert (60, 90) == (week(school_class).minutes, week(school_class).missing)
    assert "60 minutes a week (40%), 90 short of the 150 recommended for elementary schools." == plain(
        week(school_class).says
    )
    assert 0 == weekly(5 * 30).missing
    assert "150 minutes a week, which reaches the 150 recommended for elementary schools." == weekly(150).says


def test_the_half_of_a_lesson_is_of_all_its_minutes() -> None:
    """20 light minutes of 30 count by the walking rule only; what counts is said in words, with its source.

    Source: the three cuts in use (4 METs; 3 METs; walking counts), and half of lesson time (Institute of Medicine).
    """
    light = activity(2, 2, 0)
    by_walking = moving_time([(light, 20)], 25, 30, "any-movement")
    by_default = moving_time([(light, 20)], 25, 30)

    assert by_walking.reaches_half and pytest.approx(2 / 3) == by_walking.share
    assert not by_default.reaches_half and 0 == by_default.minutes
    assert "moderate" == DEFAULT_CUT and "American Heart Association" in by_default.says
    assert (
        "Brisk movement counts as active: at least four times the effort of sitting still (4 METs)" in by_default.says
    )
    assert by_default.says.startswith(
        "An average child is active for 0 of 30 minutes (0%), 15 minutes short of the recommended half"
    )


def test_everybody_moves_where_nobody_waits() -> None:
    """Individuals wait for nobody."""
    assert "Everybody at once; nobody waits." == turns_say(activity(2, 2, 0), 25)


WAYS: tuple[Way, ...] = ("count-off", "neighbours", "back-and-forth")


@settings(deadline=None)
@given(children=st.integers(1, 40), groups=st.integers(1, 12), way=st.sampled_from(WAYS))
def test_every_child_is_on_one_list(children: int, groups: int, way: Way) -> None:
    """Lists have the sizes asked for and hold everybody once, in the order of the line."""
    sizes = share_out(children, min(groups, children))
    lists = deal(numbered(children), sizes, way)

    assert list(sizes) == [len(each) for each in lists]
    assert Counter(numbered(children)) == Counter(child for each in lists for child in each)
    assert all(int(one) < int(two) for each in lists for one, two in pairwise(each))


def test_ways_of_dealing() -> None:
    """Seven children into a three and two pairs: counted off, side by side, and there and back (by hand)."""
    names = ("AB", "CD", "EF", "GH", "IJ", "KL", "MN")

    assert (("AB", "GH", "MN"), ("CD", "IJ"), ("EF", "KL")) == deal(names, (3, 2, 2))
    assert (("AB", "CD", "EF"), ("GH", "IJ"), ("KL", "MN")) == deal(names, (3, 2, 2), "neighbours")
    assert (("AB", "KL", "MN"), ("CD", "IJ"), ("EF", "GH")) == deal(names, (3, 2, 2), "back-and-forth")
    with pytest.raises(ValueError, match="groups of 8 children in all cannot be made of 7"):
        deal(names, (4, 4))


def test_numbers_and_lists_in_words() -> None:
    """Up to nine in words (the project's own spelling)."""
    assert ["no", "nine", "10"] == [number(value) for value in (0, 9, 10)]
    assert ["one box", "two boxes"] == [counted(value, "box", "boxes") for value in (1, 2)]
    assert ["", "a", "a and b", "a, b and c"] == [listed("abc"[:size]) for size in range(4)]
    assert ("1, 2 and 3", "50%") == (joined((1, 2, 3)), percent(0.5))
