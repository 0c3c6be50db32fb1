"""Which outcomes a unit practises."""

from lessonkit.records.library import Library
from lessonkit.records.unit import Unit


def outcomes_of(unit: Unit, library: Library) -> frozenset[str]:
    """Return the outcomes that a unit practises for its classes: by its plans, or its aims where there are none yet."""
    found: set[str] = set()
    for plan in library.plans.values():
        if plan.unit == unit.id:
            used = {slot.activity for lesson in plan.lessons for slot in lesson.activities}
            taught = [library.activities[each] for each in sorted(used) if each in library.activities]
            found.update(code for activity in taught for code in activity.served(unit.framework, "practised"))
    return frozenset(found or {aim.code for aim in unit.aims})
