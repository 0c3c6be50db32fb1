"""Which skills go with those of a unit: trained together, building on each other, or using the same equipment."""

from collections import Counter
from collections.abc import Collection

from lessonkit.records.activity import CORE_PARTS, Activity
from lessonkit.records.library import Library

_OFTEN = 0.25
"""From this share of a unit's activities on an item may be typical of the unit."""
_MORE = 2.0
"""An item is typical where the unit uses it so many times as often as the library does."""

_FEW = 5
"""Added to a skill's activities when what they have in common is held against their number."""


def kindred(library: Library, skills: Collection[str], grades: Collection[str]) -> tuple[str, ...]:
    """Return the skills besides a unit's own that some activity of the grades teaches, the nearest of kin first.

    A skill that has nothing in common with the unit's is left out.
    """
    teaching = [record for _, record in sorted(library.activities.items()) if set(record.parts) & set(CORE_PARTS)]
    own = [record for record in teaching if _trained(record) & set(skills)]
    links = _links(own, library)
    typical = _typical(own, teaching)
    kin: Counter[str] = Counter()
    size: Counter[str] = Counter()
    able: set[str] = set()
    for record in teaching:
        together = bool(_trained(record) & set(skills))
        alike = bool(typical & {need.item for need in record.equipment})
        for skill in _trained(record) - set(skills):
            size[skill] += 1
            kin[skill] += 3 * together + 2 * (record.id in links) + alike
            if all(grade in record.grades for grade in grades):
                able.add(skill)
    near = [skill for skill in sorted(able) if kin[skill] and skill in library.skills]
    return tuple(sorted(near, key=lambda skill: (-kin[skill] / (size[skill] + _FEW), skill)))


def _trained(record: Activity) -> set[str]:
    return {step.skill for step in record.skills}


def _links(own: list[Activity], library: Library) -> set[str]:
    """Return the activities that the unit's build on, or that build on those."""
    ids = {record.id for record in own}
    under = {base for record in own for base in record.builds_on}
    return under | {key for key, record in library.activities.items() if ids & set(record.builds_on)}


def _typical(own: list[Activity], everything: list[Activity]) -> set[str]:
    def shares(records: list[Activity]) -> dict[str, float]:
        users = Counter(item for record in records for item in sorted({need.item for need in record.equipment}))
        return {item: number / len(records) for item, number in users.items()}

    usual = shares(everything)
    return {item for item, share in shares(own).items() if share >= max(_OFTEN, _MORE * usual[item])}
