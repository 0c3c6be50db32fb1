"""Which grades of the elementary school an outcome is for."""

from functools import lru_cache

from lessonkit.records.framework import Outcome
from lessonkit.records.measures import GRADES


def elementary_grades(outcome: Outcome) -> tuple[str, ...]:
    """Return the grades K to 5 that an outcome is for; a span such as ``PreK-2`` gives K, 1 and 2, grade 6 none."""
    return _elementary_grades(outcome.grade)


@lru_cache(maxsize=64)
def _elementary_grades(span: str) -> tuple[str, ...]:
    first, _, last = span.partition("-")
    if not last:
        return (first,) if first in GRADES else ()
    low = 0 if first in ("PreK", "K") else GRADES.index(first) if first in GRADES else len(GRADES)
    high = GRADES.index(last) if last in GRADES else len(GRADES) - 1
    return GRADES[low : high + 1]
