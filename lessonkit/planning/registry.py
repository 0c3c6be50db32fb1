"""Every term of the sequencer, requirements first. A new term is one module and one line here."""

from lessonkit.planning.term import Term
from lessonkit.planning.terms import (
    aim_assessed,
    aim_practised,
    allowed,
    builds_on,
    calm_closing,
    favourites,
    few_changeovers,
    further_outcomes,
    minutes,
    moving_minutes,
    moving_share,
    no_way_back,
    part_minutes,
    pins,
    repeats,
    retest,
    rising_challenge,
    shape,
    skill_order,
    spacing,
    usual_minutes,
    varied_groups,
    variety,
)

TERMS: tuple[Term, ...] = (
    shape.TERM,
    minutes.TERM,
    part_minutes.TERM,
    allowed.TERM,
    builds_on.TERM,
    skill_order.TERM,
    no_way_back.TERM,
    aim_practised.TERM,
    aim_assessed.TERM,
    retest.TERM,
    repeats.TERM,
    pins.TERM,
    moving_share.TERM,
    spacing.TERM,
    rising_challenge.TERM,
    variety.TERM,
    few_changeovers.TERM,
    usual_minutes.TERM,
    moving_minutes.TERM,
    further_outcomes.TERM,
    favourites.TERM,
    calm_closing.TERM,
    varied_groups.TERM,
)
"""In the order in which they are stated to the solver and listed to people."""
BY_CODE = {term.code: term for term in TERMS}
"""Terms by their code."""
