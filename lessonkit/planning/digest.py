"""A digest of everything that a plan was made from, so that a later change can be seen."""

from hashlib import sha256

import msgspec

from lessonkit.planning.case import Case


def digest(case: Case) -> str:
    """Return a digest of a case: the problem with its lessons' dates, times and spaces.

    Words that do not change what can be planned (a cue, a safety note) leave it as it is.
    """
    inputs = (case.problem, case.places, case.steps)
    return sha256(msgspec.json.encode(inputs, order="deterministic")).hexdigest()[:16]
