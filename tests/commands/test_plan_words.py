"""What is said of a plan: a promise never too small, the true end of a search, what is unfinished."""

import io
from dataclasses import replace

import msgspec
import pytest

from lessonkit.commands.plan_words import at_most_better, how_it_ended, tell_unfinished
from lessonkit.commands.terminal import Terminal
from tests.document.printed import facts


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


def test_words_of_the_skeleton_in_a_plan_are_told() -> None:
    """Photo Album of the fixed plan is given the skeleton's caution; the other activities are finished."""
    plan = facts()
    album = msgspec.structs.replace(plan.library.activities["photo-album"], safety=("The usual caution.",))
    library = replace(plan.library, activities={**plan.library.activities, album.id: album})
    before, after = io.StringIO(), io.StringIO()
    tell_unfinished(plan, Terminal(before, before, {"COLUMNS": "200"}))
    tell_unfinished(replace(plan, library=library), Terminal(after, after, {"COLUMNS": "200"}))

    assert "" == before.getvalue()
    said = "Note: Photo Album still says 'The usual caution.', as the skeleton did; finish it, then print."
    assert said == " ".join(after.getvalue().split())
