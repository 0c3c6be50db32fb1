"""Maps for the gym wall, not to scale: stations with the way round, or courts, in two rows, and who begins where."""

from lessonkit.document.poster_words import width_at
from lessonkit.document.scene import Area, Label, LabelSize, LegendKind, Scene, Shape, Way

_WIDTH = 5.0
_DEPTH = 3.0
_GAP = 2.0
_ACROSS = 4
"""Courts side by side at the most."""
_BETWEEN = 0.5
_WALL_DEPTH, _WALL_GAP = 3.5, 0.8
"""The depth of a box that holds two lines of as large letters as go into its width, and the way between boxes."""
_MOST_WITH_SQUADS = 4
"""Stations in a row on a wall whose boxes have room for the squad in large letters; of more they hold the number."""
_SLIM, _SLIM_GAP = 4.0, 1.8
"""The width of a box that holds a number only, and the way between such boxes."""
_SLIM_POINTS, _BACK_POINTS = 56.0, 22.0
"""The depth of a box that holds a number only, and the room for the way back below it, in points on paper."""
_WALL_LETTERS: tuple[tuple[LabelSize, float], ...] = (("wall", 36.0), ("poster", 26.0), ("large", 11.0))
"""Letters on a wall and their points: a capital of the largest is 8 mm high and read from three metres."""
_MARGIN = 18.0
"""Points that words in a box keep from its sides."""
_ROUNDING = 1e-6
Point = tuple[float, float]


def rotation_map(beginning: tuple[tuple[int, ...], ...], *, arrows: bool) -> Scene:
    """Draw as many stations as ``beginning`` has entries, each with the squads (from 1) that begin there.

    With ``arrows`` every squad goes on to the next station and from the last to the first.
    """
    corners = _corners(len(beginning))
    shapes: list[Shape] = []
    for number, ((x, y), squads) in enumerate(zip(corners, beginning, strict=True), 1):
        shapes.append(Area(x, y, _WIDTH, _DEPTH, "station", f"station {number}"))
        shapes.append(Label(x + _WIDTH / 2, y + _DEPTH * 0.64, f"Station {number}", "large"))
        shapes.append(Label(x + _WIDTH / 2, y + _DEPTH * 0.3, _begins(squads)))
    legend: list[tuple[LegendKind, str]] = [("station", "station")]
    if arrows and len(corners) > 1:
        shapes.extend(_arrow(corners, number) for number in range(len(corners) if len(corners) > 2 else 1))
        legend.append(("rotation", "way to the next station"))
    width = max(x for x, _ in corners) + _WIDTH + _GAP / 2
    depth = max(y for _, y in corners) + _DEPTH + _GAP / 2
    return Scene(width, depth, tuple(shapes), tuple(legend))


def wall_map(stations: int, across: float) -> Scene:
    """Draw a circuit for a sheet on the wall: a row of stations with the way back below, without a legend.

    Up to four hold their number and the squad that begins there, more of them only the number, which is both. The
    letters are the largest that go into the boxes of a map that is ``across`` points wide.
    """
    lines, width, gap = _wall_boxes(stations)
    scale = across / (stations * (width + gap))
    depth, below = (_WALL_DEPTH, gap) if len(lines) > 1 else (_SLIM_POINTS / scale, _BACK_POINTS / scale)
    letters = _wall_letters(lines[-1].format(stations), scale * width)
    corners = [(gap / 2 + place * (width + gap), below) for place in range(stations)]
    shapes: list[Shape] = []
    for number, (x, y) in enumerate(corners, 1):
        shapes.append(Area(x, y, width, depth, "station", f"station {number}"))
        for line, height in zip(lines, (0.74, 0.26) if len(lines) > 1 else (0.5,), strict=True):
            shapes.append(Label(x + width / 2, y + depth * height, line.format(number), letters))
    shapes.extend(_arrow(corners, number, (width, depth)) for number in range(stations - 1))
    first, last = (x + width / 2 for x, _ in (corners[0], corners[-1]))
    back = ((last, below), (last, below / 2), (first, below / 2), (first, below))
    shapes.append(Way(back, "rotation", "back to station 1"))
    return Scene(stations * (width + gap), below * 1.5 + depth, tuple(shapes))


def least_across(stations: int) -> tuple[float, ...]:
    """Return how wide a wall's map must be, in points, for each size of its letters.

    The first are read from three metres.
    """
    lines, width, gap = _wall_boxes(stations)
    rooms = (width_at(lines[-1].format(stations), points) + _MARGIN for _, points in _WALL_LETTERS)
    return tuple(room * stations * (width + gap) / width for room in rooms)


def _wall_boxes(stations: int) -> tuple[tuple[str, ...], float, float]:
    """Return the lines in a box of a wall's map, braces for its number, the box's width and the way to the next."""
    if stations <= _MOST_WITH_SQUADS:
        return ("{}", "squad {}"), _WIDTH, _WALL_GAP
    return ("{}",), _SLIM, _SLIM_GAP


def _wall_letters(words: str, room: float) -> LabelSize:
    """Return the largest letters in which words go into a box that is ``room`` points wide, or the least."""
    fitting = (size for size, points in _WALL_LETTERS if width_at(words, points) + _MARGIN <= room + _ROUNDING)
    return next(fitting, _WALL_LETTERS[-1][0])


def court_map(begin: tuple[str, ...]) -> Scene:
    """Draw as many courts as ``begin`` has entries, in rows from the top, each with the words that say who begins."""
    across = min(_ACROSS, max(2, len(begin)))
    down = -(-len(begin) // across)
    step_x, step_y = _WIDTH + _BETWEEN, _DEPTH + _BETWEEN
    shapes: list[Shape] = []
    for number, words in enumerate(begin):
        x, y = _BETWEEN / 2 + number % across * step_x, _BETWEEN / 2 + (down - 1 - number // across) * step_y
        shapes.append(Area(x, y, _WIDTH, _DEPTH, "group", f"court {number + 1}"))
        shapes.append(Label(x + _WIDTH / 2, y + _DEPTH * 0.7, f"Court {number + 1}"))
        shapes.append(Label(x + _WIDTH / 2, y + _DEPTH * 0.36, words, "large"))
    return Scene(across * step_x, down * step_y, tuple(shapes), (("group", "court, and who begins there"),))


def _begins(squads: tuple[int, ...]) -> str:
    if not squads:
        return "nobody at first"
    return f"squad{'s' if len(squads) > 1 else ''} {' and '.join(map(str, squads))}"


def _corners(stations: int) -> list[Point]:
    """Return the near left corner of every station: the far row from left to right, the near row back."""
    far = (stations + 1) // 2
    step, edge = _WIDTH + _GAP, _GAP / 2
    row = _DEPTH + _GAP if stations > 1 else 0.0
    there = [(edge + place * step, edge + row) for place in range(far)]
    back = [(edge + place * step, edge) for place in reversed(range(stations - far))]
    return there + back


def _arrow(corners: list[Point], number: int, box: Point = (_WIDTH, _DEPTH)) -> Way:
    """Draw the way from a station to the next, from the middle of one side to the middle of another."""
    (x, y), (to_x, to_y) = corners[number], corners[(number + 1) % len(corners)]
    width, depth = box
    if y == to_y:
        right = to_x > x
        start = (x + width if right else x, y + depth / 2)
        end = (to_x if right else to_x + width, y + depth / 2)
    else:
        down = to_y < y
        start = (x + width / 2, y if down else y + depth)
        end = (to_x + width / 2, to_y + depth if down else to_y)
    return Way((start, end), "rotation", f"on from station {number + 1}")
