"""Every term of the year map, requirements first."""

from typing import Final

from lessonkit.planning.year.term import YearTerm
from lessonkit.planning.year.terms import (
    calendar,
    changing_families,
    even_load,
    few_moves,
    few_setups,
    follows,
    further_outcomes,
    placed,
    quiet_weeks,
    room,
    something_to_report,
    spare_weeks,
    unbroken,
    week_load,
    window,
)

TERMS: Final[tuple[YearTerm, ...]] = (
    placed.TERM,
    calendar.TERM,
    room.TERM,
    follows.TERM,
    window.TERM,
    quiet_weeks.TERM,
    week_load.TERM,
    even_load.TERM,
    changing_families.TERM,
    few_setups.TERM,
    unbroken.TERM,
    spare_weeks.TERM,
    further_outcomes.TERM,
    something_to_report.TERM,
    few_moves.TERM,
)
BY_CODE: Final = {term.code: term for term in TERMS}
