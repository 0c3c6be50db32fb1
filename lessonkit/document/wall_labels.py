"""Words in a picture for the wall: near to what they name, nearer than to anything else, never over a way or a line.

All lengths are points on paper, x to the right and y up.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot
from typing import Final, NamedTuple

POINTS: Final = 36.0
"""The size of the letters: capitals of 8 millimetres."""
_LINE_HEIGHT = 1.25
_NARROW = frozenset("fijlrtI.,:;'|!()[] ")
_WIDE = frozenset("mwMW@%")
_GAPS: Final = (4.0, 12.0, 24.0, 40.0, 64.0, 96.0)
"""Points between a thing and its words, nearest first."""
_SLIDES: Final = (0.0, -0.5, 0.5, -1.0, 1.0)
"""How far words above and below a thing stand to a side, as a share of what still touches it."""
_EDGE = 4.0
_FREE = 3.0
"""Points kept free around words."""
_COVERED, _CROSSED, _DOUBTFUL = 2000.0, 400.0, 60.0
"""What it costs to cover words or a thing, to stand on a line, to be as near to another thing."""
_NEARER = 8.0
"""Points by which words must be nearer to their own thing than to another."""
_GOOD, _ENOUGH = 10.0, 14
"""What a place costs at the most that is as good as any, and how many of them words need to choose from."""
_PASSES = 4
XY = tuple[float, float]


class Box(NamedTuple):
    """A rectangle: left, low, right and high edge."""

    left: float
    low: float
    right: float
    high: float


class Spot(NamedTuple):
    """A thing on the floor: its middle, half of its width and height, whether it is round."""

    x: float
    y: float
    across: float
    up: float
    round: bool = True


class Named(NamedTuple):
    """Words and what they name: a thing, or the two ends of a line."""

    words: str
    of: Spot | tuple[XY, XY]


class Floor(NamedTuple):
    """What words may not cover: the size of the floor, the things on it, the runs of its lines and ways."""

    width: float
    height: float
    spots: tuple[Spot, ...]
    lines: tuple[tuple[XY, ...], ...]


def label_width(words: str) -> float:
    """Return how wide words are at most."""
    return POINTS * sum(0.34 if letter in _NARROW else 0.95 if letter in _WIDE else 0.58 for letter in words)


def placed(labels: Sequence[Named], floor: Floor) -> tuple[tuple[XY, ...], float]:
    """Return the middles of labels at the best places found, and what the worst of these costs, 0 where none does.

    A cost is the points by which words are too far away; much more where they cover something or may be misread.
    """
    taken = [_around_spot(spot) for spot in floor.spots]
    tried = [_tried(label, floor, taken) for label in labels]
    chosen = [min(places, key=lambda each: each[1]) for places in tried]
    for _ in range(_PASSES):
        before = list(chosen)
        for number, places in enumerate(tried):
            others = [box for other, (box, _) in enumerate(chosen) if other != number]
            chosen[number] = min(places, key=lambda each: each[1] + _over(each[0], others))
        if chosen == before:
            break
    boxes = [box for box, _ in chosen]
    costs = [cost + _over(box, [*boxes[:number], *boxes[number + 1 :]]) for number, (box, cost) in enumerate(chosen)]
    middles = tuple(((box.left + box.right) / 2, (box.low + box.high) / 2) for box in boxes)
    return middles, max(costs, default=0.0)


def _tried(label: Named, floor: Floor, taken: Sequence[Box]) -> list[tuple[Box, float]]:
    """Return places for words with what each costs, until there are enough good ones."""
    found: list[tuple[Box, float]] = []
    good = 0
    for place in dict.fromkeys(_places(label, floor)):
        cost = _alone(label, place, floor, taken)
        found.append((place, cost))
        good += cost <= _GOOD
        if good == _ENOUGH:
            break
    return found


def _over(box: Box, others: Sequence[Box]) -> float:
    return _COVERED * sum(_overlap(box, other) for other in others)


def _overlap(one: Box, other: Box) -> bool:
    return one.left < other.right and other.left < one.right and one.low < other.high and other.low < one.high


def _places(label: Named, floor: Floor) -> Iterator[Box]:
    """Yield places for words all around what they name, inside the floor, the usual ones first."""
    half, high = label_width(label.words) / 2 + _FREE, POINTS * _LINE_HEIGHT / 2
    for spot in _around(label.of):
        for gap in _GAPS:
            away, up = spot.across + gap + half, spot.up + gap + high
            for slide in _SLIDES:
                aside = slide * (half + spot.across * 0.5)
                yield _kept((spot.x + aside, spot.y - up), half, high, floor)
                yield _kept((spot.x + aside, spot.y + up), half, high, floor)
            for slide in _SLIDES:
                aside = slide * (high + spot.up * 0.5)
                yield _kept((spot.x + away, spot.y + aside), half, high, floor)
                yield _kept((spot.x - away, spot.y + aside), half, high, floor)


def _around(of: Spot | tuple[XY, XY]) -> Iterator[Spot]:
    """Yield what words stand around: a thing, or the middle, the ends and the quarters of a line."""
    if isinstance(of, Spot):
        yield of
        return
    (x1, y1), (x2, y2) = of
    for share in (0.5, 0.0, 1.0, 0.25, 0.75):
        yield Spot(x1 + share * (x2 - x1), y1 + share * (y2 - y1), 2.0, 2.0)


def _kept(middle: XY, half: float, high: float, floor: Floor) -> Box:
    x = min(max(middle[0], half + _EDGE), floor.width - half - _EDGE)
    y = min(max(middle[1], high + _EDGE), floor.height - high - _EDGE)
    return Box(x - half, y - high, x + half, y + high)


def _alone(label: Named, box: Box, floor: Floor, taken: Sequence[Box]) -> float:
    """Return what a place costs, whatever other words there are: it covers something, it is far, it is doubtful."""
    own = _distance(box, label.of)
    cost = max(0.0, own - _GAPS[0])
    for spot, around in zip(floor.spots, taken, strict=True):
        if _overlap(box, around):
            cost += _COVERED
        elif _distance(box, spot) < own + _NEARER and not _stand_together(spot, label.of):
            cost += _DOUBTFUL
    crossed = sum(_crosses(box, *ends) for line in floor.lines for ends in pairwise(line))
    return cost + _CROSSED * crossed


def _around_spot(spot: Spot) -> Box:
    """Return the box that writers keep free of words."""
    across, up = spot.across + _FREE, spot.up + _FREE
    return Box(spot.x - across, spot.y - up, spot.x + across, spot.y + up)


def _stand_together(spot: Spot, of: Spot | tuple[XY, XY]) -> bool:
    """Tell whether a thing is what words name, or stands on it or around it, or lies on the line that they name."""
    if isinstance(of, Spot):
        return hypot(spot.x - of.x, spot.y - of.y) < max(spot.across, spot.up, of.across, of.up)
    (x1, y1), (x2, y2) = of
    return min(x1, x2) - spot.across <= spot.x <= max(x1, x2) + spot.across and (
        min(y1, y2) - spot.up <= spot.y <= max(y1, y2) + spot.up
    )


def _distance(box: Box, of: Spot | tuple[XY, XY]) -> float:
    """Return how far words are from a thing's edge or from a line; nothing where they touch it."""
    if isinstance(of, Spot):
        x, y = max(box.left - of.x, of.x - box.right, 0.0), max(box.low - of.y, of.y - box.high, 0.0)
        if of.round:
            return max(0.0, hypot(x, y) - of.across)
        return hypot(max(0.0, x - of.across), max(0.0, y - of.up))
    (x1, y1), (x2, y2) = of
    steps = [(x1 + step / 12 * (x2 - x1), y1 + step / 12 * (y2 - y1)) for step in range(13)]
    return min(hypot(max(box.left - x, x - box.right, 0.0), max(box.low - y, y - box.high, 0.0)) for x, y in steps)


def _crosses(box: Box, start: XY, end: XY) -> bool:
    """Tell whether a line runs through a box or along its edge (Liang and Barsky's clipping)."""
    low, high = 0.0, 1.0
    for at, to, least, most in (
        (start[0], end[0], box.left - _FREE, box.right + _FREE),
        (start[1], end[1], box.low - _FREE, box.high + _FREE),
    ):
        if at == to:
            if not least <= at <= most:
                return False
            continue
        first, second = sorted(((least - at) / (to - at), (most - at) / (to - at)))
        low, high = max(low, first), min(high, second)
    return low <= high
