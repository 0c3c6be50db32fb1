"""How much floor each child has, beside what has been published for elementary gyms."""

from dataclasses import dataclass
from typing import Final

from lessonkit.logistics.layout import Room

SQUARE_FEET: Final = (110, 150)
"""Indoor floor for each child, in square feet: the guidelines for facilities in elementary physical education of 2001,
from memory. A federal school builder's specification of 2012 gives 5075 square feet for 25 children, 203 for each.
"""
_SQUARE_FOOT: Final = 0.3048 * 0.3048


@dataclass(frozen=True, slots=True)
class FloorPerChild:
    """The floor of each child in square metres, whether it reaches the published least, and a sentence."""

    square_metres: float
    reaches: bool
    says: str


def floor_per_child(room: Room, children: int) -> FloorPerChild:
    """Share a room among children (1 or more)."""
    area = room.length * room.width / children
    feet = area / _SQUARE_FOOT
    least, most = SQUARE_FEET
    whose = "The only child has" if children == 1 else f"Each of {children} children has"
    has = f"{whose} {area:.1f} square meters ({feet:.0f} sq ft)"
    guidance = f"{least} to {most} sq ft published as guidance for elementary gyms"
    if feet < least:
        says = f"{has}, less than the {guidance}; use a second space or let half the class play at a time."
    elif feet <= most:
        says = f"{has}, within the {guidance}."
    else:
        says = f"{has}, more than the {guidance}."
    return FloorPerChild(area, feet >= least, says)
