"""Every rule, in the order of the numbers of their findings."""

from types import ModuleType

from lessonkit.rules import (
    aim_unserved,
    assessed_without_criterion,
    builds_on_in_circle,
    challenge_missing,
    criterion_without_outcome,
    cue_too_long,
    distance_unsaid,
    equipment_not_for_grade,
    group_incomplete,
    minutes_out_of_order,
    outcome_code_wrong,
    outcome_not_active,
    outcome_outside_grades,
    question_missing,
    reference_unknown,
    stop_signal_missing,
    uneven_unsaid,
    unit_length_unclear,
    version_outside_grades,
    waiting_unsaid,
)

RULES: tuple[ModuleType, ...] = (
    reference_unknown,
    outcome_code_wrong,
    outcome_not_active,
    outcome_outside_grades,
    assessed_without_criterion,
    criterion_without_outcome,
    version_outside_grades,
    minutes_out_of_order,
    uneven_unsaid,
    group_incomplete,
    waiting_unsaid,
    distance_unsaid,
    stop_signal_missing,
    equipment_not_for_grade,
    cue_too_long,
    challenge_missing,
    question_missing,
    builds_on_in_circle,
    aim_unserved,
    unit_length_unclear,
)
"""The rules that a check runs."""
