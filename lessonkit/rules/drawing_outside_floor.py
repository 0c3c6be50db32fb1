"""The floor drawing has something outside the floor that one group has.

The drawing shows one group inside its floor, in meters from the near left corner. What lies outside would be drawn over
the neighbors, or not at all.

Fails:

    floor: {length: 2 m, width: 2 m, safety: 1 m}
    drawing:
      marks:
        - {what: child, at: [3, 1]}

Passes:

    floor: {length: 4 m, width: 2 m, safety: 1 m}
    drawing:
      marks:
        - {what: child, at: [3, 1]}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity, Drawing, Floor, Point
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.location import FieldPath

RULE = Rule(Code("LK236", "drawing-outside-floor", Level.WARNING), (Activity,))
_FEW = 2
"""Points that are each said; where there are more, it is rather the floor that is not as it should be."""
_TINY = 0.005
"""Half a centimetre: lengths in feet are rounded when they are drawn."""


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for one or two points of a drawing that are not on its floor; of more only the first."""
    assert isinstance(record, Activity)
    for taught in as_taught(record, "drawing", "floor"):
        drawing, floor = taught.activity.drawing, taught.activity.floor
        if drawing is None or _is_inside(drawing, floor):
            continue
        place = taught.place("drawing")
        outside = [(field, point) for field, point in _points(drawing) if not _is_on(floor, point)]
        more = f"; {len(outside) - 1} further points lie outside too" if len(outside) > _FEW else ""
        for field, point in outside if len(outside) <= _FEW else outside[:1]:
            at = f"{point[0]:g} m along and {point[1]:g} m across"
            says = f"This is {at}, but the floor of a group is {floor.length} by {floor.width}{more}."
            yield Fault((*place, *field) if place[-1] == "drawing" else place, says)


def _is_inside(drawing: Drawing, floor: Floor) -> bool:
    """Tell whether all of a drawing is on its floor, without asking where each point stands in the record."""
    points = [mark.at for mark in drawing.marks]
    points += [mark.to for mark in drawing.marks if mark.to is not None]
    for path in drawing.paths:
        points += path.through
    return _is_on(
        floor, (max((along for along, _ in points), default=0), max((across for _, across in points), default=0))
    )


def _points(drawing: Drawing) -> Iterator[tuple[FieldPath, Point]]:
    for number, mark in enumerate(drawing.marks):
        yield ("marks", number, "at"), mark.at
        if mark.to is not None:
            yield ("marks", number, "to"), mark.to
    for number, path in enumerate(drawing.paths):
        for step, point in enumerate(path.through):
            yield ("paths", number, "through", step), point


def _is_on(floor: Floor, point: Point) -> bool:
    """Tell whether a point is on the floor; a record has no point left of it or below it."""
    return point[0] <= floor.length.metres + _TINY and point[1] <= floor.width.metres + _TINY
