"""What is said of a plan that is not proven never promises too little."""

import pytest

from lessonkit.commands.plan_words import at_most_better, how_it_ended


@pytest.mark.parametrize(("gap", "percent"), [(0.0419, 5), (0.02, 2), (0.0045, 1), (1 / 6246, 1)])
def test_a_gap_is_rounded_up(gap: float, percent: int) -> None:
    """A bound on what is still possible holds only when rounded up, and an open search is never at nought."""
    assert f"at most {percent}% better" == at_most_better(gap)


@pytest.mark.parametrize(
    ("stopped", "says"), [(True, "You stopped the search."), (False, "The search ended before the proof.")]
)
def test_only_a_person_stops_a_search(stopped: bool, says: str) -> None:
    """A search that has had its usual effort was not stopped by anybody."""
    assert says == how_it_ended(stopped)
