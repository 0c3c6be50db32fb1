"""A class divides as a teacher would divide it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lessonkit.logistics.groups import CannotGroupError, group, share_out
from lessonkit.records.activity import Form, Organisation, SquadSize, Uneven, UnevenRule

FORMS: tuple[Form, ...] = ("individuals", "pairs", "threes", "fours", "teams", "squads", "whole-class")
RULES: tuple[UnevenRule, ...] = ("larger-group", "smaller-group", "rotate-in", "teacher-joins")


def organised(form: Form, rule: UnevenRule = "larger-group", side: int = 3) -> Organisation:
    """Return an organisation of a form with a rule for the children left over."""
    return Organisation(
        form=form,
        side=side if form == "teams" else None,
        squad=SquadSize(least=4, most=6) if form == "squads" else None,
        uneven=Uneven(rule=rule, say="The rule."),
    )


@pytest.mark.parametrize(
    ("form", "rule", "children", "says"),
    [
        # 25 children in pairs are 11 pairs and one three: common practice, no source.
        ("pairs", "larger-group", 25, "11 pairs and one group of three."),
        ("pairs", "rotate-in", 25, "12 pairs, and one child changing in from the side."),
        ("pairs", "teacher-joins", 25, "12 pairs, and the teacher joins one child."),
        ("pairs", "larger-group", 2, "One pair."),
        # 25 = 4 x 4 + 3 x 3, counted by hand.
        ("fours", "smaller-group", 25, "Four fours and three groups of three."),
        ("threes", "larger-group", 25, "Seven threes and one group of four."),
        ("teams", "rotate-in", 25, "Four games of 3 against 3, and one child changing in from the side."),
        ("squads", "larger-group", 25, "Five squads of five."),
        ("individuals", "larger-group", 1, "One child, each alone."),
        # Odd classes: every one has an answer (counted by hand).
        ("pairs", "larger-group", 1, "The teacher joins one child."),
        ("pairs", "smaller-group", 7, "Three pairs and one child alone."),
        ("threes", "teacher-joins", 2, "The teacher joins two children."),
        ("fours", "larger-group", 2, "One pair."),
        ("fours", "larger-group", 31, "Four fours and three groups of five."),
        ("teams", "larger-group", 7, "One game of 4 against 3."),
        ("teams", "larger-group", 64, "Six games of 3 against 3 and four games of 4 against 3."),
        ("teams", "smaller-group", 31, "One game of 3 against 3 and five games of 3 against 2."),
        ("squads", "larger-group", 2, "One squad of two: too few children for a squad of 4."),
        ("squads", "larger-group", 7, "One squad of seven (more than 6 in a squad cannot be avoided with 7)."),
        ("squads", "larger-group", 64, "Nine squads of six and two squads of five."),
        ("whole-class", "larger-group", 31, "The whole class together, 31 children."),
    ],
)
def test_a_class_is_divided_in_a_sentence(form: Form, rule: UnevenRule, children: int, says: str) -> None:
    """The sentence says what a teacher would do."""
    assert says == group(organised(form, rule), children).says


@given(form=st.sampled_from(FORMS), rule=st.sampled_from(RULES), children=st.integers(1, 80), side=st.integers(1, 6))
def test_nobody_is_lost(form: Form, rule: UnevenRule, children: int, side: int) -> None:
    """Groups and those changing in add up to the class, whatever its size."""
    grouping = group(organised(form, rule, side), children)

    assert children == sum(grouping.sizes) + grouping.rotating_in
    assert all(grouping.sizes) and grouping.says.endswith(".")


@given(rule=st.sampled_from(("larger-group", "smaller-group")), children=st.integers(9, 80))
def test_sizes_differ_by_one_at_most(rule: UnevenRule, children: int) -> None:
    """No group is two larger than another once there are as many groups as children left over."""
    for form in ("pairs", "threes", "fours"):
        sizes = group(organised(form, rule), children).sizes  # type: ignore[arg-type]

        assert max(sizes) - min(sizes) <= 1


@given(children=st.integers(1, 200), groups=st.integers(1, 20))
def test_sharing_out_is_fair(children: int, groups: int) -> None:
    """Shares differ by one at most and add up (source: division with remainder)."""
    shares = share_out(children, groups)

    assert (children, groups) == (sum(shares), len(shares))
    assert max(shares) - min(shares) <= 1


def test_no_class_no_groups() -> None:
    """Nobody cannot be divided."""
    with pytest.raises(CannotGroupError, match="at least one child"):
        group(organised("pairs"), 0)
