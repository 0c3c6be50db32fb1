"""What was given up of a wish, said in as few sentences as can be."""

from lessonkit.planning.case import Case
from lessonkit.planning.reasons import given_up
from lessonkit.planning.sequence import Options, search
from lessonkit.planning.setup import set_up

from .school_records import library


def _case() -> Case:
    found = library()
    return set_up(found, found.units["taps"], found.schools["quillfeather"].school_class("heron"))


def test_each_wish_is_said_shortly() -> None:
    """Four lessons of standing are one sentence, and so is everything that comes back twice."""
    case = _case()
    plan, _ = search(case.problem, Options())
    assert plan is not None
    says = {wish.wish: wish.says for wish in given_up(case, plan)}

    assert 1 == len(says["moving"])
    assert [True] * 4 == [f"lesson {number}" in says["moving"][0] for number in (1, 2, 3, 4)]
    assert says["moving"][0].startswith("A child stands, waits or watches for about ")
    assert 1 == len(says["variety"])
    assert says["variety"][0].startswith("In 2 lessons")
    assert all(":" in each for each in says.get("usual-minutes", ("minutes: none",)))
