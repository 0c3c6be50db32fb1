"""The map of a lesson with stations: what stands where, and where each squad moves on to."""

from collections.abc import Iterator

from lessonkit.document.floor_plan import building
from lessonkit.document.plan_words import legend, scale_bar
from lessonkit.document.scene import Area, Label, LabelSize, Scene, Shape, Way
from lessonkit.logistics.layout import Box
from lessonkit.logistics.lengths import Lengths
from lessonkit.logistics.stations import StationsAnswer
from lessonkit.logistics.words import listed
from lessonkit.records.school import Space

_EDGE = 0.3
"""Metres of floor shown around a station's areas."""
_ROOMY = 2.2
"""Metres of a station's shorter side from which on its number is large."""
_STEPS = 100
"""Points of a way that are looked at."""
Point = tuple[float, float]


def station_scene(answer: StationsAnswer, space: Space, lengths: Lengths) -> Scene:
    """Draw the stations of a class in their room by number, each with floor for its largest squad, and the way round.

    What lies at a station is on the card of its activity.
    """
    length, width = space.length.metres, space.width.metres
    shapes: list[Shape] = [Area(0, 0, length, width, "room", space.title)]
    boxes = [_shown(station.box, length, width) for station in answer.stations]
    for station, box in zip(answer.stations, boxes, strict=True):
        shapes.append(Area(box.x, box.y, box.length, box.width, "station", f"station {station.number}"))
    shapes.extend(building(space))
    shapes.extend(_arrows(boxes))
    for station, box in zip(answer.stations, boxes, strict=True):
        size: LabelSize = "large" if min(box.length, box.width) >= _ROOMY else "normal"
        shapes.append(Label(box.x + box.length / 2, box.y + box.width / 2, str(station.number), size))
    bar, said = scale_bar(length, lengths)
    words = {"station": "station"}
    return Scene(length, width, tuple(shapes), legend(shapes, words), scale_bar=bar, scale_words=said)


def station_says(answer: StationsAnswer, space: Space) -> str:
    """Say in words what the drawing of stations shows."""
    names = listed([f"{station.number} {station.activity.title}" for station in answer.stations])
    return f"{space.title} with {len(answer.stations)} stations: squads go round {names}."


def _shown(box: Box, length: float, width: float) -> Box:
    """Return a station's floor with an edge around it, inside the room."""
    left, near = max(0.0, box.x - _EDGE), max(0.0, box.y - _EDGE)
    right, far = min(length, box.x + box.length + _EDGE), min(width, box.y + box.width + _EDGE)
    return Box(left, near, right - left, far - near)


def _arrows(boxes: list[Box]) -> Iterator[Way]:
    """Draw an arrow from every station to the next, and from the last to the first, where no other one lies between.

    Two stations have one arrow.
    """
    for number, box in enumerate(boxes if len(boxes) > 2 else boxes[:-1]):
        place = (number + 1) % len(boxes)
        start, end = _leaving(box, boxes[place]), _leaving(boxes[place], box)
        others = [other for at, other in enumerate(boxes) if at not in (number, place)]
        if not any(_crosses(start, end, other) for other in others):
            yield Way((start, end), "rotation", f"on from station {number + 1}")


def _crosses(start: Point, end: Point, box: Box) -> bool:
    """Tell whether a way leads over a box: some point of it lies inside."""
    for step in range(_STEPS + 1):
        x, y = (one + (other - one) * step / _STEPS for one, other in zip(start, end, strict=True))
        if box.x < x < box.x + box.length and box.y < y < box.y + box.width:
            return True
    return False


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
