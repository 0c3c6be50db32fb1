"""What was changed in a floor drawing: shapes moved, resized, relabelled, added or removed.

LibreOffice frames a group of shapes anew when it saves: all of them are then shifted and stretched alike. What counts
is a shape that moved among the others.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations
from statistics import median

from lessonkit.writers.word.line import Line
from lessonkit.writers.word.look_words import shown

_DRIFT = 25400
"""How far an edge may drift when another program saves a file, in EMU: two points."""
_SAMPLE = 60
_SIDES = 2
_FAR_APART = 100_000


def framed(drawing: Line, shapes: Sequence[Line]) -> Line:
    """Return a drawing with a frame that holds all of its shapes, as LibreOffice frames one whose words stick out."""
    if len(drawing.sizes) < _SIDES or not shapes:
        return drawing
    ends = [
        max(shape.sizes[side] + shape.sizes[side + 2] for shape in shapes) - min(shape.sizes[side] for shape in shapes)
        for side in range(_SIDES)
    ]
    return drawing._replace(sizes=tuple(map(max, drawing.sizes, ends)))


def shape_says(old: Sequence[Line], new: Sequence[Line]) -> Iterator[str]:
    """Yield a sentence for every kind of difference between the shapes of two drawings."""
    if len(old) != len(new):
        more = len(new) - len(old)
        what = "shape was" if abs(more) == 1 else "shapes were"
        yield f"In the drawing {abs(more)} {what} {'added' if more > 0 else 'removed'}."
        return
    labels = [(one.words, other.words) for one, other in zip(old, new, strict=True) if one.words != other.words]
    for before, after in labels:
        yield f"In the drawing the label {shown(before)} is now {shown(after)}."
    recolored = sum(one.look != other.look for one, other in zip(old, new, strict=True))
    if recolored:
        yield f"In the drawing {recolored} {'shape has' if recolored == 1 else 'shapes have'} another color."
    moved, resized = _shifted(old, new)
    for count, what in ((moved, "moved"), (resized, "made larger or smaller")):
        if count:
            yield f"In the drawing {count} {'shape was' if count == 1 else 'shapes were'} {what}."


def _shifted(old: Sequence[Line], new: Sequence[Line]) -> tuple[int, int]:
    """Return how many shapes moved among the others, and how many changed their size."""
    moved: set[int] = set()
    resized: set[int] = set()
    for side in (0, 1):
        before = [(line.sizes[side], line.sizes[side] + line.sizes[side + 2]) for line in old]
        after = [(line.sizes[side], line.sizes[side] + line.sizes[side + 2]) for line in new]
        stretch, shift = _frame(before, after)
        for place, (one, other) in enumerate(zip(before, after, strict=True)):
            first, last = (other[end] - (stretch * one[end] + shift) for end in (0, 1))
            if abs(first - last) > _DRIFT:
                resized.add(place)
            elif abs(first) > _DRIFT:
                moved.add(place)
    return len(moved - resized), len(resized)


def _frame(before: Sequence[tuple[int, int]], after: Sequence[tuple[int, int]]) -> tuple[float, float]:
    """Return how all edges are stretched and shifted, whatever single shapes do: the median slope of pairs."""
    edges = [(one[end], other[end]) for one, other in zip(before, after, strict=True) for end in (0, 1)]
    sample = edges[:: max(1, len(edges) // _SAMPLE)]
    slopes = [
        (other[1] - one[1]) / (other[0] - one[0])
        for one, other in combinations(sample, 2)
        if abs(other[0] - one[0]) > _FAR_APART
    ]
    stretch = median(slopes) if slopes else 1.0
    shifts = [new - stretch * old for old, new in edges]
    return stretch, median(shifts) if shifts else 0.0
