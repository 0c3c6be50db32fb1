"""The text of a year map's file, which teachers read and edit."""

from collections.abc import Iterator

from lessonkit.planning.write_plan import scalar
from lessonkit.records.library import Library
from lessonkit.records.year import MapMade, YearMap

_HEADER = """\
# A year map made by the program. It is yours: move a unit by changing its week, then check it again with
#     lessonkit check
# week_of is the Monday of the week that a unit begins in, last the day of its last lesson in any of its classes.
"""


def map_text(found: YearMap, library: Library) -> str:
    """Return the text of a map's file: the same map, the same text, with the units' titles beside their ids."""
    return _HEADER + "\n".join(_lines(found, library)) + "\n"


def _lines(found: YearMap, library: Library) -> Iterator[str]:
    yield "kind: year-map"
    for name in ("id", "title", "year", "school"):
        yield f"{name}: {scalar(getattr(found, name))}"
    if found.made is not None:
        yield from _made(found.made)
    yield "units:"
    for each in found.units:
        words = f"unit: {scalar(each.unit)}, week_of: {each.week_of}, last: {each.last}"
        yield f"  - {{{words}}}  # {library.units[each.unit].title}"
    if found.left_out:
        yield f"left_out: [{', '.join(scalar(unit) for unit in found.left_out)}]"


def _made(made: MapMade) -> Iterator[str]:
    best = "no better map exists" if made.status == "proven" else "a better map may exist"
    yield f"# How the map came about ({best}). Leave this part as it is."
    yield "made:"
    for name in ("lessonkit", "solver", "inputs", "units", "status"):
        yield f"  {name}: {scalar(getattr(made, name))}"
    yield f"  cost: {made.cost}"
    yield f"  bound: {made.bound}"
