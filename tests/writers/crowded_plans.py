"""Marks that touch on floor plans: counted with geometry of its own, and over the whole library when run by hand.

``python -m tests.writers.crowded_plans`` draws every activity for three sizes of class in every room of the school as
wide as a lesson's page shows it, and says which plans are crowded.
"""

import sys
from collections import Counter
from collections.abc import Iterator
from itertools import combinations
from math import hypot

from lessonkit.document.floor_plan import lesson_scene
from lessonkit.document.scene import Label, Scene, Segment, Symbol
from lessonkit.logistics.groups import CannotGroupError
from lessonkit.writers.settle import settle
from lessonkit.writers.spread import half_of, stands_on
from tests.document.scenes import library

LESSON_WIDTH = 178.0
"""The points that a lesson's page gives a floor plan: 85 of 100 parts of its column, without the margins."""
_SEEN = 0.1
_ROUND = {"child", "ball", "spot", "hoop"}


def touching(scene: Scene, settled: Scene, scale: float) -> list[tuple[str, str]]:
    """Return the kinds of things whose marks overlap on paper, where neither stands on the other."""
    meant = [shape for shape in scene.shapes if isinstance(shape, Symbol)]
    drawn = [shape for shape in settled.shapes if isinstance(shape, Symbol)]
    halves = [half_of(symbol, scale) for symbol in drawn]
    found = []
    for one, other in combinations(range(len(drawn)), 2):
        x, y = (abs(drawn[one].x - drawn[other].x) * scale, abs(drawn[one].y - drawn[other].y) * scale)
        across, up = (halves[one][side] + halves[other][side] - _SEEN for side in (0, 1))
        whats = {drawn[one].what, drawn[other].what}
        apart = hypot(x, y) >= across if whats <= _ROUND else x >= across or y >= up
        if not apart and not stands_on(meant[one], meant[other]):
            found.append((drawn[one].what, drawn[other].what))
    return found


def outside(settled: Scene, scale: float) -> list[str]:
    """Return what reaches out of the floor by more than a line's thickness, in points."""
    found = []
    for shape in settled.shapes:
        if isinstance(shape, Symbol):
            across, up = (half / scale for half in half_of(shape, scale))
            spare = 1 / scale
            if (
                min(shape.x - across, shape.y - up, settled.width - shape.x - across, settled.depth - shape.y - up)
                < -spare
            ):
                found.append(shape.name)
    return found


def covering_lines(settled: Scene, scale: float) -> list[str]:
    """Return the words that lie over a straight line of a settled scene, but for doors and walls at the very edge."""
    shapes = settled.shapes
    lines = [shape for shape in shapes if isinstance(shape, Segment) and shape.role not in ("wall", "door")]
    return [
        label.words
        for label in shapes
        if isinstance(label, Label) and any(_crosses(label, line, scale) for line in lines)
    ]


def _crosses(label: Label, line: Segment, scale: float) -> bool:
    across, up = len(label.words) * 1.4, 2.5
    steps = [step / 40 for step in range(41)]
    points = [
        ((line.x1 + (line.x2 - line.x1) * step) * scale, (line.y1 + (line.y2 - line.y1) * step) * scale)
        for step in steps
    ]
    return any(abs(x - label.x * scale) < across and abs(y - label.y * scale) < up for x, y in points)


def plans(children: int, room: str) -> Iterator[tuple[str, Scene]]:
    """Yield the plan of every activity, for the oldest grade it is meant for, in a room of the shipped school."""
    space = library().schools["quillfeather"].space(room)
    for key, activity in sorted(library().activities.items()):
        grade = next(grade for grade in reversed("K12345") if grade in activity.grades)
        try:
            yield key, lesson_scene(activity.for_grade(grade), space, children, "feet")
        except CannotGroupError:
            continue


def _sweep() -> None:
    for room in [space.id for space in library().schools["quillfeather"].spaces]:
        for children in (8, 25, 36):
            count, crowded, kinds = 0, [], Counter[tuple[str, str]]()
            for key, scene in plans(children, room):
                scale = LESSON_WIDTH / scene.width
                settled = settle(scene, scale)
                found = touching(scene, settled, scale)
                out = outside(settled, scale)
                count += 1
                kinds.update(found)
                if found or out:
                    crowded.append(key)
            sys.stdout.write(
                f"{room}, {children} children: {len(crowded)} of {count} plans crowded {crowded} {dict(kinds)}\n"
            )


if __name__ == "__main__":
    _sweep()
