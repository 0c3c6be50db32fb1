"""A digest of everything that a plan was made from, so that a later change can be seen."""

from hashlib import sha256

import msgspec

from lessonkit.planning.case import Case
from lessonkit.records.plan import Lesson, Plan


def lessons_digest(lessons: tuple[Lesson, ...]) -> str:
    """Return a digest of a plan's lessons, by which a plan edited by hand is known."""
    return sha256(msgspec.json.encode(lessons, order="deterministic")).hexdigest()[:16]


def is_edited(plan: Plan) -> bool:
    """Tell whether a plan's lessons are not as the sequencer wrote them; also true for a plan it never wrote."""
    return plan.made is None or plan.made.lessons != lessons_digest(plan.lessons)


def is_another_choice(old: Plan, new: Plan) -> bool:
    """Tell whether two plans were made from the same records and yet differ: the old one was chosen among several."""
    if old.made is None or new.made is None:
        return False
    return old.made.inputs == new.made.inputs and old.made.lessons != new.made.lessons


def digest(case: Case) -> str:
    """Return a digest of a case: the problem with its lessons' dates, times and spaces.

    Words that do not change what can be planned (a cue, a safety note) leave it as it is.
    """
    inputs = (case.problem, case.places, case.steps)
    return sha256(msgspec.json.encode(inputs, order="deterministic")).hexdigest()[:16]
