"""The map of a lesson with stations: what stands where, who begins where, and where each squad moves on to."""

from collections.abc import Iterator

from lessonkit.document.floor_plan import building, group_in_place
from lessonkit.document.plan_words import legend, scale_bar
from lessonkit.document.scene import Area, Label, Scene, Shape, Way
from lessonkit.logistics.groups import group
from lessonkit.logistics.layout import Box
from lessonkit.logistics.lengths import Lengths
from lessonkit.logistics.stations import Station, StationsAnswer
from lessonkit.records.school import Space

_EDGE = 0.3
"""Metres of floor shown around a station's areas."""
Point = tuple[float, float]


def station_scene(answer: StationsAnswer, space: Space, lengths: Lengths) -> Scene:
    """Draw the stations of a class in their room, the children who begin there, and arrows to each next station."""
    length, width = space.length.metres, space.width.metres
    shapes: list[Shape] = [Area(0, 0, length, width, "room", space.title)]
    boxes = [_shown(station.box, length, width) for station in answer.stations]
    for station, box in zip(answer.stations, boxes, strict=True):
        shapes.append(Area(box.x, box.y, box.length, box.width, "station", f"station {station.number}"))
    shapes.extend(shape for station in answer.stations for shape in _spaces(station))
    shapes.extend(building(space))
    first = 1
    for station in answer.stations:
        shapes.extend(_inside(station, first))
        first += station.children
    shapes.extend(_arrows(boxes))
    shapes.extend(_name(station, box, width) for station, box in zip(answer.stations, boxes, strict=True))
    bar, said = scale_bar(length, lengths)
    words = {"station": "station", "group": "group's space"}
    return Scene(length, width, tuple(shapes), legend(shapes, words), scale_bar=bar, scale_words=said)


def _shown(box: Box, length: float, width: float) -> Box:
    """Return a station's floor with an edge around it, inside the room."""
    left, near = max(0.0, box.x - _EDGE), max(0.0, box.y - _EDGE)
    right, far = min(length, box.x + box.length + _EDGE), min(width, box.y + box.width + _EDGE)
    return Box(left, near, right - left, far - near)


def _spaces(station: Station) -> Iterator[Area]:
    for number, placed in enumerate(station.areas, 1):
        box = placed.box
        yield Area(box.x, box.y, box.length, box.width, "group", f"station {station.number}, space {number}")


def _inside(station: Station, first: int) -> Iterator[Shape]:
    """Draw the squad that begins at a station, numbered from ``first``, with what its groups need."""
    if not station.children:
        return
    sizes = group(station.activity.organisation, station.children).sizes
    for placed, size in zip(station.areas, sizes, strict=False):
        yield from group_in_place(station.activity, placed, size, first)
        first += size


def _name(station: Station, box: Box, width: float) -> Label:
    """Name a station above its floor, or below where it reaches the far wall."""
    above = box.y + box.width + 0.4
    y = above if above < width else box.y - 0.4
    return Label(box.x + box.length / 2, y, f"{station.number}  {station.activity.title}")


def _arrows(boxes: list[Box]) -> Iterator[Way]:
    """Draw an arrow from every station to the next, and from the last to the first."""
    if len(boxes) < 2:
        return
    for number, box in enumerate(boxes):
        following = boxes[(number + 1) % len(boxes)]
        yield Way((_leaving(box, following), _leaving(following, box)), "rotation", f"on from station {number + 1}")


def _leaving(box: Box, other: Box) -> Point:
    """Return the point of a box's edge where the shortest way to another leaves it."""
    x = _toward(box.x, box.length, other.x, other.length)
    y = _toward(box.y, box.width, other.y, other.width)
    return round(x, 4), round(y, 4)


def _toward(start: float, size: float, other: float, other_size: float) -> float:
    """Return where a way between two boxes leaves along one axis: the nearer side, or the middle of what both span."""
    if other >= start + size:
        return start + size
    if other + other_size <= start:
        return start
    low, high = max(start, other), min(start + size, other + other_size)
    return (low + high) / 2
