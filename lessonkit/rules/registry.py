"""Every rule, in the order of the numbers of their findings."""

from types import ModuleType

from lessonkit.rules import (
    aim_twice,
    aim_unserved,
    assessed_too_early,
    assessed_without_criterion,
    assessed_without_task,
    birth_date_written,
    builds_on_in_circle,
    builds_on_later_step,
    challenge_missing,
    child_named,
    children_put_out,
    criterion_without_outcome,
    cue_missing,
    cue_too_long,
    distance_unsaid,
    drawing_outside_floor,
    equipment_not_for_grade,
    equipment_short,
    group_incomplete,
    id_twice,
    inclusion_missing,
    lesson_outside_unit,
    lessons_out_of_order,
    line_too_long,
    listed_code_wrong,
    minutes_out_of_order,
    outcome_code_wrong,
    outcome_not_active,
    outcome_outside_grades,
    plan_not_for_unit,
    question_missing,
    reference_unknown,
    setup_too_long,
    step_without_activity,
    stop_signal_missing,
    too_many_cues,
    uneven_unsaid,
    unit_length_unclear,
    version_outside_grades,
    waiting_unsaid,
)

RULES: tuple[ModuleType, ...] = (
    # Names and ids
    reference_unknown,
    id_twice,
    # Outcomes
    outcome_code_wrong,
    outcome_not_active,
    outcome_outside_grades,
    assessed_without_criterion,
    criterion_without_outcome,
    version_outside_grades,
    listed_code_wrong,
    # Time
    minutes_out_of_order,
    setup_too_long,
    # Organisation
    uneven_unsaid,
    group_incomplete,
    waiting_unsaid,
    line_too_long,
    children_put_out,
    drawing_outside_floor,
    # Equipment
    distance_unsaid,
    stop_signal_missing,
    equipment_not_for_grade,
    equipment_short,
    # Teaching
    cue_too_long,
    challenge_missing,
    question_missing,
    cue_missing,
    too_many_cues,
    inclusion_missing,
    # Progression
    builds_on_in_circle,
    builds_on_later_step,
    step_without_activity,
    # Units
    aim_unserved,
    unit_length_unclear,
    aim_twice,
    lesson_outside_unit,
    # Plans
    lessons_out_of_order,
    plan_not_for_unit,
    assessed_too_early,
    assessed_without_task,
    # Privacy
    birth_date_written,
    child_named,
)
"""The rules that a check runs."""
