"""The same request gives the same plan, however often it is asked for."""

from lessonkit.planning.build import build
from lessonkit.planning.search import Search
from lessonkit.planning.sequence import Options, Planned, sequence
from lessonkit.planning.write_plan import plan_text

from .school_records import library
from .synthetic import unit_problem


def test_ten_runs_write_the_same_file() -> None:
    """Ten plans of the small school are the same, byte for byte."""
    texts = set()
    for _ in range(10):
        found = sequence(library(), "taps", "heron", Options())
        assert isinstance(found, Planned)
        texts.add(plan_text(found.plan, library()))

    assert 1 == len(texts)


def test_a_search_cut_short_ends_at_the_same_place() -> None:
    """A search in pieces that its effort ends before the proof finds the same values and bound every time."""
    answers = set()
    for _ in range(2):
        answer = Search(build(unit_problem(5, lessons=6, eligible=60)), effort=1.0).run()
        answers.add((answer.status, answer.values, answer.cost, answer.bound))

    assert ["best-found"] == [status for status, *_ in answers]
