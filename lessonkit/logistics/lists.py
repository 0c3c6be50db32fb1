"""Who is in which group: lists of children by number, or by initials that a teacher supplies and nobody stores."""

from collections.abc import Sequence
from typing import Literal

Way = Literal["count-off", "neighbours", "back-and-forth"]
"""How children are dealt out: in turn as when a line counts off; neighbours in the line together; or there and back,
which makes groups alike when the line runs from the most to the least practised."""


def deal(children: Sequence[str], sizes: Sequence[int], way: Way = "count-off") -> tuple[tuple[str, ...], ...]:
    """Deal children out to groups of the given sizes, which add up to them; within a group they keep their order.

    Raises ValueError when the sizes do not add up to the children.
    """
    if sum(sizes) != len(children):
        raise ValueError(f"groups of {sum(sizes)} children in all cannot be made of {len(children)}")
    groups: list[list[str]] = [[] for _ in sizes]
    for child, place in zip(children, _places(sizes, way), strict=True):
        groups[place].append(child)
    return tuple(tuple(group) for group in groups)


def _places(sizes: Sequence[int], way: Way) -> list[int]:
    """Return the group of the first child, the second, and so on; a full group is passed over."""
    if way == "neighbours":
        return [place for place, size in enumerate(sizes) for _ in range(size)]
    places: list[int] = []
    for lap in range(max(sizes, default=0)):
        open_groups = [place for place, size in enumerate(sizes) if size > lap]
        places.extend(reversed(open_groups) if way == "back-and-forth" and lap % 2 else open_groups)
    return places


def numbered(children: int) -> tuple[str, ...]:
    """Return the numbers 1 to ``children`` as they are called."""
    return tuple(str(number) for number in range(1, children + 1))
